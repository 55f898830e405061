import { describe, expect, test } from 'vitest';
import { areaText, metalName, shortfall, thicknessText } from './words';

const IN = 25_400_000;

describe('what is wanting is never made smaller', () => {
  test.each([
    [1, '1/64 in', '0.1 mm'],
    [396_875, '1/64 in', '0.4 mm'],
    [396_876, '1/32 in', '0.4 mm'],
    [3_000_000, '1/8 in', '3 mm'],
    [3_175_000, '1/8 in', '3.2 mm'],
    [10_000_001, '13/32 in', '11 mm'],
    [IN, '1 in', '26 mm'],
  ])('%i nm', (nm, inch, mm) => {
    expect(shortfall(nm, 'in')).toBe(inch);
    expect(shortfall(nm, 'mm')).toBe(mm);
  });
});

test('thicknesses as each workshop writes them', () => {
  expect(thicknessText(812_800, 'in')).toBe('.032');
  expect(thicknessText(800_000, 'in')).toBe('.0315');
  expect(thicknessText(800_000, 'mm')).toBe('0.8 mm');
  expect(thicknessText(812_800, 'mm')).toBe('0.813 mm');
});

test('areas', () => {
  const square = (25_400 * IN) / 1000;
  expect(areaText(square * 6, 'in')).toBe('6 sq in');
  expect(areaText(square * 12.4, 'in')).toBe('12 sq in');
  expect(areaText(square * 6, 'mm')).toBe('39 sq cm');
  expect(areaText(1, 'in')).toBe('less than 0.1 sq in');
});

test('metals', () => {
  expect(metalName('2024', 'T3', 'clad')).toBe('2024-T3 clad');
  expect(metalName('6061', 'T6', 'bare')).toBe('6061-T6');
  expect(metalName('6061', 'unknown')).toBe('6061, temper unknown');
  expect(metalName(null, 'T3', 'clad')).toBe('metal unknown');
});
