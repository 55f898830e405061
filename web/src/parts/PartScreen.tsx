import { useState } from 'preact/hooks';
import { Frame } from '../shell/Frame.tsx';
import { record } from '../shell/state.ts';
import { useCard } from '../shell/things.ts';
import { OPERATIONS } from '../twins/marks.ts';

export function PartScreen({ id }: { id: string }) {
  const card = useCard(id);
  const [kept, setKept] = useState('');
  if (!card) return null;
  const next = OPERATIONS.find((row) => row.op === card.state.next);
  const done = async (): Promise<void> => {
    if (!next) return;
    const body = { op: next.op, result: 'all', done: null, of: null };
    await record([{ kind: 'step.recorded.v1', subject: id, body }]);
    setKept(`${next.done_word}: kept`);
  };
  return (
    <Frame title={String(card.state.name)}>
      <p class="figures">{card.state.strip}</p>
      <output>{kept}</output>
      {next && (
        <button type="button" class="main" onClick={done}>
          {next.done_word}: all
        </button>
      )}
    </Frame>
  );
}
