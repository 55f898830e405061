// Which holes of a rivet line are meant: stretches of it, and how many holes of each.
import { NumberField } from './Fields.tsx';
import type { Touched } from './layering.ts';
import { dashWords, type Segment } from './segments.ts';
import { counted } from './words.ts';

interface Props {
  segments: readonly Segment[];
  touched: readonly Touched[];
  onChange: (touched: Touched[]) => void;
}

export function TouchedFields({ segments, touched, onChange }: Props) {
  const others = (at: number): Touched[] => touched.filter((one) => one.at !== at);
  return (
    <fieldset class="touched">
      {segments.length > 1 && <legend>At which holes?</legend>}
      {segments.map((segment, at) => {
        const here = touched.find((one) => one.at === at);
        return (
          <div key={`${at} ${segment.name}`}>
            {segments.length > 1 && (
              <label class="tick">
                <input
                  type="checkbox"
                  checked={!!here}
                  onChange={(event) =>
                    onChange(
                      event.currentTarget.checked
                        ? [...others(at), { at, holes: null }]
                        : others(at),
                    )
                  }
                />
                {segment.name}: {holesOf(segment)}, {dashWords(segment.dash)}
              </label>
            )}
            {here && (
              <NumberField
                label={segments.length > 1 ? `How many of ${segment.name}?` : 'How many holes?'}
                hint={`Leave it empty for all: ${holesOf(segment)}.`}
                value={here.holes}
                onChange={(holes) => onChange([...others(at), { at, holes }])}
              />
            )}
          </div>
        );
      })}
    </fieldset>
  );
}

const holesOf = ({ count }: Segment): string =>
  count === null ? 'not counted' : counted(count, 'hole');
