// Geometry of a joint in side section, 120 wide. Sheets keep their proportions where their
// thickness is known; where the head is flush, dimpled sheets follow it and a countersunk one is
// cut away under it.
import type { Line, LineLayer } from './lines.ts';

const TOP = 30;
const MID = 60;
const THICK = 14; // a sheet whose thickness is not known
const LEAST = 8;
const MOST = 30;
const CONE = 16; // half the width of a dimple or a countersink
const HOLE = 7;
const SHANK = 6;

export interface Joint {
  height: number;
  sheets: string;
  centre: string;
  head: string;
}

// Heights of the layers: in proportion to the thinnest known, within what can be drawn.
export function heights(layers: LineLayer[]): number[] {
  const known = layers.flatMap((layer) => (layer.thickness ? [layer.thickness.nm] : []));
  const thinnest = Math.min(...known);
  return layers.map(({ thickness }) =>
    thickness ? Math.min(MOST, Math.max(LEAST, (thickness.nm / thinnest) * 10)) : THICK,
  );
}

export function drawJoint(line: Line): Joint {
  let y = TOP;
  let sheets = '';
  for (const [at, tall] of heights(line.layers).entries()) {
    sheets += layerPath(line.layers[at]?.treat ?? 'plain', y, tall);
    y += tall;
  }
  const dip = Math.max(
    0,
    ...line.layers.map(({ treat }) => (treat === 'dimple' ? CONE - HOLE : 0)),
  );
  const foot = y + dip; // where the shop head sits
  return {
    height: foot + 24,
    sheets,
    head: fastener(line, foot),
    centre: `M${MID} 4V${foot + 20}`,
  };
}

// The fastener through the joint, with its factory head as it is and a shop head below.
function fastener(line: Line, foot: number): string {
  const flush = line.head === 'flush';
  const head = flush
    ? `M${MID - CONE} ${TOP}H${MID + CONE}L${MID + SHANK} ${TOP + CONE - SHANK}H${MID - SHANK}Z`
    : `M${MID - 18} ${TOP}C${MID - 18} ${TOP - 14} ${MID + 18} ${TOP - 14} ${MID + 18} ${TOP}Z`;
  const shank = `M${MID - SHANK} ${TOP}H${MID + SHANK}V${foot + 1}H${MID - SHANK}Z`;
  const wide = SHANK + 6;
  const shop = `M${MID - wide + 3} ${foot}H${MID + wide - 3}L${MID + wide} ${foot + 5}L${MID + wide - 3} ${foot + 10}H${MID - wide + 3}L${MID - wide} ${foot + 5}Z`;
  return head + shank + shop;
}

// The outline of one sheet, left and right of its hole.
function layerPath(treat: LineLayer['treat'], y: number, tall: number): string {
  const deep = CONE - HOLE;
  const side = (out: number, hole: number, cone: number): string => {
    if (treat === 'dimple')
      return `M${out} ${y}H${cone}L${hole} ${y + deep}V${y + deep + tall}L${cone} ${y + tall}H${out}Z`;
    if (treat === 'countersink')
      return `M${out} ${y}H${cone}L${hole} ${y + Math.min(deep, tall)}V${y + tall}H${out}Z`;
    return `M${out} ${y}H${hole}V${y + tall}H${out}Z`;
  };
  return side(0, MID - HOLE, MID - CONE) + side(120, MID + HOLE, MID + CONE);
}
