// The lengths wanted, line by line: how long, how many, what for. Typed, or from pieces wanted.
import { showLength, type Unit } from '../../twins/lengths.ts';
import { openPieces, pieceOf } from '../../wanted/open.ts';
import { Problem } from '../Choices.tsx';
import { EMPTY_LINE, type LineProblems, letterOf, type WantedLine } from './wants.ts';

interface Props {
  lines: readonly WantedLine[];
  problems: readonly LineProblems[];
  unit: Unit;
  onChange: (lines: WantedLine[]) => void;
}

export function LinesForm({ lines, problems, unit, onChange }: Props) {
  const change = (at: number, part: Partial<WantedLine>): void =>
    onChange(lines.map((line, index) => (index === at ? { ...line, ...part } : line)));
  const add = (line: WantedLine): void => {
    const last = lines.at(-1);
    // an empty line at the end is filled rather than left standing
    onChange(last && !last.length.trim() ? [...lines.slice(0, -1), line] : [...lines, line]);
  };
  return (
    <fieldset class="choices wanted-lines">
      <legend>
        Lengths wanted
        <small>As they are to be when their ends are dressed.</small>
      </legend>
      {lines.map((line, at) => (
        <Line
          key={letterOf(at)}
          letter={letterOf(at)}
          line={line}
          problem={problems[at]}
          unit={unit}
          onChange={(part) => change(at, part)}
          onRemove={lines.length > 1 ? () => onChange(lines.filter((_, i) => i !== at)) : null}
        />
      ))}
      <button type="button" onClick={() => onChange([...lines, EMPTY_LINE])}>
        Another length
      </button>
      <FromPieces unit={unit} onTake={add} />
    </fieldset>
  );
}

function Line(props: {
  letter: string;
  line: WantedLine;
  problem: LineProblems | undefined;
  unit: Unit;
  onChange: (part: Partial<WantedLine>) => void;
  onRemove: (() => void) | null;
}) {
  const { letter, line, problem, unit, onChange, onRemove } = props;
  const figure = (field: keyof WantedLine, label: string, most: number) => (
    <label class={`line-${field}`}>
      {label}
      <input
        value={line[field]}
        onInput={(event) => onChange({ [field]: event.currentTarget.value })}
        autocomplete="off"
        autocapitalize="off"
        spellcheck={false}
        enterkeyhint="next"
        maxLength={most}
        inputMode={field === 'count' ? 'numeric' : 'text'}
        aria-invalid={field !== 'name' && problem?.[field] ? true : undefined}
      />
    </label>
  );
  return (
    <fieldset class="wanted-line" aria-label={`Length ${letter}`}>
      <b class="line-letter">{letter}</b>
      {figure('length', `Length, ${unit}`, 40)}
      {figure('count', 'How many', 3)}
      {figure('name', 'What for', 80)}
      {onRemove && (
        <button type="button" onClick={onRemove} aria-label={`Take out length ${letter}`}>
          Out
        </button>
      )}
      <Problem text={problem?.length ?? problem?.count} />
    </fieldset>
  );
}

/** The longer side of a piece that is wanted is the length that is sawn. */
function FromPieces({ unit, onTake }: { unit: Unit; onTake: (line: WantedLine) => void }) {
  const open = openPieces();
  if (!open.length) return null;
  return (
    <details class="more from-pieces">
      <summary>From the pieces wanted</summary>
      <ul class="plain">
        {open.map((row) => {
          const { a, b, count, name } = pieceOf(row);
          const length = showLength(Math.max(a.nm, b.nm), unit);
          return (
            <li key={row.id}>
              <button
                type="button"
                class="row"
                onClick={() => onTake({ length, count: String(count), name })}
              >
                <b>{name}</b>: {count} of {length}
              </button>
            </li>
          );
        })}
      </ul>
    </details>
  );
}
