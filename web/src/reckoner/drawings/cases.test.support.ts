// Joints, pieces and flats that a drawing has to stay legible with: the usual ones, and the worst.
import type { Flat, FlatBend } from './flat.ts';
import type { HoleRow, Layout } from './layout.ts';
import type { Rings } from './rings.ts';
import type { RivetHead, StackLayer } from './section.ts';
import type { Stack } from './stack.ts';

export const IN = 25_400_000;
export const inch = (inches: number): number => Math.round(inches * IN);

/** Diameter, flush head across and high, universal head across and high, inches: from memory. */
const SIZES: Record<string, [number, number, number, number, number]> = {
  '3/32': [3 / 32, 0.179, 0.036, 0.187, 0.04],
  '1/8': [1 / 8, 0.225, 0.042, 0.25, 0.054],
  '3/16': [3 / 16, 0.353, 0.07, 0.375, 0.08],
  '1/4': [1 / 4, 0.476, 0.095, 0.5, 0.107],
};

function rivetOf(size: string, shape: RivetHead['shape']): Stack['rivet'] {
  const [across = 0, flush = 0, sunk = 0, wide = 0, high = 0] = SIZES[size] ?? [];
  const head: RivetHead =
    shape === 'flush'
      ? { shape, diameter: inch(flush), height: inch(sunk), angle: 100 }
      : { shape, diameter: inch(wide), height: inch(high) };
  return { diameter: inch(across), head };
}

const sheets = (treats: string, ...thicknesses: number[]): StackLayer[] =>
  thicknesses.map((thickness, at) => ({
    thickness: inch(thickness),
    treat: treats[at] === 'd' ? 'dimple' : treats[at] === 'c' ? 'countersink' : 'plain',
  }));

function stackOf(
  size: string,
  shape: RivetHead['shape'],
  layers: StackLayer[],
  unit: Stack['unit'] = 'in',
): Stack {
  const rivet = rivetOf(size, shape);
  const driven = { across: rivet.diameter * 1.5, high: rivet.diameter / 2 };
  return { layers, rivet, out: Math.round(rivet.diameter * 1.5), driven, unit };
}

const shimmed = sheets('ppp', 0.032, 0.032, 0.04).map((layer, at) => ({
  ...layer,
  ...(at === 1 ? { added: true } : {}),
}));

export const STACKS: Record<string, Stack> = {
  'two sheets': stackOf('1/8', 'universal', sheets('pp', 0.032, 0.04)),
  'two sheets, mm': stackOf('1/8', 'universal', sheets('pp', 0.032, 0.04), 'mm'),
  'six sheets': stackOf(
    '1/8',
    'universal',
    sheets('pppppp', 0.032, 0.04, 0.025, 0.032, 0.063, 0.04),
  ),
  'six thin sheets': stackOf(
    '3/32',
    'universal',
    sheets('pppppp', 0.016, 0.016, 0.016, 0.016, 0.016, 0.016),
    'mm',
  ),
  'six thick sheets': stackOf(
    '3/32',
    'universal',
    sheets('pppppp', 0.125, 0.125, 0.125, 0.125, 0.125, 0.125),
  ),
  '.016 with 1/4': stackOf('1/4', 'universal', sheets('pp', 0.016, 0.016)),
  '.016 with 1/4 flush': stackOf('1/4', 'flush', sheets('dd', 0.016, 0.016)),
  'both dimpled': stackOf('3/32', 'flush', sheets('dd', 0.025, 0.032)),
  'dimple over countersink': stackOf('1/8', 'flush', sheets('dc', 0.032, 0.063)),
  'dimple over thin countersink': stackOf('3/32', 'flush', sheets('dc', 0.032, 0.04), 'mm'),
  countersunk: stackOf('1/8', 'flush', sheets('cp', 0.063, 0.04)),
  'knife edge': stackOf('1/8', 'flush', sheets('cp', 0.032, 0.04)),
  'dimple over plain': stackOf('1/8', 'flush', sheets('dp', 0.025, 0.04)),
  'flush in plain': stackOf('1/8', 'flush', sheets('pp', 0.032, 0.04)),
  'three dimpled': stackOf('1/8', 'flush', sheets('ddd', 0.02, 0.025, 0.032)),
  'a shim put in': {
    ...stackOf('1/8', 'universal', shimmed),
    out: inch(0.1465),
    was: { layers: sheets('pp', 0.032, 0.04), out: inch(0.147) },
  },
};

const row = (across: number, start: number, pitch: number, count: number): HoleRow => ({
  across: inch(across),
  start: inch(start),
  pitch: inch(pitch),
  count,
});
const piece = (
  length: number | null,
  width: number | null,
  hole: number,
  rows: HoleRow[],
  more: Partial<Layout> = {},
): Layout => ({
  length: length === null ? null : inch(length),
  width: width === null ? null : inch(width),
  hole: inch(hole),
  rows,
  unit: 'in',
  ...more,
});

