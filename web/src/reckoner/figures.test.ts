import { describe, expect, test } from 'vitest';
import { keptAnswer } from '../twins/kept.ts';
import { type Answer, isUnreckoned, reckon, type Sum } from '../twins/reckon.ts';
import { RULES, sumNamed } from './book.ts';
import { asked, keptValue, shown, spoken } from './figures.ts';

const sum = (name: string): Sum => sumNamed(name) as Sum;
function answerOf(name: string, typed: Record<string, string>): Answer {
  const found = reckon(RULES, name, typed, 'in');
  if (isUnreckoned(found)) throw new Error(found.sentence);
  return found;
}

describe('the figure that is asked for', () => {
  test('is the part number of a rivet, and is not told twice', () => {
    const answer = answerOf('rivet', { stack: '.032,.040', diameter: '1/8' });
    const [main, others] = asked(sum('rivet'), answer, 'in');
    expect(main?.own).toBe('MS20470AD4-4');
    expect(others.map(({ key }) => key)).toContain('grip_mm');
    expect(others.map(({ key }) => key)).not.toContain('part_number');
  });
  test('is what a sheet lacks where it cannot be countersunk', () => {
    const typed = { thickness: '.040', diameter: '3/32', under: '.032' };
    const answer = answerOf('flush', typed);
    expect(answer.verdict).toBe('fails');
    expect(asked(sum('flush'), answer, 'in')[0]?.own).toBe('.0455 in');
  });
  test('is the first that any other sum gives, in both units', () => {
    const [main] = asked(sum('edge'), answerOf('edge', { edge: '3/8', diameter: '1/8' }), 'in');
    expect(main).toMatchObject({ key: 'edge_d', own: '3 D', other: '' });
  });
  test('is none where only the verdict is asked, or nothing is covered', () => {
    const typed = { thickness: '.032', offered_thickness: '.032' };
    const metals = { alloy: '2024-T3', offered_alloy: '2024-T3' };
    const same = answerOf('substitute', { ...typed, ...metals });
    expect(asked(sum('substitute'), same, 'in')[0]).toBeNull();
    const pulled = answerOf('rivet', { stack: '.032', diameter: '1/8', kind: 'pulled' });
    expect(pulled.verdict).toBe('not covered');
    expect(asked(sum('rivet'), pulled, 'in')).toEqual([null, []]);
  });
  test('is the blank of a piece, as its two sides', () => {
    const typed = { gap: '.032', length: '6', width: '5/8', alloy: '2024-T3' };
    const shim = answerOf('shim', { ...typed, stack: '.032,.040', diameter: '1/8' });
    const [main, others] = asked(sum('shim'), shim, 'in');
    expect(main).toMatchObject({ own: '6 × 5/8 in', other: '152.4 × 15.88 mm' });
    expect(others.some(({ key }) => key.startsWith('blank'))).toBe(false);
    expect(others.map(({ key }) => key)).toContain('thickness_mm');
  });
  test('nothing is short by nothing', () => {
    const [, others] = asked(sum('edge'), answerOf('edge', { edge: '3/8', diameter: '1/8' }), 'in');
    expect(others.map(({ key }) => key)).not.toContain('short_mm');
  });
});

test.each([
  ['edge_min_mm', 6.35, 'in', '1/4 in', '6.35 mm'],
  ['needed_mm', 1.15658, 'mm', '1.157 mm', '.0455 in'],
  ['length_mm', 254, 'mm', '254 mm', '10 in'],
  ['flats_mm', [20.32, 40.64], 'in', '.800, 1.600 in', '20.32, 40.64 mm'],
  ['left_mm', -1.5875, 'in', '−1/16 in', '−1.588 mm'],
  ['gap_left_mm', 0, 'in', '0 in', '0 mm'],
  ['angle_deg', 45, 'in', '45°', ''],
  ['edge_d', 1.5, 'in', '1.5 D', ''],
  ['share_percent', 60, 'in', '60 %', ''],
  ['mass_g', 100, 'mm', '100 g', '3.53 oz'],
  ['area_m2', 1, 'in', '10.8 ft²', '1 m²'],
  ['volume_l', 0.3, 'mm', '0.3 l', '10.1 US fl oz'],
  ['parts_l', [0.2, 0.05], 'mm', '0.2, 0.05 l', '6.76, 1.69 US fl oz'],
  ['coverage_m2_per_l', 15.354331, 'in', '15.354 m²/l', ''],
  ['density_kg_m3', 2768, 'in', '2768 kg/m³', ''],
  ['dash', 3.5, 'in', '3.5', ''],
  ['counts', [3, 8], 'in', '3, 8', ''],
  ['treatment', 'dimple', 'in', 'Dimple', ''],
  ['drill', '#40', 'in', '#40', ''],
  ['inside_band', true, 'in', 'Yes', ''],
] as const)('%s %j reads in %s as %j and %j', (key, value, unit, own, other) => {
  expect(shown(key, typeof value === 'object' ? [...value] : value, unit)).toEqual({ own, other });
});

test('an answer is kept as texts, and a figure is read back from one', () => {
  const answer = {
    verdict: 'meets',
    why: '',
    source: 's',
    caution: 'c',
    read_as: 'r',
    grip_mm: 1.8288,
    flats_mm: [20.32, 40.64],
    inside_band: true,
  } as Answer;
  const texts = keptAnswer(answer);
  expect(texts).toMatchObject({ grip_mm: '1.8288', flats_mm: '20.32, 40.64', inside_band: 'yes' });
  expect(keptValue('grip_mm', '1.8288')).toBe(1.8288);
  expect(keptValue('flats_mm', '20.32, 40.64')).toEqual([20.32, 40.64]);
  expect(keptValue('part_number', 'MS20470AD4-4')).toBe('MS20470AD4-4');
});

test('what is read out: the verdict, the figure by its name, and why', () => {
  const answer = answerOf('edge', { edge: '3/16', diameter: '1/8' });
  expect(spoken(answer, asked(sum('edge'), answer, 'in')[0])).toMatch(
    /^Fails\. Edge distance, in diameters: 1\.5 D\. The edge distance of 3\/16 in is 1\.5 D/,
  );
});
