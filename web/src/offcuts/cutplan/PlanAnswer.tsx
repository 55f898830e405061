// What a cut plan says: offcut by offcut, the pieces in the order of cutting with running
// dimensions from the datum edge. Each offcut is a page of its own on paper, in one ink.
import { openedPhone } from '../../shell/state.ts';
import { row } from '../../shell/things.ts';
import type { Point } from '../../twins/fit.ts';
import { unbroken } from '../../wanted/words.ts';
import { nameOf } from '../name.ts';
import type { Fields } from '../piece.ts';
import { whereWords } from '../Results.tsx';
import { MARKING_OUT, measuredText, PLANS_FIRST } from '../words.ts';
import { cutCount, layOutPage, numbered } from './pages.ts';
import type { Plan, Sheet } from './plan.ts';

export function PlanAnswer({ plan }: { plan: Plan }) {
  const { sheets, not_placed, stopped } = plan;
  const cuts = cutCount(sheets);
  return (
    <section class="plan-answer" aria-label="What to cut from which offcut">
      <p class="count" role="status">
        {countWords(cuts, sheets.length)}
        {stopped && ' Time was up before every piece was looked at.'}
      </p>
      {sheets.length > 0 && (
        <button type="button" class="print" onClick={() => print()}>
          Print it, a page for each offcut
        </button>
      )}
      {not_placed.length > 0 && (
        <ul class="unmet">
          {not_placed.map(({ want, count, reason }) => (
            <li key={want}>
              <b>
                {nameOfWant(want)}
                {count > 1 && `, ${count} of them`}
              </b>
              : {reason}
            </li>
          ))}
        </ul>
      )}
      {sheets.map((sheet) => (
        <OneSheet key={sheet.stock} sheet={sheet} />
      ))}
    </section>
  );
}

function countWords(cuts: number, sheets: number): string {
  if (!cuts) return 'None of them can be cut from what there is.';
  const pieces = cuts === 1 ? 'One piece' : `${cuts} pieces`;
  return `${pieces} from ${sheets === 1 ? 'one offcut' : `${sheets} offcuts`}.`;
}

const nameOfWant = (want: string): string => row(want)?.name ?? 'a piece this phone does not know';

function OneSheet({ sheet }: { sheet: Sheet }) {
  const { unit } = openedPhone().identity;
  const stock = row(sheet.stock);
  const fields = (stock?.fields ?? {}) as unknown as Fields;
  const name = stock
    ? nameOf({ ...fields, name: stock.name || null })
    : 'an offcut of the workshop';
  const span = ([from, to]: Point): string =>
    unbroken(`${measuredText(from, unit, false)} to ${measuredText(to, unit, false)}`);
  return (
    <section class="plan-page" aria-label={name}>
      <h3>
        <a href={`/offcut/${sheet.stock}`}>{unbroken(name)}</a>
      </h3>
      {stock && <p class="lies">{whereWords({ codes: stock.codes, place: stock.place })}</p>}
      <Drawing sheet={sheet} shape={fields.shape} name={name} />
      <table class="cuts">
        <thead>
          <tr>
            <th scope="col">Cut</th>
            <th scope="col">Along the datum edge, {unit}</th>
            <th scope="col">Off it, {unit}</th>
          </tr>
        </thead>
        <tbody>
          {numbered(sheet.cuts).map(({ number, cut }) => (
            <tr key={number}>
              <td>
                <b>{number}</b> {nameOfWant(cut.want)}
              </td>
              <td>{span(cut.along)}</td>
              <td>{span(cut.off)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>
        {sheet.datum.edge
          ? 'Measured from the corner with the ring, along the heavy edge.'
          : 'No edge runs that way: mark the heavy line first, and measure from the ring.'}{' '}
        {sheet.straight
          ? 'In this order every piece comes free by cuts right across.'
          : 'Not every piece comes free by cuts right across: some are cut out with snips.'}
      </p>
      <p class="marking-out">
        {MARKING_OUT} (Common practice.) {PLANS_FIRST}
      </p>
    </section>
  );
}

function Drawing(props: { sheet: Sheet; shape: Fields['shape']; name: string }) {
  const { sheet, shape, name } = props;
  const rings = ringsOf(shape);
  if (!rings) return <p class="note">Its outline is not on this phone; it is not drawn.</p>;
  const page = layOutPage(rings, sheet);
  const [[x0, y0], [x1, y1]] = page.datum;
  return (
    <figure class="sheet-drawing">
      <svg
        viewBox={`0 0 ${page.width} ${page.height}`}
        role="img"
        aria-label={`${name} with ${sheet.cuts.length} pieces to cut, numbered in order`}
      >
        <path class="sheet" d={page.metal} />
        {page.pieces.map(({ points, at: [x, y] }, index) => (
          <g key={points}>
            <polygon class="cut" points={points} />
            <text x={x} y={y} dy="5">
              {index + 1}
            </text>
          </g>
        ))}
        <path class="datum-edge" d={`M${x0} ${y0}L${x1} ${y1}`} />
        <circle class="datum-corner" cx={page.corner[0]} cy={page.corner[1]} r="6" />
      </svg>
    </figure>
  );
}

function ringsOf(shape: Fields['shape']): readonly (readonly Point[])[] | null {
  if (!shape) return null;
  if (shape.kind === 'outline') {
    const { outer, holes } = shape as unknown as { outer: Point[]; holes: Point[][] };
    return outer ? [outer, ...holes] : null;
  }
  const [a, b] = [shape.a.nm, shape.b.nm];
  return [
    [
      [0, 0],
      [a, 0],
      [a, b],
      [0, b],
    ],
  ];
}
