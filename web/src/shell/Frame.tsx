import type { ComponentChildren } from 'preact';
import { ArrivalNote } from '../tags/arrival.tsx';
import './frame.css';
import { follow, go, path } from './router.ts';
import { allowSound } from './sounds.ts';
import { pairAgain, syncState, unsent } from './state.ts';
import { UpdateNote } from './UpdateNote.tsx';

// a key stands here once its screen works
const KEYS = [
  ['/', 'bench'],
  ['/parts', 'parts'],
  ['/offcuts', 'offcuts'],
  ['/places', 'places'],
  ['/reckoner', 'reckoner'],
] as const;

function isAt(to: string): boolean {
  return to === '/' ? path.value === '/' : path.value.startsWith(to);
}

export function sentWords(): string {
  const words = unsent.value ? `${unsent.value} not sent yet` : 'all sent';
  return syncState.value === 'out of reach' && !unsent.value ? 'no network' : words;
}

// Every screen stands in this frame: its own matter, the keys, and the sill.
export function Frame({ title, children }: { title: string; children: ComponentChildren }) {
  document.title = `${title} - Bucktail`;
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: links inside are reached by keyboard; this only spares a reload
    // biome-ignore lint/a11y/noStaticElementInteractions: as above
    <div onClick={follow}>
      <main>
        <header class="head">
          <h1>{title}</h1>
          <a href="/workshop" aria-current={path.value === '/workshop' ? 'page' : undefined}>
            workshop
          </a>
        </header>
        {pairAgain.value && (
          <p class="problem" role="alert">
            The workshop computer does not know this device. Everything recorded here is kept;{' '}
            <a href="/pair">pair it again</a> to send it.
          </p>
        )}
        <UpdateNote />
        <ArrivalNote />
        {children}
      </main>
      <div class="sill">
        <nav class="keys" aria-label="Screens">
          {KEYS.map(([to, word]) => (
            <a href={to} key={to} aria-current={isAt(to) ? 'page' : undefined}>
              {word}
            </a>
          ))}
        </nav>
        <ScanSill />
      </div>
    </div>
  );
}

const SCAN = '/scan';
// whether a screen of ours lies before the scanner, to stop back to
let cameFromHere = false;

// SCAN opens the scanner, STOP leaves it for where one was.
function ScanSill() {
  const scanning = path.value === SCAN;
  if (!scanning) cameFromHere = true;
  if (!scanning)
    return (
      <a class="scan" href={SCAN} onClick={allowSound}>
        SCAN <small>{sentWords()}</small>
      </a>
    );
  return (
    <button
      type="button"
      class="scan"
      onClick={() => (cameFromHere ? history.back() : go('/', true))}
    >
      STOP <small>{sentWords()}</small>
    </button>
  );
}
