// What is to become of it, and who said so. A decision without a name does not close anything.
import { useState } from 'preact/hooks';
import { Choices, Problem } from '../offcuts/Choices.tsx';
import { go } from '../shell/router.ts';
import { useKeeping } from '../shell/useKeeping.ts';
import type { Decision } from '../twins/findings.ts';
import type { FindingProps } from './FindingScreen.tsx';
import { DECISIONS } from './words.ts';

export function DecideForm({ id, card }: FindingProps) {
  const before = card.state.decided;
  const [decision, setDecision] = useState<Decision | ''>('');
  // who answers is not who asked
  const [who, setWho] = useState((before?.decision !== 'ask the maker' && before?.who) || '');
  const [what, setWhat] = useState('');
  const [asked, setAsked] = useState(false);
  const { problem, keep } = useKeeping();
  const save = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    setAsked(true);
    if (!decision || !who.trim()) return;
    const body = { decision, who: who.trim(), what: what.trim() || null };
    if (await keep([{ kind: 'finding.decided.v1', subject: id, body }], 'Decision written down'))
      go(`/finding/${id}`, true);
  };
  return (
    <form class="stack" onSubmit={save} noValidate>
      <h2>What was decided</h2>
      <Choices
        legend="What is to become of it?"
        name="decision"
        columns={1}
        choices={DECISIONS}
        value={decision}
        onChange={setDecision}
        problem={asked && !decision ? 'Choose what was decided.' : undefined}
      />
      <label>
        Who decided?
        <small>the person or body by name, for example the kit maker's support</small>
        <input
          value={who}
          maxLength={200}
          autocomplete="off"
          onInput={(event) => setWho(event.currentTarget.value)}
        />
      </label>
      <Problem text={asked && !who.trim() ? 'Write the name of who decided.' : ''} />
      <label>
        What is to be done?
        <small>as they said it: document, drawing, sizes</small>
        <textarea
          rows={3}
          value={what}
          maxLength={4000}
          onInput={(event) => setWhat(event.currentTarget.value)}
        />
      </label>
      <Problem text={problem} />
      <button type="submit" class="main">
        Keep this decision
      </button>
      <a class="button" href={`/finding/${id}`}>
        Back, without a decision
      </a>
    </form>
  );
}
