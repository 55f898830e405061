import { describe, expect, it } from 'vitest';
import type { LineLayer, Treat } from '../parts/lines.ts';
import { flushSaid } from './lineflush.ts';
import { lengthsFor } from './linelengths.ts';

const sheet = (part: string, inch: number | null, treat: Treat = 'plain'): LineLayer => ({
  part,
  thickness: inch === null ? null : { nm: Math.round(inch * 25_400_000), text: String(inch) },
  treat,
});
const fastener = { kind: 'rivet' as const, text: 'MS20470AD3' };
const spar = { layers: [sheet('skin', 0.032), sheet('spar', 0.04)], fastener, dash: 7 };

describe('the lengths beside the one that the rule gives', () => {
  const head = 'protruding' as const;
  it('stick out as far as the length less the grip is, in diameters', () => {
    // grip .072 in, 3/32 in: -3.5 is .21875 in, so .14675 / .09375
    const found = lengthsFor({ head }, [spar]);
    expect(found).toMatchObject({ least: 1.3, most: 1.7 });
    expect(found?.all.map((one) => one.dash)).toEqual([6, 7, 8]);
    expect(found?.all[1]?.out[0]).toBeCloseTo(0.14675 / 0.09375, 3);
    expect(found?.all[2]?.out[0]).toBeCloseTo((0.25 - 0.072) / 0.09375, 3);
    expect(found?.all.map((one) => one.within)).toEqual([false, true, false]);
  });
  it('are judged by every stack that they would go into', () => {
    const thicker = { ...spar, layers: [...spar.layers, sheet('shim', 0.032)] };
    const found = lengthsFor({ head }, [spar, thicker]);
    expect(found?.all.map((one) => one.dash)).toEqual([6, 7, 8, 9]);
    expect(found?.all.some((one) => one.within)).toBe(false);
    const [least = 0, most = 0] = found?.all[1]?.out ?? [];
    expect(most - least).toBeCloseTo(0.032 / 0.09375, 3);
  });
  it('keep the length that somebody chose among them', () => {
    const found = lengthsFor({ head }, [{ ...spar, dash: 12 }]);
    expect(found?.all.map((one) => one.dash)).toEqual([6, 7, 8, 12]);
  });
  it('are not told where a sheet or the rivet is not known', () => {
    expect(lengthsFor({ head }, [{ ...spar, layers: [sheet('skin', null)] }])).toBeNull();
    expect(lengthsFor({ head }, [{ ...spar, fastener: { kind: 'rivet', text: '' } }])).toBeNull();
    expect(lengthsFor({ head }, [])).toBeNull();
  });
});

describe('flush heads in the layers of a line', () => {
  const head = 'flush' as const;
  const said = (...layers: LineLayer[]): string[] =>
    flushSaid({ head }, { layers, fastener: { kind: 'rivet', text: 'MS20426AD3' } }, 'in').map(
      (one) => `${one.part} ${one.verdict}`,
    );
  it('T5: 3/32 flush in a .032 dimpled skin over .040 countersunk fails and says what it needs', () => {
    const layers = [sheet('skin', 0.032, 'dimple'), sheet('spar', 0.04, 'countersink')];
    expect(said(...layers)).toEqual(['skin meets', 'spar fails']);
    const line = { layers, fastener: { kind: 'rivet' as const, text: '3/32' } };
    expect(flushSaid({ head }, line, 'in')[1]?.why).toContain('.0455');
    expect(said(sheet('skin', 0.032, 'dimple'), sheet('spar', 0.05, 'countersink'))).toEqual([
      'skin meets',
      'spar meets',
    ]);
  });
  it('a dimple has no room in a plain hole, and a plain hole none for the head', () => {
    expect(said(sheet('skin', 0.032, 'dimple'), sheet('shim', 0.032))).toEqual([
      'skin meets',
      'shim fails',
    ]);
    expect(said(sheet('skin', 0.032))).toEqual(['skin fails']);
  });
  it('a sheet that is too thin to countersink fails though it can be dimpled', () => {
    expect(said(sheet('skin', 0.025, 'countersink'))).toEqual(['skin fails']);
  });
  it('what lies beneath a countersunk layer is plain', () => {
    expect(said(sheet('skin', 0.063, 'countersink'), sheet('rib', 0.025))).toEqual(['skin meets']);
    expect(said(sheet('skin', 0.063, 'countersink'), sheet('rib', 0.025, 'dimple'))).toEqual([
      'skin meets',
      'rib check',
    ]);
  });
  it('two dimpled layers above a countersunk one are not covered', () => {
    const two = [sheet('a', 0.02, 'dimple'), sheet('b', 0.02, 'dimple')];
    expect(said(...two, sheet('c', 0.063, 'countersink'))).toEqual([
      'a meets',
      'b meets',
      'c not covered',
    ]);
    expect(said(sheet('thick', 0.05, 'dimple'))).toEqual(['thick check']);
  });
  it('says nothing of protruding heads or of sheets that are not known', () => {
    expect(flushSaid({ head: 'protruding' }, spar, 'in')).toEqual([]);
    expect(said(sheet('skin', null, 'countersink'))).toEqual([]);
  });
});
