// A wanted piece drawn: from the sum it came of where that still gives the same blank, else its
// blank as it is recorded. Loads the rules.
import { SheetDrawing } from '../offcuts/SheetDrawing.tsx';
import { RULES, sumNamed } from '../reckoner/book.ts';
import { Drawings } from '../reckoner/Drawings.tsx';
import { drawingsOf } from '../reckoner/drawn.ts';
import { openedPhone } from '../shell/state.ts';
import type { KeptSum } from '../twins/kept.ts';
import { type Answer, isUnreckoned, reckon, type Sum } from '../twins/reckon.ts';
import { type Piece, sameBlank } from './wish.ts';
import { bendWords, capital, grainWords, pieceWords, unbroken } from './words.ts';

export function PieceDrawing({ piece, sums }: { piece: Piece; sums: KeptSum[] }) {
  const { unit } = openedPhone().identity;
  const reckoned = [...sums].reverse().flatMap((kept) => reckonedAgain(kept, piece) ?? [])[0];
  const shown = reckoned
    ? drawingsOf(RULES, reckoned.sum, reckoned.answer, reckoned.inputs, unit)
    : [];
  // a joint alone does not show the piece
  const whole = shown.some(({ is }) => is === 'layout' || is === 'flat');
  const words = [capital(pieceWords({ ...piece, count: 1 }, unit)), grainWords(piece, unit)];
  return (
    <>
      {reckoned && shown.length > 0 && <Drawings {...reckoned} unit={unit} />}
      {!whole && (
        <SheetDrawing
          a={piece.a}
          b={piece.b}
          grain={piece.grain === 'any' ? 'unknown' : piece.grain}
          unknown="grain either way"
          words={`The blank: ${words.join('. ')}`}
        />
      )}
      {!whole && bendWords(piece, unit).map((bend) => <p key={bend}>{unbroken(bend)}</p>)}
    </>
  );
}

interface Reckoned {
  sum: Sum;
  answer: Answer;
  inputs: KeptSum['inputs'];
}

// As this phone's rules reckon it now; null where that is another blank than the one recorded.
function reckonedAgain(kept: KeptSum, piece: Piece): Reckoned | null {
  const sum = sumNamed(kept.sum);
  if (!sum?.piece) return null;
  const answer = reckon(RULES, kept.sum, kept.inputs, kept.unit);
  if (isUnreckoned(answer) || !sameBlank(answer, piece)) return null;
  return { sum, answer, inputs: kept.inputs };
}
