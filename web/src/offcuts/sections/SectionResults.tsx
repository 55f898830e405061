// The lengths that serve: drawn with their cut where a length is asked for, else as a list.
import { useState } from 'preact/hooks';
import type { Unit } from '../../twins/lengths.ts';
import { unbroken } from '../../wanted/words.ts';
import { doubtWords, ReserveFor, whereWords } from '../Results.tsx';
import type { Offcut } from '../wanted.ts';
import { BarDrawing } from './BarDrawing.tsx';
import type { SectionFound, SectionServes } from './search.ts';
import { endsWords, type SectionStock } from './section.ts';

const AT_FIRST = 8;

export function SectionResults(props: {
  found: SectionFound;
  unit: Unit;
  /** the part that it is for */
  part: string | null;
}) {
  const { found, unit, part } = props;
  const [more, setMore] = useState(false);
  const drawn = found.serves.filter(({ laid }) => laid);
  const plain = found.serves.filter(({ laid }) => !laid);
  const shown = more ? drawn : drawn.slice(0, AT_FIRST);
  return (
    <>
      <ol class="serves">
        {shown.map((serves) => (
          <Drawn key={serves.offcut.id} serves={serves} unit={unit} part={part} />
        ))}
      </ol>
      {drawn.length > shown.length && (
        <button type="button" onClick={() => setMore(true)}>
          Show {drawn.length - shown.length} more that serve
        </button>
      )}
      <ul class="plain">
        {plain.map(({ offcut, stock }) => (
          <li key={offcut.id}>
            <a href={`/offcut/${offcut.id}`} class="offcut-line">
              <b>{unbroken(offcut.name)}</b>
              <span class="lies">{whereWords(offcut)}</span>
              {notes(offcut, stock).map((note) => (
                <span key={note}>{note}</span>
              ))}
            </a>
          </li>
        ))}
      </ul>
      {found.more_serve > 0 && <p>{found.more_serve} more serve.</p>}
    </>
  );
}

export function barOf(stock: SectionStock, unit: Unit) {
  const { form, section, wall, run } = stock;
  return {
    section: {
      form,
      square: section.square ?? false,
      sides: section.sides.map(({ nm }) => nm),
      wall: wall.nm,
    },
    length: run.length.nm,
    laid: null,
    letters: [],
    unit,
  };
}

function Drawn(props: { serves: SectionServes; unit: Unit; part: string | null }) {
  const { serves, unit, part } = props;
  const { offcut, stock, laid, reason, cautions } = serves;
  return (
    <li>
      <h3>
        <a href={`/offcut/${offcut.id}`}>{unbroken(offcut.name)}</a>
      </h3>
      <p class="lies">{whereWords(offcut)}</p>
      <BarDrawing bar={{ ...barOf(stock, unit), laid }} words={reason} />
      <div class="said">
        <p>{unbroken(reason)}</p>
        {cautions.map((caution) => (
          <p class="note" key={caution}>
            {caution.charAt(0).toUpperCase() + caution.slice(1)}.
          </p>
        ))}
        {part && <ReserveFor offcut={offcut} part={part} />}
      </div>
    </li>
  );
}

function notes(piece: Offcut, { run, section }: SectionStock): string[] {
  const found = [endsWords(run.square_ends ?? 0), ...doubtWords(piece.id)];
  if (section.hand !== 'none') found.push(`${section.hand} hand`);
  if (piece.reserved) found.push(`reserved for ${piece.reserved.text}`);
  if (piece.measured === 'over film') found.push('wall over film, not confirmed');
  if (piece.known_by === 'unknown') found.push('no mark seen');
  return found;
}
