// The cut list: length by length in the order of cutting, drawn, with running dimensions from one
// end. It goes on paper in one ink.
import type { Unit } from '../../twins/lengths.ts';
import { showLength } from '../../twins/lengths.ts';
import { unbroken } from '../../wanted/words.ts';
import { whereWords } from '../Results.tsx';
import { MARKING_OUT } from '../words.ts';
import { BarDrawing } from './BarDrawing.tsx';
import { CutNow } from './CutNow.tsx';
import type { PlanSaw } from './cutlist.ts';
import { barOf } from './SectionResults.tsx';
import type { CutList, FromLength, Kin, WantedPiece } from './wants.ts';
import { datumWords, leavesWords } from './words.ts';

interface Props {
  list: CutList;
  kin: Kin;
  saw: PlanSaw;
  unit: Unit;
  onCut: (made: readonly WantedPiece[]) => void;
}

export function CutListAnswer({ list, kin, saw, unit, onCut }: Props) {
  const { from, unmet, whole } = list;
  return (
    <section class="cut-list-answer" aria-label="What to cut from which length">
      <p class="on-paper">{kin.words}</p>
      <p class="count" aria-live="polite">
        {countWords(list)}
      </p>
      {from.length > 0 && (
        <button type="button" class="print" onClick={() => print()}>
          Print it
        </button>
      )}
      {unmet.length > 0 && (
        <ul class="unmet">
          {unmet.map(({ piece, why }, at) => (
            <li key={at}>
              <b>
                {piece.letter} {piece.name} {unbroken(showLength(piece.length, unit))}
              </b>{' '}
              cannot be had: {unbroken(why)}.
            </li>
          ))}
        </ul>
      )}
      <ol class="serves">
        {from.map((one) => (
          <OneLength key={one.offcut.id} one={one} saw={saw} unit={unit} onCut={onCut} />
        ))}
      </ol>
      {whole.length > 0 && from.length > 0 && (
        <p>
          Not touched:{' '}
          {whole.map((offcut, at) => (
            <span key={offcut.id}>
              {at > 0 && '; '}
              <a href={`/offcut/${offcut.id}`}>{offcut.section?.run.length.text} long</a>
            </span>
          ))}
          .
        </p>
      )}
      {from.length > 0 && (
        <p class="marking-out">
          {MARKING_OUT} (Common practice.) A reminder, not approval: the kit maker’s plans come
          first.
        </p>
      )}
    </section>
  );
}

function countWords({ from, unmet, proved }: CutList): string {
  const had = from.reduce((sum, { pieces }) => sum + pieces.length, 0);
  const all = had + unmet.length;
  const lengths = from.length === 1 ? 'one length' : `${from.length} lengths`;
  if (had === 0) return all === 1 ? 'It cannot be had.' : 'None of them can be had.';
  const pieces = unmet.length
    ? `${had} of ${all} pieces from ${lengths}.`
    : `${had === 1 ? 'The piece' : `All ${had} pieces`} from ${lengths}.`;
  return `${pieces} ${
    proved
      ? 'No other way spoils less useful stock.'
      : 'There are too many ways to try them all; this is the best of those tried.'
  }`;
}

type OneProps = Omit<Props, 'list' | 'kin'> & { one: FromLength };

function OneLength({ one, saw, unit, onCut }: OneProps) {
  const { offcut, section, stock, laid, pieces } = one;
  const letters = pieces.map(({ letter }) => letter);
  const words = `${offcut.name}: ${pieces
    .map(({ letter, length }) => `${letter} ${showLength(length, unit)}`)
    .join(', ')}. ${leavesWords(laid, stock, saw, unit)}`;
  return (
    <li class="one-length">
      <h3>
        <a href={`/offcut/${offcut.id}`}>{unbroken(offcut.name)}</a>
      </h3>
      <p class="lies">{whereWords(offcut)}</p>
      <BarDrawing
        bar={{ ...barOf(section, unit), section: null, laid, letters }}
        words={words}
        reminder={false}
      />
      <div>
        <p>{unbroken(datumWords(laid, stock, unit))}</p>
        <Cuts one={one} unit={unit} />
        <p>{unbroken(leavesWords(laid, stock, saw, unit))}</p>
        <CutNow one={one} saw={saw} unit={unit} onCut={onCut} />
      </div>
    </li>
  );
}

function Cuts({ one: { laid, pieces }, unit }: { one: FromLength; unit: Unit }) {
  return (
    <table class="cuts">
      <thead>
        <tr>
          <th scope="col">Saw beyond the mark at, {unit}</th>
          <th scope="col">Piece</th>
          <th scope="col">Dress to, {unit}</th>
        </tr>
      </thead>
      <tbody>
        {pieces.map(({ letter, name, length }, at) => {
          const cut = laid.cuts[at];
          return (
            <tr key={at}>
              <td>{cut ? unbroken(showLength(cut.at, unit, false)) : 'no cut: the end of it'}</td>
              <td>
                {letter} {name}
              </td>
              <td>{unbroken(showLength(length, unit, false))}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
