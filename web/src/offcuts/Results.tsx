// What serves, the one that spoils least first, and why each near miss does not.
import { useState } from 'preact/hooks';
import { row, wayTo } from '../shell/things.ts';
import { useKeeping } from '../shell/useKeeping.ts';
import type { Placement } from '../twins/fit.ts';
import { showLength, type Unit } from '../twins/lengths.ts';
import { grouped } from '../twins/tagcode.ts';
import { addressOf } from './asked.ts';
import { BetterCut } from './BetterCut.tsx';
import { Problem } from './Choices.tsx';
import { OddCutDrawing } from './OddCutDrawing.tsx';
import type { OddPlacement } from './odd.ts';
import { fieldWords } from './piece.ts';
import { SheetDrawing } from './SheetDrawing.tsx';
import type { Found, NearMiss, Offcut, Outline, Rectangle, Serves, Want } from './wanted.ts';
import { leftOver, measuredText } from './words.ts';

const AT_FIRST = 8;

export function Results({ found, want, unit }: { found: Found; want: Want; unit: Unit }) {
  const [more, setMore] = useState(false);
  const shown = more ? found.serves : found.serves.slice(0, AT_FIRST);
  return (
    <>
      <ol class="serves">
        {shown.map((serves) => (
          <ServesItem key={serves.offcut.id} serves={serves} want={want} unit={unit} />
        ))}
      </ol>
      {found.serves.length > shown.length && (
        <button type="button" onClick={() => setMore(true)}>
          Show {found.serves.length - shown.length} more that serve
        </button>
      )}
      {more && found.more_serve > 0 && <p>{found.more_serve} more serve and spoil more.</p>}
      {found.near.length > 0 && <h2>Near misses</h2>}
      <NearMisses near={found.near} />
      {found.more_near > 0 && <p>{found.more_near} more come near.</p>}
    </>
  );
}

/** How many serve, in a sentence that is read out as it changes. */
export function countWords(found: Found): string {
  const serve = found.serves.length + found.more_serve;
  const near = found.near.length + found.more_near;
  const first = serve === 0 ? 'No offcut serves.' : `${serve} ${serve === 1 ? 'serves' : 'serve'}.`;
  if (near > 0) return `${first} ${near} ${near === 1 ? 'comes' : 'come'} near.`;
  if (serve > 0) return first;
  return found.searched
    ? `${first} None of the ${found.searched} comes near.`
    : `${first} There is none of sheet.`;
}

/** Where to go for it: its tag and its place. */
export function whereWords({ codes, place }: Pick<Offcut, 'codes' | 'place'>): string {
  const [code] = codes;
  const tag = code ? `tag ${grouped(code)}` : 'no tag';
  const way = wayTo(place);
  return way.length ? `${tag}, in ${way.reverse().join(', ')}` : `${tag}, place not known`;
}

function ServesItem({ serves, want, unit }: { serves: Serves; want: Want; unit: Unit }) {
  const { offcut, placement, reason, cautions } = serves;
  const odd = placement.laid === 'in an outline';
  return (
    <li>
      <h3>
        <a href={`/offcut/${offcut.id}`}>{offcut.name}</a>
      </h3>
      <p class="lies">{whereWords(offcut)}</p>
      {placement.laid === 'in an outline' ? (
        <OddCut offcut={offcut} placement={placement} want={want} unit={unit} words={reason} />
      ) : (
        <SheetCut offcut={offcut} placement={placement} want={want} unit={unit} words={reason} />
      )}
      <div class="said">
        <p>{reason}</p>
        {cautions.map((caution) => (
          <p class="note" key={caution}>
            {caution.charAt(0).toUpperCase() + caution.slice(1)}.
          </p>
        ))}
        <a class="button" href={cutAddress(offcut.id, want, unit)}>
          Cut it
        </a>
        {odd && <BetterCut offcut={offcut} want={want} unit={unit} />}
        {want.wanted_for && <ReserveFor offcut={offcut} part={want.wanted_for} />}
      </div>
    </li>
  );
}

