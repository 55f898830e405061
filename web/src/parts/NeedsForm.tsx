// What a part needs. It is kept as a whole; what was done before is judged by it from then on.
import { useState } from 'preact/hooks';
import { sayKept } from '../shell/feedback.tsx';
import { go } from '../shell/router.ts';
import { record } from '../shell/state.ts';
import { HoleFields, OperationFields, OtherFields, TemplateField } from './NeedsFields.tsx';
import type { SheetProps } from './PartScreen.tsx';
import { type Steps, saidOpen, stepsFrom, stepsOf, TEMPLATES, wrongWith } from './steps.ts';

export function NeedsForm({ id, card }: SheetProps) {
  const [steps, setSteps] = useState<Steps>(
    () => stepsOf(card.state) ?? stepsFrom(TEMPLATES[0] as (typeof TEMPLATES)[number], null),
  );
  const wrong = wrongWith(steps);
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (wrong) return;
    const body = { ...steps, open: saidOpen(steps.open), die: steps.die?.trim() || null };
    await record([{ kind: 'steps.set.v1', subject: id, body }]);
    sayKept('What it needs: kept');
    go(`/part/${id}`, true);
  };
  const fields = { steps, onChange: setSteps };
  return (
    <form onSubmit={submit}>
      <h2>What this part needs</h2>
      <p class="faint">Common practice, to be adjusted. The kit maker’s plans come first.</p>
      <TemplateField {...fields} />
      <OperationFields {...fields} />
      <HoleFields {...fields} />
      <OtherFields {...fields} />
      {wrong && (
        <p class="problem" role="alert">
          {wrong}
        </p>
      )}
      <button type="submit" class="main" disabled={Boolean(wrong)}>
        This is what it needs
      </button>
    </form>
  );
}
