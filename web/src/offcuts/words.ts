// The sentences of the offcut search, in the workshop's unit.

import type { Placement } from '../twins/fit';
import { showLength, showThickness, type Unit } from '../twins/lengths';
import type { OddPlacement } from './odd';
import type { Caution, Miss, Offcut, Rectangle, Serves, Want, WantedThickness } from './wanted';

/** Common practice: anything that cuts the surface or is graphite starts cracks or corrosion. */
export const MARKING_OUT =
  'Mark with a marker only. Scribe or punch only metal that will be cut away or drilled out. No graphite pencil.';
export const PLANS_FIRST =
  'The kit maker’s plans and approved data come first. This is a search of your offcuts, not an approval.';

export const NOT_MEASURED = 'measured when the workshop computer is back';

/** What lies nearer to an end of the metal than can be measured lies at it, nm. */
export const ON_IT = 200_000;
const NM_PER_MM = 1_000_000;
const NM_PER_64TH = 396_875;
const UM2_PER_SQ_IN = 25_400 * 25_400;
const UM2_PER_SQ_CM = 1e8;

/** 2024-T3 clad, 6061-T6, or metal unknown. */
export function metalName(alloy: string | null, temper: string | null, clad = ''): string {
  if (isUnknown(alloy)) return 'metal unknown';
  const name = isUnknown(temper) ? `${alloy}, temper unknown` : `${alloy}-${temper}`;
  return clad === 'clad' ? `${name} clad` : name;
}

export function isUnknown(word: string | null): boolean {
  return word === null || word === '' || word === 'unknown';
}

/** What is wanting, never made smaller than it is: up to the next 64th, or tenth of a mm. */
export function shortfall(nm: number, unit: Unit): string {
  if (unit === 'in') return showLength(Math.ceil(nm / NM_PER_64TH) * NM_PER_64TH, 'in');
  const step = nm < 10 * NM_PER_MM ? NM_PER_MM / 10 : NM_PER_MM;
  return showLength(Math.ceil(nm / step) * step, 'mm');
}

/** What is left, never made larger than it is: down to a 64th, or a tenth of a mm. */
export function leftOver(nm: number, unit: Unit): string {
  const step = unit === 'in' ? NM_PER_64TH : NM_PER_MM / 10;
  return showLength(Math.floor(nm / step) * step, unit);
}

/** .040 in an inch workshop, as the trade writes it; 1.0 mm in a metric one. */
export function thicknessText(nm: number, unit: Unit): string {
  return showThickness(nm, unit, unit === 'mm');
}

/** An area (um2) in sq in or sq cm. */
export function areaText(um2: number, unit: Unit): string {
  const area = um2 / (unit === 'in' ? UM2_PER_SQ_IN : UM2_PER_SQ_CM);
  if (area > 0 && area < 0.1) return `less than 0.1 sq ${unit === 'in' ? 'in' : 'cm'}`;
  const figure = area < 10 ? Math.round(area * 10) / 10 : Math.round(area);
  return `${figure} sq ${unit === 'in' ? 'in' : 'cm'}`;
}

/** Why `offcut` does not serve `want`, in one phrase. */
export function missText(miss: Miss, offcut: Offcut, want: Want, unit: Unit): string {
  switch (miss.code) {
    case 'metal':
    case 'temper':
      return `${metalName(offcut.alloy, offcut.temper)}, wanted ${wantedMetal(offcut, want)}`;
    case 'cladding':
      return `${offcut.clad}, wanted ${want.cladding}`;
    case 'cladding unknown':
      return 'clad or bare not known';
    case 'thicker':
    case 'thinner': {
      const film = offcut.measured === 'over film' ? ' over film' : '';
      const has = thicknessText(offcut.thickness.nm, unit) + film;
      return `${miss.code}: ${has}, wanted ${wantedThickness(want.thickness, unit)}`;
    }
    case 'size':
      return sizeText(miss, unit);
    case 'structure':
      return miss.sentence;
    case 'reserved':
      return `reserved for ${offcut.reserved?.text}`;
    case 'grain unknown':
      return 'grain unknown';
    case 'measure again':
      return 'changed since it was measured: measure again';
    case 'unsaid':
      return 'its shape is not known: look whether it fits';
    case 'not measured':
      return NOT_MEASURED;
    case 'cannot be measured':
      return `what fits in it cannot be said: ${miss.why.replace(/[.]$/, '')}`;
  }
}

function wantedMetal(offcut: Offcut, want: Want): string {
  const alloy = want.alloy ?? offcut.alloy;
  return want.temper === null ? `${alloy}` : metalName(alloy, want.temper);
}

