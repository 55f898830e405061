// The first screen: what to know before anything is touched, as sentences, the first the most
// important.

import { useMemo } from 'preact/hooks';
import { isOpen, standingWords } from '../findings/words.ts';
import { letterOf } from '../parts/headlines.ts';
import { type Listed, withStrips } from '../parts/listing.ts';
import { SmallStrip } from '../parts/StepStrip.tsx';
import { capital, counted, listed } from '../parts/words.ts';
import { Finder } from '../places/Finder.tsx';
import { currentRun } from '../runs/current.ts';
import { planTitle } from '../runs/plan.ts';
import { scansWords } from '../runs/words.ts';
import { Frame } from '../shell/Frame.tsx';
import { syncState, unsent, version } from '../shell/state.ts';
import { pathOf, row as rowOf, rows, wayTo } from '../shell/things.ts';
import type { Row } from '../store/rows.ts';
import { OPERATIONS } from '../twins/marks.ts';
import './bench.css';
import { OpenPiecesSaid } from '../wanted/OpenPieces.tsx';
import {
  type Bench,
  benchOf,
  byPlace,
  filmDays,
  finished,
  nextFor,
  type Ready,
} from './sentences.ts';
import { useUnsettled } from './unsettled.ts';

const MOST = 4;

export function BenchScreen() {
  const now = version.value;
  const parts = useMemo(() => withStrips(rows('part'), rows('line')), [now]);
  const bench = useMemo(() => benchOf(parts), [parts]);
  const others = ['line', 'offcut', 'place']
    .flatMap((sort) => rows(sort))
    .filter((one) => one.answers > 0);
  return (
    <Frame title="Bench">
      {parts.length ? (
        <Finder>
          <div class="bench">
            <RunUnderWay />
            <Where bench={bench} />
            <Look parts={bench.look} others={others} findings={rows('finding').filter(isOpen)} />
            <UnderWay parts={bench.underWay} />
            <ReadyNow ready={bench.ready} />
            <OpenPiecesSaid />
            <Film parts={bench.film} />
            <p class="faint">{standing(parts)}</p>
          </div>
        </Finder>
      ) : (
        <Begin />
      )}
    </Frame>
  );
}

// "Rudder skin, left": two parts of one name are told apart by hand or number.
export function called(part: Row): string {
  const { hand, number } = part.fields;
  const more = typeof hand === 'string' ? hand : typeof number === 'string' ? number : '';
  return more ? `${part.name}, ${more}` : part.name;
}

function Link({ thing }: { thing: Row }) {
  return <a href={pathOf(thing)}>{called(thing)}</a>;
}

function day(at: number): string {
  const then = new Date(at);
  const days = Math.round((new Date().setHours(0, 0, 0, 0) - then.setHours(0, 0, 0, 0)) / 864e5);
  if (days <= 1) return days === 1 ? 'Yesterday' : 'Today';
  return `On ${new Date(at).toLocaleDateString('en-GB', { weekday: 'long', day: 'numeric', month: 'long' })}`;
}

function opName(op: string): string {
  return OPERATIONS.find((row) => row.op === op)?.name ?? op;
}

function RunUnderWay() {
  const run = currentRun();
  if (!run || run.finished) return null;
  const placeName = (id: string): string => rowOf(id)?.name ?? 'a place';
  return (
    <a class="button main" href="/run">
      Go on: {planTitle(run.plan, placeName).toLowerCase()}, {scansWords(run)} so far
    </a>
  );
}

function Where({ bench: { last } }: { bench: Bench }) {
  if (!last) return null;
  const next = nextFor(last);
  const way = wayTo(last.row.place);
  const rest = finished(last)
    ? 'It needs nothing more.'
    : letterOf(last.strip, next) === 'l'
      ? `Look at it: ${opName(next)}?`
      : next
        ? `Next on it: ${opName(next)}.`
        : '';
  return (
    <p class="where">
      {day(last.row.touched)} you stopped at <Link thing={last.row} />
      {way.length > 0 && `, in ${way.at(-1)}`}. {rest}
    </p>
  );
}

function Look(props: { parts: Listed[]; others: Row[]; findings: Row[] }) {
  const { parts, others, findings } = props;
  const { aside, waiting } = useUnsettled();
  const said = [...parts.map(({ row, strip }) => ({ row, strip })), ...others.map(plain)];
  if (!said.length && !findings.length && !aside && !waiting) return null;
  return (
    <section class="look" aria-label="To be settled">
      {waiting && <p>{waiting}</p>}
      {said.map(({ row, strip }) => (
        <p key={row.id}>
          <Link thing={row} />: {strip.includes('l') ? 'look at the part' : 'two different answers'}
          .
        </p>
      ))}
      {findings.map((one) => (
        <p key={one.id}>
          Finding on {rowOf(String(one.fields.on))?.name ?? 'a part'}:{' '}
          <a href={pathOf(one)}>{String(one.fields.what)}</a>, {standingWords(one)}.
        </p>
      ))}
      {aside > 0 && (
        <p>
          <a href="/workshop">{counted(aside, 'entry', 'entries')}</a> could not be taken up.
        </p>
      )}
    </section>
  );
}

