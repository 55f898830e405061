// A wanted piece is made: it becomes a part with its steps, and a layer of every line it touches.
import { go } from '../shell/router.ts';
import { openedPhone } from '../shell/state.ts';
import { useKeeping } from '../shell/useKeeping.ts';
import { MakingFields, MakingRecords, useMaking } from './Making.tsx';
import type { Piece } from './wish.ts';
import { capital, pieceWords, unbroken } from './words.ts';

export function MadeForm({ id, piece }: { id: string; piece: Piece }) {
  const { unit } = openedPhone().identity;
  const making = useMaking(id, piece);
  const { problem, keep } = useKeeping();
  const { name, part, wrong } = making;
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (wrong) return;
    if (await keep(making.drafts(unit), `Made: ${name}`)) go(`/part/${part}`, true);
  };
  return (
    <form onSubmit={submit}>
      <h2>It is made</h2>
      <p>{unbroken(capital(pieceWords(piece, unit)))}. It becomes a part of its own.</p>
      <MakingFields id={id} piece={piece} making={making} />
      <section aria-live="polite">
        <h3>What is recorded</h3>
        <ul>
          <MakingRecords piece={piece} making={making} />
        </ul>
      </section>
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      <div class="piece-ways">
        <button type="submit" class="main" disabled={wrong}>
          {name ? `Made: ${name}` : 'Give it a name'}
        </button>
        <a class="button" href={`/wanted/${id}`}>
          Not yet
        </a>
      </div>
    </form>
  );
}
