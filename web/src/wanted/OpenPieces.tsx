// One line where pieces are still to be made; nothing where none is.
import { openPieces } from './open.ts';

export function OpenPieces() {
  const open = openPieces();
  const [first] = open;
  if (!first) return null;
  return (
    <p class="open-pieces">
      <a class="button" href={open.length === 1 ? `/wanted/${first.id}` : '/wanted'}>
        {open.length === 1 ? `Piece wanted: ${first.name}` : `Pieces wanted: ${open.length}`}
      </a>
    </p>
  );
}
