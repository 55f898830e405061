// Whether a piece is so much too small that nothing more need be asked: in a few comparisons, since
// most pieces are. Where it says no, the piece may still be too small. Pure.
import { pieceFor } from '../twins/curve';
import { isSide } from '../twins/fit';
import { NEAR_SIZE, type Question, wayFor } from './misses';
import type { Offcut } from './wanted';

const NM_PER_UM = 1000;

/** `near`: a piece that lacks a little of its size is no near miss only where it lacks much. */
export function tooSmall(offcut: Offcut, { want }: Question, near: boolean): boolean {
  const share = near ? 1 - NEAR_SIZE : 1;
  const [width, height] = [want.width_nm * share, want.height_nm * share];
  const { shape, measured_as } = offcut;
  const around = 2 * want.clearance_nm;
  if (shape.kind === 'rectangle') {
    const [a, b] = [shape.a.nm - around, shape.b.nm - around];
    if (!isSide(shape.a.nm) || !isSide(shape.b.nm)) return false;
    const square = width <= a && height <= b;
    const turned = height <= a && width <= b;
    if (square || turned) {
      if (square && turned) return false;
      const way = wayFor(offcut, want);
      return way === 'any' ? false : way === 'width along a' ? !square : !turned;
    }
    if (want.grain !== 'any' && offcut.grain !== 'unknown') return true;
    // askew the shorter side needs the shorter of the two, and the longer one their diagonal
    const [long, short] = [Math.max(width, height), Math.min(width, height)];
    return short > Math.min(a, b) || long * long > a * a + b * b;
  }
  if (shape.kind !== 'outline' || !measured_as || !('any' in measured_as)) return false;
  const way = wayFor(offcut, want);
  const w = Math.ceil((width + around) / NM_PER_UM);
  const h = Math.ceil((height + around) / NM_PER_UM);
  if (w * h > measured_as.area_um2) return true;
  if (way === 'any') return pieceFor(measured_as.any, Math.max(w, h), Math.min(w, h)) < 0;
  const [along, across] = way === 'width along a' ? [w, h] : [h, w];
  return pieceFor(measured_as.along, along, across) < 0;
}
