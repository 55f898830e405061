// Puts right what is known of a part. Only what changed is written.
import { useState } from 'preact/hooks';
import { sayKept } from '../shell/feedback.tsx';
import { go } from '../shell/router.ts';
import { record } from '../shell/state.ts';
import { changedKeys, type Described, describedIn, wrongWithDescription } from './changes.ts';
import { FirstFields, MoreFields } from './DescriptionFields.tsx';
import type { SheetProps } from './PartScreen.tsx';

export function EditPart({ id, card }: SheetProps) {
  const [was] = useState(() => describedIn(card.state));
  const [described, setDescribed] = useState<Described>(was);
  const [unread, setUnread] = useState('');
  const [problem, setProblem] = useState('');
  const body = changedKeys(was, described);
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const wrong = wrongWithDescription(described) || unread;
    setProblem(wrong);
    if (wrong) return;
    await record([{ kind: 'part.described.v1', subject: id, body }]);
    sayKept(`Changed: ${described.name.trim()}`);
    go(`/part/${id}`, true);
  };
  const fields = {
    described,
    onChange: (more: Partial<Described>) => setDescribed((now) => ({ ...now, ...more })),
    onWrong: setUnread,
  };
  return (
    <form onSubmit={submit}>
      <h2>Name, number and the rest</h2>
      <FirstFields {...fields} />
      <MoreFields {...fields} />
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      <button type="submit" class="main" disabled={!Object.keys(body).length}>
        {Object.keys(body).length ? 'Keep the changes' : 'Nothing changed'}
      </button>
    </form>
  );
}
