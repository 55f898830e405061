// A wanted piece in words, in the workshop's unit. Pure.
import { addressOf as offcutsFor } from '../offcuts/asked.ts';
import { readLength, showLength, showThickness, type Unit } from '../twins/lengths.ts';
import type { Piece } from './wish.ts';

const SMALLEST = { in: 2_540, mm: 10_000 }; // nm: the last decimal that is shown

/** "2024-T3 clad", or that nobody said. */
export function metalWords({ alloy, temper, clad }: Piece): string {
  if (!alloy) return 'metal not said';
  return `${[alloy, temper].filter(Boolean).join('-')}${clad === 'clad' ? ' clad' : ''}`;
}

/** "2 from .032 in 2024-T3, 6 in × 5/8 in" */
export function pieceWords(piece: Piece, unit: Unit): string {
  const sides = `${showLength(piece.a.nm, unit)} × ${showLength(piece.b.nm, unit)}`;
  const many = piece.count > 1 ? `${piece.count} from` : 'from';
  return `${many} ${showThickness(piece.thickness.nm, unit)} ${metalWords(piece)}, ${sides}`;
}

/** The blank in the unit that the workshop does not use: "0.813 mm thick, 152.4 mm × 15.88 mm" */
export function otherUnitWords({ thickness, a, b }: Piece, unit: Unit): string {
  const other: Unit = unit === 'in' ? 'mm' : 'in';
  const sides = `${showLength(a.nm, other)} × ${showLength(b.nm, other)}`;
  return `${showThickness(thickness.nm, other)} thick, ${sides}`;
}

export function grainWords({ grain, a, b }: Piece, unit: Unit): string {
  if (grain === 'any') return 'The grain may run either way.';
  const side = grain === 'a' ? a : b;
  return `The grain runs along the ${showLength(side.nm, unit)} side.`;
}

/** "Bent by 90 degrees 3/4 in from the edge, inside radius 3/32 in." */
export function bendWords({ bends = [] }: Piece, unit: Unit): string[] {
  return bends.map(({ at, angle, radius }) => {
    const [from, tight] = [showLength(at.nm, unit), showLength(radius.nm, unit)];
    return `Bent by ${angle} degrees ${from} from the edge, inside radius ${tight}.`;
  });
}

/** The search for an offcut that it can be cut from: never a side smaller than it is. */
export function offcutsAddress(piece: Piece, unit: Unit): string {
  const { alloy, temper, clad, thickness, a, b, grain } = piece;
  return offcutsFor({
    metal: [alloy, temper].filter(Boolean).join('-'),
    clad: clad === 'unknown' ? 'any' : clad,
    thickness: showThickness(thickness.nm, unit),
    width: notLess(a.nm, unit),
    height: notLess(b.nm, unit),
    grain: grain === 'any' ? 'any' : grain === 'a' ? 'along width' : 'along height',
  });
}

function notLess(nm: number, unit: Unit): string {
  const text = showLength(nm, unit);
  const read = readLength(text, unit);
  return 'nm' in read && read.nm >= nm ? text : showLength(nm + SMALLEST[unit], unit);
}

/** What a person wrote, as a sentence of its own. */
export function asSentence(text: string): string {
  const said = capital(text.trim());
  return /[.!?]$/.test(said) ? said : `${said}.`;
}

export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** For the screen: no line ends between a figure and its fraction or its unit, or after a cross. */
export const unbroken = (text: string): string =>
  text.replace(/(\d) (?=\d+\/\d|in\b|mm\b)/g, '$1\u00a0').replaceAll('× ', '×\u00a0');
