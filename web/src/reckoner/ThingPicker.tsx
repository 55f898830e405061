// Chooses the part or rivet line that an answer is kept with: by its words, or by scanning its tag.
import { useState } from 'preact/hooks';
import { fastenerWords, type Line } from '../parts/lines.ts';
import { underName } from '../parts/listing.ts';
import { later } from '../shell/later.tsx';
import { find, rows, wayTo } from '../shell/things.ts';
import type { Row } from '../store/rows.ts';
import { thingsWith } from './picking.ts';

const MOST = 8;
const Scanner = later(async () => (await import('../tags/Scanner.tsx')).Scanner, true);

interface Props {
  not: string;
  onPick: (id: string) => void;
}

const under = (row: Row): string =>
  row.sort === 'line'
    ? `rivet line, ${fastenerWords(row.fields.line as Line)}`
    : underName(row, wayTo(row.place));

export function ThingPicker({ not, onPick }: Props) {
  const [words, setWords] = useState('');
  const [scanning, setScanning] = useState(false);
  const [problem, setProblem] = useState('');
  const things = [...rows('part'), ...rows('line')].filter((one) => one.id !== not);
  const found = thingsWith(things, words, under);
  const read = (code: string): void => {
    const thing = find(code);
    if (thing.is === 'thing' && thing.row.sort === 'part') onPick(thing.row.id);
    else setProblem('That tag is not on a part. Scan the tag of a part.');
  };
  return (
    <div class="picker">
      <div class="two-beside">
        <label>
          Part or rivet line
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
          {found.slice(0, MOST).map((one) => (
            <li key={one.id}>
              <button type="button" class="row" onClick={() => onPick(one.id)}>
                <b>{one.name}</b>
                <br />
                <span class="faint">{under(one)}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      {!scanning && !found.length && <p>{nothing(things.length)}</p>}
      {!scanning && found.length > MOST && (
        <p class="faint">{found.length - MOST} more: type another word.</p>
      )}
    </div>
  );
}

const nothing = (all: number): string =>
  all ? 'No part or line has all of these words.' : 'There is no part or rivet line yet.';
