// Numbers that look random and are the same on every machine, and shapes drawn from them.
import type { Point } from './exact.ts';
import type { Ring } from './rings.ts';

export const MM = 1_000_000;
export const IN = 25_400_000;

export function draw(seed: number): (low: number, high: number) => number {
  let state = BigInt(seed);
  return (low, high) => {
    state = (state * 6364136223846793005n + 1442695040888963407n) & 0xffff_ffff_ffff_ffffn;
    return low + Number((state >> 20n) % BigInt(high - low + 1));
  };
}

/** A ring around (0, 0) that bulges in and out but never crosses itself, within `most` of it. */
export function starRing(between: ReturnType<typeof draw>, corners: number, most: number): Ring {
  const ring = Array.from({ length: corners }, (_, at): Point => {
    const angle = ((at + between(0, 800) / 1000) / corners) * 2 * Math.PI;
    const reach = between(Math.round(most / 4), most);
    return [Math.round(reach * Math.cos(angle)), Math.round(reach * Math.sin(angle))];
  });
  return ring;
}
