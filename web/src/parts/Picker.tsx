// Chooses a thing: from the list by words, or by scanning its tag.
import { useState } from 'preact/hooks';
import { later } from '../shell/later.tsx';
import type { Row } from '../store/rows.ts';

const MOST = 8;
const Scanner = later(async () => (await import('../tags/Scanner.tsx')).Scanner, true);

interface Props {
  prompt: string;
  /** what stands in the list for the words typed */
  found: (words: string) => Row[];
  under: (row: Row) => string;
  nothing: string;
  scan: string;
  /** the id behind a tag that was scanned; a sentence where it is none that can be chosen */
  read: (code: string) => { id: string } | { problem: string };
  onPick: (id: string) => void;
}

export function Picker({ prompt, found: search, under, nothing, scan, read, onPick }: Props) {
  const [words, setWords] = useState('');
  const [scanning, setScanning] = useState(false);
  const [problem, setProblem] = useState('');
  const found = search(words);
  const scanned = (code: string): void => {
    const answer = read(code);
    if ('id' in answer) onPick(answer.id);
    else setProblem(answer.problem);
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
        <Scanner onRead={scanned} prompt={scan} />
      ) : (
        <ul class="plain">
          {found.slice(0, MOST).map((row) => (
            <li key={row.id}>
              <button type="button" class="row" onClick={() => onPick(row.id)}>
                <b>{row.name}</b>
                <br />
                <span class="faint">{under(row)}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      {!scanning && !found.length && <p>{nothing}</p>}
      {!scanning && found.length > MOST && (
        <p class="faint">
          {found.length - MOST} more: type {words.trim() ? 'another word' : 'a word of the name'}.
        </p>
      )}
    </div>
  );
}