function sizeText(miss: Miss & { code: 'size' }, unit: Unit): string {
  const short = miss.short_nm > 0 ? `${shortfall(miss.short_nm, unit)} too short` : '';
  const narrow = miss.narrow_nm > 0 ? shortfall(miss.narrow_nm, unit) : '';
  if (miss.by_grain) {
    if (!narrow) return `${short} along the grain`;
    if (!short) return `${narrow} too short across the grain`;
    return `${short} along the grain and ${narrow} across it`;
  }
  return [short, narrow && `${narrow} too narrow`].filter(Boolean).join(' and ');
}

function wantedThickness(wanted: WantedThickness, unit: Unit): string {
  switch (wanted.kind) {
    case 'any':
      return 'any';
    case 'gauge':
      return thicknessText(wanted.nm, unit);
    case 'at least':
      return `at least ${thicknessText(wanted.nm, unit)}`;
    case 'range':
      return `${thicknessText(wanted.from_nm, unit)} to ${thicknessText(wanted.to_nm, unit)}`;
  }
}

export function cautionText(caution: Caution, unit: Unit): string {
  if (caution.code === 'over film') return 'thickness over film, not confirmed: measure it bare';
  const [has, wanted] = [thicknessText(caution.nm, unit), thicknessText(caution.wanted_nm, unit)];
  return `a little thinner: ${has}, wanted ${wanted}, within what is rolled as one thickness`;
}

/** What it is, how to lay the blank, what stays and what is spoiled. */
export function servesText(
  offcut: Offcut,
  want: Want,
  placement: Serves['placement'],
  unit: Unit,
): string {
  const what = `${metalName(offcut.alloy, offcut.temper, offcut.clad)}, ${thicknessText(offcut.thickness.nm, unit)}`;
  if (placement.laid === 'in an outline')
    return `${what}. ${oddText(want, placement, unit)} ${leavesText(placement, unit)}`;
  const shape = offcut.shape as Rectangle;
  return `${what}. ${layText(shape, want, placement, unit)} ${leavesText(placement, unit)}`;
}

function layText(shape: Rectangle, want: Want, placement: Placement, unit: Unit): string {
  const [width, height] = [showLength(want.width_nm, unit), showLength(want.height_nm, unit)];
  const [a, b] = [showLength(shape.a.nm, unit), showLength(shape.b.nm, unit)];
  const edges =
    want.clearance_nm > 0 ? `, ${showLength(want.clearance_nm, unit)} in from the edges` : '';
  if (placement.laid === 'askew') {
    const angle = (placement.tenths / 10).toFixed(1);
    return `Fits askew only: its ${width} side turned ${angle}° from the ${a} side${edges}.`;
  }
  const [alongA, alongB] = placement.laid === 'width along a' ? [width, height] : [height, width];
  const grain = want.grain === 'any' ? '' : `, grain ${want.grain.replace('along', 'along its')}`;
  return `In a corner, ${alongA} along the ${a} side and ${alongB} along the ${b} side${edges}${grain}.`;
}

/** Where to cut it, measured from the left and the lower end of the metal. */
function oddText(want: Want, { corners, tenths }: OddPlacement, unit: Unit): string {
  const clear =
    want.clearance_nm > 0 ? `, ${showLength(want.clearance_nm, unit)} clear of the edges` : '';
  const grain = want.grain === 'any' ? '' : `, grain ${want.grain.replace('along', 'along its')}`;
  const at = (nm: number): string => measuredText(nm, unit);
  if (tenths % 900 === 0) {
    const left = Math.min(...corners.map(([x]) => x));
    const low = Math.min(...corners.map(([, y]) => y));
    const across = left > ON_IT ? `${at(left)} from` : 'at';
    const up = low > ON_IT ? `${at(low)} up from` : 'on';
    return `Cut as drawn${clear}${grain}: its left side ${across} the left end of the metal, its lower side ${up} the lower end.`;
  }
  const [a, b] = corners.map(([x, y]) => `${at(x)} from the left end and ${at(y)} up`);
  const turned = `turned ${(tenths / 10).toFixed(1)}°`;
  return `Cut as drawn, ${turned}${clear}${grain}: corner A ${a}, corner B ${b}.`;
}

/** A place on the metal, to the nearest 64th or tenth of a mm: as a rule is read. */
export function measuredText(nm: number, unit: Unit, named = true): string {
  const step = unit === 'in' ? NM_PER_64TH : NM_PER_MM / 10;
  return showLength(Math.round(nm / step) * step, unit, named);
}

function leavesText(placement: Serves['placement'], unit: Unit): string {
  const [a, b] = placement.left;
  const stays =
    a > 0 ? `Leaves ${leftOver(a, unit)} × ${leftOver(b, unit)}` : 'Leaves nothing of use';
  const spoils = placement.spoiled > 0 ? areaText(placement.spoiled, unit) : 'nothing';
  return `${stays}, spoils ${spoils}.`;
}