const plain = (row: Row): { row: Row; strip: string } => ({ row, strip: '' });

function UnderWay({ parts }: { parts: Listed[] }) {
  if (!parts.length) return null;
  return (
    <section aria-labelledby="under-way">
      <h2 id="under-way">Under way</h2>
      <ul class="plain">
        {parts.map((one) => (
          <li key={one.row.id}>
            <a href={pathOf(one.row)}>
              <b>{called(one.row)}</b>
              <span class="rest">{`: ${opName(nextFor(one)) || 'nothing it can go on with'}`}</span>
              <SmallStrip strip={one.strip} />
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}

function ReadyNow({ ready }: { ready: Ready[] }) {
  return (
    <section aria-labelledby="ready">
      <h2 id="ready">Ready now</h2>
      {!ready.length && <p>No part is ready for a next step.</p>}
      {ready.map((one) => (
        <details key={one.row.op}>
          <summary>
            <span>
              <b>{capital(one.row.name)}</b>: {counted(one.parts.length, 'part')}
              {places(one.parts)}.
            </span>
          </summary>
          <ReadyParts ready={one} />
        </details>
      ))}
      <a class="button many" href="/run?new">
        One step on many parts
      </a>
    </section>
  );
}

// The parts in the order they are fetched, place by place, and the run that scans them.
function ReadyParts({ ready: { row: op, parts } }: { ready: Ready }) {
  return (
    <>
      <ul class="plain">
        {byPlace(parts.map(({ row }) => row)).map((row) => (
          <li key={row.id}>
            <a href={pathOf(row)}>
              {called(row)}
              <span class="rest"> {wayTo(row.place).at(-1) ?? ''}</span>
            </a>
          </li>
        ))}
      </ul>
      <a class="button many" href={`/run?op=${op.op}`}>
        Scan them: {op.name}
      </a>
    </>
  );
}

// ", in Shelf 2 and Box C": the places that hold most of them
function places(parts: Listed[]): string {
  const count = new Map<string, number>();
  for (const { row } of parts) if (row.place) count.set(row.place, (count.get(row.place) ?? 0) + 1);
  const names = [...count]
    .sort(([, a], [, b]) => b - a)
    .map(([id]) => rowOf(id)?.name ?? '')
    .filter(Boolean);
  if (!names.length) return '';
  const more = names.length > MOST ? ['other places'] : [];
  return `, in ${listed([...names.slice(0, more.length ? MOST - 1 : MOST), ...more])}`;
}

function Film({ parts }: { parts: Listed[] }) {
  const first = parts.slice(0, MOST);
  if (!first.length) return null;
  return (
    <section aria-labelledby="film">
      <h2 id="film">Film on longest</h2>
      <ul class="plain">
        {first.map((one) => (
          <li key={one.row.id}>
            <a href={pathOf(one.row)}>
              {called(one.row)}
              <span class="rest">{`, ${counted(filmDays(one, Date.now()), 'day')}`}</span>
            </a>
          </li>
        ))}
      </ul>
      <p class="faint">Film left on for years can be hard to take off (common practice).</p>
    </section>
  );
}

function standing(parts: Listed[]): string {
  const done = parts.filter(finished).length;
  return `${done} of ${counted(parts.length, 'part')} need nothing more; ${counted(rows('offcut').length, 'offcut')} kept. ${
    unsent.value ? `${unsent.value} not sent yet.` : ''
  }`;
}

function Begin() {
  return (
    <>
      <p role="status">
        {syncState.value === 'busy'
          ? 'Reading from the workshop computer …'
          : 'Nothing is entered in this workshop yet.'}
      </p>
      <ol class="begin">
        <li>
          On the workshop computer make a sheet of blank tags and print it at actual size:{' '}
          <code class="code">bucktail tags print --out tags.pdf --new 21</code>
        </li>
        <li>Stick a tag on a part, an offcut, a box or a shelf.</li>
        <li>Scan it and say what it is.</li>
      </ol>
      <a class="button main" href="/scan">
        Scan a blank tag
      </a>
      <p class="without-tag">
        <a class="button" href="/new-part">
          Add a part without a tag
        </a>
      </p>
    </>
  );
}
