import { expect, it } from 'vitest';
import type { State } from '../twins/fold.ts';
import { holesAt, wholeLine } from './along.ts';
import type { LineLayer } from './lines.ts';

const layer = (part: string, treat: LineLayer['treat'] = 'plain'): LineLayer => ({ part, treat });
function line(count: number | null, segments: { count: number | null; layers: LineLayer[] }[]) {
  const own = { count, layers: [layer('skin'), layer('spar')] };
  return { sort: 'line', line: own, segments } as unknown as State;
}
const over = { count: 12, layers: [layer('skin'), layer('shim'), layer('spar')] };
const rest = { count: 62, layers: [layer('skin'), layer('spar')] };

it('names a layer that came in where it lies in the stack', () => {
  expect(wholeLine(line(74, [rest, over])).layers.map((one) => one.part)).toEqual([
    'skin',
    'shim',
    'spar',
  ]);
  const first = { count: 4, layers: [layer('patch'), ...rest.layers] };
  expect(wholeLine(line(74, [rest, first])).layers[0]?.part).toBe('patch');
  expect(wholeLine(line(74, [])).layers).toHaveLength(2);
});

it('names a layer again where its holes are made in another way', () => {
  const other = { count: 4, layers: [layer('skin', 'dimple'), layer('spar')] };
  expect(wholeLine(line(74, [rest, other])).layers).toEqual([
    layer('skin'),
    layer('skin', 'dimple'),
    layer('spar'),
  ]);
});

it('counts the holes that each layer has', () => {
  expect(holesAt(line(74, [rest, over]))).toEqual({ skin: 74, shim: 12, spar: 74 });
  expect(holesAt(line(74, [over]))).toEqual({ skin: 74, shim: 12, spar: 74 });
  expect(holesAt(line(74, []))).toEqual({ skin: 74, spar: 74 });
});

it('does not guess where holes are not counted', () => {
  expect(holesAt(line(null, [over]))).toEqual({ skin: null, shim: 12, spar: null });
  expect(holesAt(line(74, [rest, { ...over, count: null }]))).toEqual({
    skin: null,
    shim: null,
    spar: null,
  });
});