export const LAYOUTS: Record<string, Layout> = {
  'two rows of four': piece(2.5, 1.25, 0.1285, [row(0.375, 0.5, 0.5, 4), row(0.875, 0.5, 0.5, 4)]),
  'two holes': piece(1.5, 0.75, 0.098, [row(0.375, 0.375, 0.75, 2)], { unit: 'mm' }),
  'two rows of thirty-seven': piece(
    21,
    1.5,
    0.1285,
    [row(0.375, 0.375, 0.5625, 37), row(0.9375, 0.65625, 0.5625, 36)],
    { unit: 'mm' },
  ),
  'two hundred along a skin': piece(120, 48, 0.098, [row(0.25, 0.25, 0.6, 200)]),
  'three rows that fail': piece(
    10,
    1.5,
    0.1285,
    [row(0.25, 0.1875, 0.3, 33), row(0.55, 0.1875, 0.3, 33), row(0.85, 0.1875, 0.3, 33)],
    {
      bend: inch(1.1),
      short: {
        end: inch(0.0625),
        side: inch(0.03),
        pitch: inch(0.075),
        gap: inch(0.02),
        bend: inch(0.11),
      },
      unit: 'mm',
    },
  ),
  'one hole near its edges': piece(null, null, 0.1285, [row(0.25, 0.1875, 0, 1)], {
    short: { end: inch(0.0625) },
  }),
  'one hole': piece(null, null, 0.257, [row(0.5, 0.625, 0, 1)], { unit: 'mm' }),
  'a flange': piece(18, 0.625, 0.098, [row(0.25, 0.3, 0.75, 24)], { bend: inch(0.5) }),
  'a bend before the row': piece(6, 2, 0.1285, [row(0.75, 0.5, 1, 6)], { bend: inch(0.25) }),
  'four rows': piece(
    4,
    2.5,
    0.191,
    [0.5, 1, 1.5, 2].map((across) => row(across, 0.5, 0.75, 5)),
  ),
  'a strap of two hundred': piece(60, 0.5, 0.098, [row(0.25, 0.25, 0.299, 200)], { unit: 'mm' }),
};

/** Bends from outside legs, by the allowance (0.01743 R + 0.0078 T) per degree: see the tests. */
export function flatOf(
  legs: number[],
  angles: number[],
  radius: number,
  thickness: number,
  more: Partial<Flat> = {},
): Flat {
  const setback = angles.map(
    (angle) => Math.tan((Math.abs(angle) * Math.PI) / 360) * (radius + thickness),
  );
  const bends: FlatBend[] = [];
  let at = 0;
  for (const [index, angle] of angles.entries()) {
    at += (legs[index] ?? 0) - (setback[index] ?? 0) - (setback[index - 1] ?? 0);
    const long = (0.01743 * radius + 0.0078 * thickness) * Math.abs(angle);
    bends.push({
      angle: Math.abs(angle),
      radius: inch(radius),
      up: angle > 0,
      start: inch(at),
      end: inch(at + long),
      sight: inch(at + radius),
    });
    at += long;
  }
  const developed = at + (legs.at(-1) ?? 0) - (setback.at(-1) ?? 0);
  return {
    legs: legs.map(inch),
    bends,
    thickness: inch(thickness),
    developed: inch(developed),
    unit: 'in',
    ...more,
  };
}

export const FLATS: Record<string, Flat> = {
  angle: flatOf([1, 0.75], [90], 0.125, 0.032, { grain: 'across' }),
  channel: flatOf([1, 2, 1], [90, 90], 0.16, 0.04, { grain: 'along' }),
  'channel, mm': flatOf([1, 2, 1], [90, 90], 0.16, 0.04, { grain: 'along', unit: 'mm' }),
  'channel with lips': flatOf([0.5, 1, 2.5, 1, 0.5], [90, 90, 90, 90], 0.125, 0.032, {
    grain: 'across',
  }),
  'tiny hat': flatOf([0.3, 0.3, 0.4, 0.3, 0.3], [-90, 90, 90, -90], 0.0625, 0.02, { unit: 'mm' }),
  'wide panel': flatOf([0.625, 24, 0.625], [90, -90], 0.09, 0.025),
  'open bend': flatOf([1.5, 1.5], [30], 0.25, 0.063, { unit: 'mm' }),
  'closed bend': flatOf([1, 1], [135], 0.125, 0.04, { grain: 'along' }),
  flat: flatOf([3], [], 0.1, 0.04),
};

export const HOLES: Record<string, Rings> = {
  dimpled: {
    unit: 'in',
    rings: [
      { words: 'rivet', diameter: inch(3 / 32), look: 'rivet' },
      { words: 'drill #40', diameter: inch(0.098), look: 'hole' },
      { words: 'after dimpling', diameter: inch(0.104), look: 'hole' },
    ],
  },
  pilot: {
    unit: 'mm',
    rings: [
      { words: 'pilot #40', diameter: inch(0.098), look: 'pilot' },
      { words: 'rivet 1/8', diameter: inch(0.125), look: 'rivet' },
      { words: 'drill #30', diameter: inch(0.1285), look: 'hole' },
    ],
  },
};
