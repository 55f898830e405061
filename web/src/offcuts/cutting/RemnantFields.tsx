// One piece that stays: kept or recycled, its tag, and its size where it came out otherwise.
import { useState } from 'preact/hooks';
import { later } from '../../shell/later.tsx';
import { openedPhone } from '../../shell/state.ts';
import { lastOn, OnWhat } from '../../tags/OnWhat.tsx';
import { whyNot } from '../../tags/whynot.ts';
import { showLength } from '../../twins/lengths.ts';
import { grouped } from '../../twins/tagcode.ts';
import { unbroken } from '../../wanted/words.ts';
import { type Choice, Choices, Problem, Typed } from '../Choices.tsx';
import type { Chosen, Tagged, TagWay } from './choosing.ts';
import { type Remnant, sizeWords } from './leaves.ts';
import { boundsOf, isBox } from './rings.ts';

// the reader is large, and many pieces get their tag later
const Scanner = later(async () => (await import('../../tags/Scanner.tsx')).Scanner, true);

interface Props {
  remnant: Remnant;
  chosen: Chosen;
  /** the tag that is on the offcut */
  tag: Tagged | null;
  problem: string;
  onChange: (change: Partial<Chosen>) => void;
}

export function RemnantFields({ remnant, chosen, tag, problem, onChange }: Props) {
  const { unit } = openedPhone().identity;
  const { key, region, narrow } = remnant;
  const name = unbroken(`${key}: ${sizeWords(region, unit)}`);
  return (
    <li data-wrong={problem ? '' : undefined}>
      <h3>{name}</h3>
      {narrow && <p>Narrower than what is kept here. Recycle it?</p>}
      <Choices
        legend={`What becomes of ${key}?`}
        name={`stays-${key}`}
        choices={[
          { value: 'stays', label: 'it stays' },
          { value: 'recycle', label: 'recycle' },
        ]}
        value={chosen.stays ? 'stays' : 'recycle'}
        onChange={(is) => onChange({ stays: is === 'stays' })}
      />
      {chosen.stays && <TagOf name={key} chosen={chosen} tag={tag} onChange={onChange} />}
      {chosen.stays && isBox(region) && (
        <MeasuresOtherwise remnant={remnant} chosen={chosen} onChange={onChange} />
      )}
      <Problem text={problem} />
    </li>
  );
}

function MeasuresOtherwise({
  remnant: { key, region },
  chosen,
  onChange,
}: Pick<Props, 'remnant' | 'chosen' | 'onChange'>) {
  const { unit } = openedPhone().identity;
  const { x0, y0, x1, y1 } = boundsOf(region.outer);
  const drawn = { a: showLength(x1 - x0, unit), b: showLength(y1 - y0, unit) };
  return (
    <details class="more">
      <summary>It measures otherwise</summary>
      <div class="side-by-side">
        {(['a', 'b'] as const).map((side) => (
          <Typed
            key={side}
            label={side === 'a' ? `First side of ${key}` : 'Second side'}
            name={`${key}-${side}`}
            hint={`drawn ${drawn[side]}`}
            value={chosen[side]}
            onInput={(text) => onChange({ [side]: text })}
            last={side === 'b'}
          />
        ))}
      </div>
    </details>
  );
}

interface TagProps {
  /** how the piece is called here, for the questions */
  name: string;
  chosen: Pick<Chosen, 'tag' | 'code' | 'on'>;
  tag: Tagged | null;
  onChange: (change: Partial<Chosen>) => void;
}

/** The tag of a piece that stays: the one that was on the offcut, a new one, or none yet. */
export function TagOf({ name, chosen, tag, onChange }: TagProps) {
  const [refused, setRefused] = useState('');
  const [changes, setChanges] = useState(false);
  const choices: Choice<TagWay>[] = [
    ...(tag ? [{ value: 'same' as const, label: `${grouped(tag.code)} stays on it` }] : []),
    { value: 'new', label: 'a new tag' },
    { value: 'none', label: 'none yet' },
  ];
  const read = async (code: string): Promise<void> => {
    const why = await whyNot(code, { id: '', name });
    setRefused(why);
    if (!why) onChange({ code, on: lastOn.value });
  };
  if (!changes)
    return (
      <p class="way-to-cut">
        <span>
          Tag of {name}: <TagWords chosen={chosen} tag={tag} />.
        </span>
        <button type="button" onClick={() => setChanges(true)}>
          Change the tag of {name}
        </button>
      </p>
    );
  return (
    <>
      <Choices
        legend={`Tag of ${name}`}
        name={`tag-${name}`}
        columns={1}
        choices={choices}
        value={chosen.tag}
        onChange={(way) => onChange({ tag: way })}
      />
      {chosen.tag === 'new' && (
        <>
          <Problem text={refused} />
          {chosen.code ? (
            <>
              <p>
                Tag <span class="code">{grouped(chosen.code)}</span>{' '}
                <button type="button" onClick={() => onChange({ code: '' })}>
                  Another tag
                </button>
              </p>
              <OnWhat
                value={chosen.on}
                onChange={(on) => onChange({ on })}
                sort="offcut"
                name={`on-${name}`}
              />
            </>
          ) : (
            <Scanner prompt={`Scan the blank tag for ${name}.`} onRead={read} />
          )}
        </>
      )}
    </>
  );
}

function TagWords({ chosen, tag }: Pick<TagProps, 'chosen' | 'tag'>) {
  if (chosen.tag === 'none') return <>none yet</>;
  const code = chosen.tag === 'same' ? tag?.code : chosen.code;
  return (
    <>
      <span class="code">{grouped(code ?? '')}</span>
      {chosen.tag === 'same' && ' stays on it'}
    </>
  );
}
