// The outline a tag should fill, as on a drawing: a square with its centre marks, witness lines that
// start clear of it, and one dimension between them. Units: hundredths of the shorter side.
import { OUTLINE } from './looking.ts';

const SIDE = OUTLINE * 100;
const NEAR = (100 - SIDE) / 2;
const FAR = 100 - NEAR;
const DIMENSION = FAR + 9;
const SHADE = `M-400-400H500V500H-400ZM${NEAR} ${NEAR}V${FAR}H${FAR}V${NEAR}Z`;

const witness = (x: number): string => `M${x} ${FAR + 1.6}V${DIMENSION + 2}`;
const arrow = (x: number, towards: number, gap: number): string =>
  `M${x} ${DIMENSION}l${towards * 4} -1v2ZM${x + towards * 4} ${DIMENSION}H${50 - towards * gap}`;
const MARKS = [
  `M50 ${NEAR - 5}V${NEAR + 5}M50 ${FAR - 5}V${FAR + 5}`,
  `M${NEAR - 5} 50H${NEAR + 5}M${FAR - 5} 50H${FAR + 5}`,
].join('');

export function Outline({ what }: { what: string }) {
  const gap = what.length * 1.25 + 2; // half of what the words take
  return (
    <svg class="outline" viewBox="0 0 100 100" aria-hidden="true" focusable="false">
      <path class="shade" d={SHADE} fill-rule="evenodd" />
      <rect class="under" x={NEAR} y={NEAR} width={SIDE} height={SIDE} />
      <rect class="edge" x={NEAR} y={NEAR} width={SIDE} height={SIDE} />
      <path class="thin" d={MARKS} />
      <path class="thin" d={witness(NEAR) + witness(FAR)} />
      <path class="thin filled" d={arrow(NEAR, 1, gap) + arrow(FAR, -1, gap)} />
      <text x="50" y={DIMENSION + 1.4} text-anchor="middle">
        {what}
      </text>
    </svg>
  );
}
