// One field of a sum, by the kind of what it takes.
import { Choices, Problem } from '../offcuts/Choices.tsx';
import { showLength, type Unit } from '../twins/lengths.ts';
import { isRational, toNumber } from '../twins/rational.ts';
import { read, type Takes } from '../twins/reading.ts';
import { RULES } from './book.ts';
import { Entries } from './Entries.tsx';
import { Thicknesses } from './Thicknesses.tsx';
import { TypedField } from './TypedField.tsx';

export interface FieldProps {
  take: Takes;
  unit: Unit;
  text: string;
  /** of all fields, by key, and by key and number for the entries of a list */
  problems: Readonly<Record<string, string>>;
  onChange: (text: string) => void;
}

export function Field(props: FieldProps) {
  const { take, unit, text, problems, onChange } = props;
  switch (take.kind) {
    case 'thickness':
    case 'thicknesses':
      return <Thicknesses {...props} />;
    case 'lengths':
    case 'angles':
      return <Entries {...props} />;
    case 'rivet':
      return <RivetKeys {...props} />;
    case 'word':
      return <Words {...props} />;
    case 'metal':
      return <Metals {...props} />;
    default:
      return (
        <TypedField
          take={take}
          unit={unit}
          text={text}
          problem={problems[take.key] ?? ''}
          onChange={onChange}
        />
      );
  }
}

/** The diameters there are, in fractions as rivets are named; millimetres below where they are used. */
function RivetKeys({ take, unit, text, problems, onChange }: FieldProps) {
  const chosen = read(take, text, unit, RULES.words);
  const nm = isRational(chosen) ? toNumber(chosen, 0) : 0;
  const name = (size: number): string => showLength(size, 'in', false);
  return (
    <Choices
      legend={`${take.label}, in${unit === 'mm' ? ' (mm)' : ''}`}
      name={take.key}
      columns={6}
      value={nm ? name(nm) : ''}
      onChange={onChange}
      problem={problems[take.key]}
      choices={[
        ...(take.optional ? [NOT_GIVEN] : []),
        ...RULES.words.rivets.map((size) => ({
          value: name(size),
          words: `${name(size)} inch`,
          label:
            unit === 'in' ? (
              name(size)
            ) : (
              <span>
                {name(size)}
                <small>{showLength(size, 'mm', false)}</small>
              </span>
            ),
        })),
      ]}
    />
  );
}

const NOT_GIVEN = { value: '', label: 'none', words: 'not given' };

function Words({ take, text, problems, onChange }: FieldProps) {
  const choices = take.choices.map((word) => ({ value: word, label: word.replaceAll('-', ' ') }));
  const longest = Math.max(...choices.map(({ label }) => label.length));
  const all = take.optional ? [{ ...NOT_GIVEN, label: 'not given' }, ...choices] : choices;
  return (
    <Choices
      legend={take.label}
      name={take.key}
      columns={all.length % 3 === 0 && longest < 13 ? 3 : 2}
      value={text}
      onChange={onChange}
      problem={problems[take.key]}
      choices={all}
    />
  );
}

function Metals({ take, text, problems, onChange }: FieldProps) {
  const problem = problems[take.key];
  const id = `${take.key}-problem`;
  return (
    <div class="field">
      <label>
        {take.label}
        <select
          value={text}
          onChange={(event) => onChange(event.currentTarget.value)}
          aria-invalid={problem ? true : undefined}
          aria-describedby={problem ? id : undefined}
        >
          <option value="">{take.optional ? 'not given' : 'choose'}</option>
          {RULES.words.metals.map((metal) => (
            <option key={metal} value={metal}>
              {metal}
            </option>
          ))}
        </select>
      </label>
      <Problem text={problem} id={id} />
    </div>
  );
}
