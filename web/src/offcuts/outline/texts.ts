// An outline as it is recorded: turned so that its grain runs along x, with the answers it was made
// of, so that they can be put back into the form. Pure.
import { readLength, type Unit } from '../../twins/lengths.ts';
import { withUnit } from '../name.ts';
import {
  BLANK_KEEP,
  BLANK_POINT,
  BLANK_SHAPE,
  BLANK_SIDE,
  type Entered,
  filled,
  isBlankPoint,
  isBlankSide,
  type ShapeWay,
  type TypedKeep,
  type TypedOff,
  type TypedSide,
} from './answers.ts';
import { type Point, same } from './exact.ts';
import { CORNERS } from './plain.ts';
import type { Asked } from './reading.ts';
import { clockwise, type Region, toCorner, turnedBack } from './rings.ts';

export interface OutlineShape {
  readonly kind: 'outline';
  readonly outer: readonly Point[];
  readonly holes: readonly (readonly Point[])[];
  readonly entered: Entered;
}

/** The shape for the record. `lean`: the grain's angle to the first side, or null. */
export function recorded(
  region: Region,
  asked: Asked,
  lean: number | null,
  unit: Unit,
): OutlineShape {
  const { way, given, keeps } = asked.shape;
  const { outer, holes } = lean === null ? toCorner(region) : turnedBack(region, lean);
  const entered =
    way === 'dxf' && given
      ? given.entered
      : {
          way: way === 'two sides' ? 'keep-outs' : way,
          texts: textsOf(asked, lean !== null, unit),
        };
  const shape = {
    kind: 'outline',
    outer: fromLowest(outer),
    holes: holes.map(clockwise),
    entered,
  } as const;
  const untouched = way === 'dxf' && given && !keeps.length && lean === null;
  return untouched ? { ...shape, outer: given.region.outer, holes: given.region.holes } : shape;
}

/** The ring from its lowest corner on, the leftmost of them: the same for the same outline. */
function fromLowest(ring: readonly Point[]): readonly Point[] {
  const first = ring.reduce((best, one) =>
    one[1] < best[1] || (one[1] === best[1] && one[0] < best[0]) ? one : best,
  );
  const at = ring.findIndex((corner) => same(corner, first));
  return [...ring.slice(at), ...ring.slice(0, at)];
}

/** The answers by name, each length with its unit written out. */
function textsOf({ a, b, shape }: Asked, leans: boolean, unit: Unit): Record<string, string> {
  const texts: Record<string, string> = {};
  const put = (name: string, text: string): void => {
    const read = readLength(text, unit);
    const said = 'nm' in read ? withUnit(read) : text.trim();
    if (said) texts[name] = said.slice(0, 40);
  };
  const { way } = shape;
  if (way !== 'walked' && way !== 'offsets') {
    put('a', a);
    put('b', b);
  }
  if (way === 'triangle') put('c', shape.c);
  if (way === 'corner off' || way === 'ell')
    for (const [at, off] of shape.offs.entries()) {
      texts[`off ${at + 1}`] = off.corner;
      put(`off ${at + 1} a`, off.a);
      put(`off ${at + 1} b`, off.b);
    }
  if (way === 'walked') {
    for (const [at, side] of filled(shape.sides, isBlankSide).entries()) {
      put(`side ${at + 1}`, side.length);
      texts[`corner ${at + 1}`] = side.corner;
      if (side.corner === 'out' || side.corner === 'in')
        texts[`angle ${at + 1}`] = side.angle.trim();
      if (!side.curve) continue;
      texts[`curve ${at + 1}`] = side.curve;
      put(`rise ${at + 1}`, side.rise);
    }
    if (shape.back) texts.back = 'yes';
  }
  if (way === 'offsets')
    for (const [at, point] of filled(shape.points, isBlankPoint).entries()) {
      put(`x ${at + 1}`, point.x);
      put(`y ${at + 1}`, point.y);
    }
  for (const [at, keep] of shape.keeps.entries()) {
    const name = `keep ${at + 1}`;
    texts[name] = `${keep.sort} ${keep.fromX} ${keep.fromY}`;
    put(`${name} x`, keep.x);
    put(`${name} y`, keep.y);
    put(`${name} width`, keep.width);
    if (keep.sort === 'square') put(`${name} height`, keep.height);
  }
  if (leans) texts.grain = shape.lean.trim();
  return texts;
}

/** The answers that made a recorded outline: the two sides, and all else. */
export function answersFor(shape: OutlineShape): Asked {
  const { way, texts } = shape.entered;
  const told = (name: string): string => texts[name] ?? '';
  const known = WAY_OF[way];
  if (!known) {
    const region = { outer: shape.outer, holes: shape.holes };
    return {
      a: '',
      b: '',
      shape: { ...BLANK_SHAPE, way: 'dxf', given: { region, entered: shape.entered } },
    };
  }
  const lists = {
    offs: listed(
      `off `,
      told,
      (name): TypedOff => ({
        corner: CORNERS.find((corner) => corner === told(name)) ?? 'top right',
        a: told(`${name} a`),
        b: told(`${name} b`),
      }),
    ),
    sides: listed('side ', told, (name): TypedSide => sideFrom(name, told)),
    points: listed('x ', told, (name) => ({ x: told(name), y: told(name.replace('x', 'y')) })),
    keeps: listed('keep ', told, (name): TypedKeep => keepFrom(name, told)),
  };
  return {
    a: told('a'),
    b: told('b'),
    shape: {
      ...BLANK_SHAPE,
      way: known,
      c: told('c'),
      offs: lists.offs.length ? lists.offs : BLANK_SHAPE.offs,
      sides: lists.sides.length ? lists.sides : [BLANK_SIDE],
      points: lists.points.length ? lists.points : [BLANK_POINT],
      keeps: lists.keeps,
      back: told('back') === 'yes',
      lean: told('grain'),
    },
  };
}

const WAY_OF: Record<string, ShapeWay> = {
  'keep-outs': 'two sides',
  'corner off': 'corner off',
  ell: 'ell',
  triangle: 'triangle',
  walked: 'walked',
  offsets: 'offsets',
};

function listed<T>(name: string, told: (name: string) => string, make: (name: string) => T): T[] {
  const list: T[] = [];
  for (let at = 1; told(`${name}${at}`); at++) list.push(make(`${name}${at}`));
  return list;
}

function sideFrom(name: string, told: (name: string) => string): TypedSide {
  const also = (word: string): string => told(name.replace('side', word));
  const corner = (['inward', 'out', 'in'] as const).find((word) => word === also('corner'));
  const curve = (['out', 'in'] as const).find((word) => word === also('curve'));
  return {
    length: told(name),
    corner: corner ?? 'square',
    angle: also('angle'),
    curve: curve ?? '',
    rise: also('rise'),
  };
}

function keepFrom(name: string, told: (name: string) => string): TypedKeep {
  const [sort, fromX, fromY] = told(name).split(' ');
  return {
    ...BLANK_KEEP,
    sort: sort === 'square' || sort === 'mark' ? sort : 'round',
    fromX: fromX === 'right' ? 'right' : 'left',
    fromY: fromY === 'top' ? 'top' : 'bottom',
    x: told(`${name} x`),
    y: told(`${name} y`),
    width: told(`${name} width`),
    height: told(`${name} height`),
  };
}
