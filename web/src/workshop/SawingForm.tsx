// What a saw cut and the dressing of its ends take, for the offcuts of angle, channel and tube.
import { useState } from 'preact/hooks';
import { Typed } from '../offcuts/Choices.tsx';
import {
  ALLOWANCES,
  type Allowance,
  type Allowances,
  allowancesIn,
} from '../offcuts/sections/allowances.ts';
import { openedPhone, sync } from '../shell/state.ts';
import type { Sawing } from '../store/database.ts';
import { OutOfReach } from '../sync/wire.ts';
import { readLength, type Unit } from '../twins/lengths.ts';
import { type Asked, agree } from './workshopwire.ts';

const LABELS: Record<Allowance, string> = {
  kerf: 'Width of a saw cut',
  dress_off: 'Dressed off each sawn end',
  shortest: 'Shortest piece of section stock worth keeping',
  narrowest: 'Narrowest piece of sheet worth keeping',
};
type Typing = Record<Allowance, string>;
const LONGEST_NM = 1_000_000_000;

export function SawingForm() {
  const { identity } = openedPhone();
  const [typed, setTyped] = useState<Typing>(() => ownWords(identity.sawing));
  const [said, setSaid] = useState('');
  const [problem, setProblem] = useState('');
  const [tried, setTried] = useState(false);
  const standing = allowancesIn(identity.unit);
  const read = readTyped(typed, identity.unit);
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    setTried(true);
    setSaid('');
    setProblem('');
    if (Object.keys(read.problems).length) return;
    try {
      const now = await agree({ sawing: read.sawing });
      await openedPhone().agree(now.name, now.unit, now.sawing);
      setTyped(ownWords(now.sawing));
      setSaid('Changed for every device.');
      void sync();
    } catch (failed) {
      const why = failed instanceof Error ? failed.message : String(failed);
      const more = ' All devices agree on this. Nothing changed.';
      setProblem(why + (failed instanceof OutOfReach ? more : ''));
    }
  };
  return (
    <section aria-labelledby="sawing" class="sawing">
      <h2 id="sawing">Sawing, and what is worth keeping</h2>
      <p>Leave a line empty and what stands beside it is reckoned with.</p>
      <form onSubmit={submit} noValidate>
        {ALLOWANCES.map((name) => (
          <Typed
            key={name}
            label={LABELS[name]}
            hint={hint(standing, name)}
            name={`sawing-${name}`}
            value={typed[name]}
            onInput={(text) => setTyped((last) => ({ ...last, [name]: text }))}
            problem={tried ? read.problems[name] : undefined}
            last={name === 'narrowest'}
          />
        ))}
        {problem && (
          <p class="problem" role="alert">
            {problem}
          </p>
        )}
        <button type="submit">Keep what the saw takes</button>
        <output class="outcome">{said}</output>
      </form>
    </section>
  );
}

function hint(standing: Allowances, name: Allowance): string {
  const { text, note } = standing[name];
  return `Common practice: ${text}${note && `, ${note}`}.`;
}

function ownWords(sawing: Sawing = {}): Typing {
  const words = ALLOWANCES.map((name) => [name, sawing[name]?.text ?? '']);
  return Object.fromEntries(words) as Typing;
}

/** Nothing at all is a length here too: shears take none. An empty line takes back what was said. */
function readTyped(typed: Typing, unit: Unit) {
  const sawing: NonNullable<Asked['sawing']> = {};
  const problems: Partial<Record<Allowance, string>> = {};
  for (const name of ALLOWANCES) {
    const text = typed[name].trim();
    if (!text) sawing[name] = null;
    else if (/^0*[.,]?0*( ?(in|mm))?$/.test(text)) sawing[name] = { nm: 0, text };
    else {
      const read = readLength(text, unit);
      if ('sentence' in read) problems[name] = read.sentence;
      else if (read.nm > LONGEST_NM) problems[name] = 'That is longer than 1 m. Check its unit.';
      else sawing[name] = read;
    }
  }
  return { sawing, problems };
}
