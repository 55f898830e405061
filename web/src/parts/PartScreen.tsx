import { useEffect, useState } from 'preact/hooks';
import { Frame } from '../shell/Frame.tsx';
import { openedPhone, record, version } from '../shell/state.ts';
import type { Card } from '../store/phone.ts';
import { OPERATIONS } from '../twins/marks.ts';

export function useCard(id: string): Card | null {
  const [card, setCard] = useState<Card | null>(null);
  const now = version.value;
  useEffect(() => {
    let current = true;
    void openedPhone()
      .card(id)
      .then((found) => current && setCard(found));
    return () => {
      current = false;
    };
  }, [id, now]);
  return card;
}

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
