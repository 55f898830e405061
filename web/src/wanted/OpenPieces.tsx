// One line where pieces are still to be made; nothing where none is.
import { openPieces } from './open.ts';
import './wanted.css';

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

/** The same as a sentence: "3 pieces are wanted, the one asked for last is Shim under rib 4." */
export function OpenPiecesSaid() {
  const [last, ...others] = openPieces().sort((one, other) => other.touched - one.touched);
  if (!last) return null;
  const link = <a href={`/wanted/${last.id}`}>{last.name}</a>;
  if (!others.length) return <p>A piece is wanted: {link}.</p>;
  return (
    <p>
      <a href="/wanted">{others.length + 1} pieces are wanted</a>, last of them {link}.
    </p>
  );
}
