// The sill's screen: read a tag, and be at its thing in one step.
import { useEffect, useState } from 'preact/hooks';
import { Frame } from '../shell/Frame.tsx';
import { go } from '../shell/router.ts';
import { sync, syncState, version } from '../shell/state.ts';
import { type Found, find } from '../shell/things.ts';
import type { Row } from '../store/rows.ts';
import { check, grouped } from '../twins/tagcode.ts';
import { arrive } from './arrival.tsx';
import { NoTag } from './NoTag.tsx';
import { Scanner } from './Scanner.tsx';
import './tags.css';

/** Go where the tag leads; false where a person must decide first. */
function follow(code: string, found: Found): boolean {
  if (found.is === 'blank') go(`/attach/${code}`, true);
  else if (found.is === 'thing' && !found.row.retired) arrive(found.row, code);
  else return false;
  return true;
}

export function ScanScreen() {
  const [code, setCode] = useState('');
  const read = (now: string): void => {
    const found = find(now);
    if (follow(now, found)) return;
    setCode(now);
    if (found.is === 'unknown') void sync(); // it may have been printed a minute ago
  };
  const again = (): void => setCode('');
  return (
    <Frame title="Scan">
      {code ? (
        <Undecided code={code} again={again} />
      ) : (
        <>
          <Scanner onRead={read} prompt="A part, an offcut or a place." />
          <p class="second">
            <a class="button" href="/tags">
              Print tags
            </a>
          </p>
        </>
      )}
    </Frame>
  );
}

/** The address in a tag that was printed with one: a phone's own camera opens it. */
export function TagScreen({ id }: { id: string }) {
  const { code, sentence } = check(id);
  const [undecided, setUndecided] = useState(false);
  useEffect(() => {
    if (!code || follow(code, find(code))) return;
    setUndecided(true);
    if (find(code).is === 'unknown') void sync();
  }, [code]);
  if (!code) return <NoTag sentence={sentence} />;
  return (
    <Frame title="Tag">
      {undecided && <Undecided code={code} again={() => go('/scan', true)} />}
    </Frame>
  );
}

function Undecided({ code, again }: { code: string; again: () => void }) {
  version.value; // what the workshop's computer answers meanwhile may settle it
  const found = find(code);
  if (found.is === 'thing' && found.row.retired)
    return <Gone code={code} thing={found.row} again={again} />;
  if (found.is !== 'unknown') {
    queueMicrotask(() => follow(code, find(code)));
    return null;
  }
  return (
    <div role="alert">
      <p class="problem">
        <span class="code">{grouped(code)}</span> is a tag, but not one that this device knows.{' '}
        {whyUnknown()}
      </p>
      <p>If you printed it for this workshop, go on and put it on something.</p>
      <button type="button" class="main" onClick={again}>
        Scan again
      </button>
      <p class="second">
        <a class="button" href={`/attach/${code}`}>
          Use this tag anyway
        </a>
      </p>
    </div>
  );
}

function whyUnknown(): string {
  if (syncState.value === 'busy') return 'Asking the workshop computer …';
  if (syncState.value === 'done')
    return 'The workshop computer does not know it either: it may belong to another workshop.';
  return (
    'The workshop computer cannot be asked just now. The tag may have been printed since this ' +
    'device last met it, or belong to another workshop.'
  );
}

function Gone({ code, thing, again }: { code: string; thing: Row; again: () => void }) {
  return (
    <div role="alert">
      <p class="note">
        <span class="code">{grouped(code)}</span> was on {thing.name || 'a thing without a name'},
        which is no longer there.
      </p>
      <button type="button" class="main" onClick={again}>
        Scan again
      </button>
      <p class="second">
        <button type="button" onClick={() => arrive(thing, code)}>
          Look at {thing.name || 'it'}
        </button>
        <a class="button" href={`/attach/${code}`}>
          Put the tag on something else
        </a>
      </p>
    </div>
  );
}
