// Chooses a part: from the list by name, number or place, or by scanning its tag.
import { useState } from 'preact/hooks';
import { later } from '../shell/later.tsx';
import { find, rows, wayTo } from '../shell/things.ts';
import { choose, EVERYTHING, haystack, underName, withStrips } from './listing.ts';

const MOST = 8;
const Scanner = later(async () => (await import('../tags/Scanner.tsx')).Scanner, true);

interface Props {
  prompt: string;
  not: string[]; // parts that are not offered
  onPick: (id: string) => void;
}

export function PartPicker({ prompt, not, onPick }: Props) {
  const [words, setWords] = useState('');
  const [scanning, setScanning] = useState(false);
  const [problem, setProblem] = useState('');
  const parts = withStrips(rows('part'), []).filter((one) => !not.includes(one.row.id));
  const found = choose(parts, { ...EVERYTHING, words }, (one) => haystack(one, () => '', wayTo));
  const read = (code: string): void => {
    const thing = find(code);
    if (thing.is === 'thing' && thing.row.sort === 'part' && !not.includes(thing.row.id))
      onPick(thing.row.id);
    else setProblem('That tag is not on a part that can be chosen here. Scan the tag of a part.');
  };
  return (
    <div class="picker">
      <div class="two-beside">
        <label>
          {prompt}
          <input
            type="search"
            value={words}
            autocomplete="off"
            onInput={(event) => setWords(event.currentTarget.value)}
          />
        </label>
        <button type="button" onClick={() => setScanning(!scanning)}>
          {scanning ? 'Choose from the list' : 'Scan its tag'}
        </button>
      </div>
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      {scanning ? (
        <Scanner onRead={read} prompt="The tag of the part." />
      ) : (
        <ul class="plain">
          {found.slice(0, MOST).map(({ row }) => (
            <li key={row.id}>
              <button type="button" class="row" onClick={() => onPick(row.id)}>
                <b>{row.name}</b>
                <br />
                <span class="faint">{underName(row, wayTo(row.place))}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      {!scanning && !found.length && <p>No other part has all of these words.</p>}
      {!scanning && found.length > MOST && (
        <p class="faint">{found.length - MOST} more: type another word.</p>
      )}
    </div>
  );
}