/** The screen on which it is cut, with what was asked for. */
function cutAddress(id: string, want: Want, unit: Unit): string {
  const { width_nm, height_nm, grain, clearance_nm: clear } = want;
  const asked = addressOf({
    width: showLength(width_nm, unit),
    height: showLength(height_nm, unit),
    grain,
    clear: clear > 0 ? showLength(clear, unit) : '',
  });
  return asked.replace('/offcuts', `/cut/${id}`);
}

interface CutProps<P> {
  offcut: Offcut;
  placement: P;
  want: Want;
  unit: Unit;
  words: string;
}

function SheetCut({ offcut, placement, want, unit, words }: CutProps<Placement>) {
  const shape = offcut.shape as Rectangle;
  const show = (nm: number): string => showLength(nm, unit, false);
  const cut = {
    placement,
    show,
    blank: blankWords(want, unit),
    stays: staysWords(placement.left, unit),
  };
  return (
    <SheetDrawing
      a={{ nm: shape.a.nm, text: showLength(shape.a.nm, unit) }}
      b={{ nm: shape.b.nm, text: showLength(shape.b.nm, unit) }}
      grain={offcut.grain}
      cut={cut}
      words={words}
    />
  );
}

function OddCut({ offcut, placement, want, unit, words }: CutProps<OddPlacement>) {
  const { corners, stays, tenths, left } = placement;
  const cut = {
    corners,
    stays,
    upright: tenths % 900 === 0,
    blank: blankWords(want, unit),
    staysText: staysWords(left, unit),
  };
  return (
    <OddCutDrawing
      shape={offcut.shape as Outline}
      grain={offcut.grain}
      cut={cut}
      show={(nm) => measuredText(nm, unit, false)}
      whole={(nm) => measuredText(nm, unit)}
      words={words}
    />
  );
}

/** "4 × 3", in the workshop's unit. */
function blankWords({ width_nm, height_nm }: Want, unit: Unit): string {
  return `${showLength(width_nm, unit, false)} × ${showLength(height_nm, unit, false)}`;
}

/** What stays, its unit named once; empty where nothing of use does. */
function staysWords([a, b]: Placement['left'], unit: Unit): string {
  if (a <= 0) return '';
  return `${leftOver(a, unit)} × ${leftOver(b, unit)}`.replace(` ${unit} ×`, ' ×');
}

export function ReserveFor({ offcut, part }: { offcut: Offcut; part: string }) {
  const { problem, keep } = useKeeping();
  const name = row(part)?.name;
  if (!name) return null;
  if (offcut.reserved?.for === part) return <p>It is reserved for {name}.</p>;
  const body = { text: name.slice(0, 200), part };
  const draft = { kind: 'offcut.reserved.v1', subject: offcut.id, body };
  return (
    <>
      <Problem text={problem} />
      <button type="button" onClick={() => keep([draft], `Reserved for ${name}`)}>
        Reserve it for {name}
      </button>
    </>
  );
}

export function NearMisses({ near }: { near: readonly NearMiss[] }) {
  return (
    <ul class="plain">
      {near.map(({ offcut, reasons }) => (
        <li key={offcut.id}>
          <a href={`/offcut/${offcut.id}`} class="near-miss">
            <b>{offcut.name}</b>
            <span class="lies">{whereWords(offcut)}</span>
            <span>{sentence([...reasons.map(({ text }) => text), ...doubtWords(offcut.id)])}</span>
          </a>
        </li>
      ))}
    </ul>
  );
}

/** That two people answered differently, where a piece is held back for it. */
export function doubtWords(id: string): string[] {
  const doubts = (row(id)?.doubts ?? []).filter((about) => about !== 'tag');
  return doubts.length ? [`two different answers on ${doubts.map(fieldWords).join(', ')}`] : [];
}

function sentence(parts: string[]): string {
  const text = parts.join('; ');
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}
