// @vitest-environment happy-dom
import { expect, test } from 'vitest';
import { codeFromAddress, codeInLink } from './pairing.ts';
import { path } from './router.ts';

test.each([
  ['https://bench.local:8443/#pair=FMTKH1C7THPV2WQN2MG58XQMXG', 'FMTKH1C7THPV2WQN2MG58XQMXG'],
  ['#pair=7KQ2-M0XD', '7KQ2-M0XD'],
  ['https://bench.local:8443/part/1', ''],
  ['C03ZMHVP8Z', ''],
  ['#pair=', ''],
  ['', ''],
])('%s holds “%s”', (text, code) => {
  expect(codeInLink(text)).toBe(code);
});

test('the code of the address is taken out of it, and pairing is what is shown', () => {
  history.replaceState(null, '', '/parts#pair=FMTKH1C7THPV2WQN2MG58XQMXG');
  expect(codeFromAddress()).toBe('FMTKH1C7THPV2WQN2MG58XQMXG');
  expect(location.hash).toBe('');
  expect(path.value).toBe('/pair');
  expect(codeFromAddress()).toBe('');
});
