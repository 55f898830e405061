// Figures as the drawings write them, in the workshop's unit.
import { shortfall } from '../../offcuts/words.ts';
import { showLength, showThickness, type Unit } from '../../twins/lengths.ts';

/** A length (nm, need not be whole: a middle may lie between) as a figure. */
export function lengthText(nm: number, unit: Unit, named = true): string {
  return showLength(Math.round(nm), unit, named);
}

/** A sheet thickness (nm). */
export function thicknessText(nm: number, unit: Unit, named = true): string {
  return showThickness(Math.round(nm), unit, named);
}

/** How many diameters a length is: 1.5 D. */
export function inDiameters(nm: number, diameter: number): string {
  return `${Math.round((nm / diameter) * 100) / 100} D`;
}

/** By how much a length is too small, never made less: 3.2 mm short. */
export function shortText(nm: number, unit: Unit): string {
  return `${shortfall(Math.round(nm), unit)} short`;
}
