import { afterEach, describe, expect, test, vi } from 'vitest';
import { http, OutOfReach, Refused } from './wire.ts';

const HEAD = { position: 7, chain: 'ab' };
const answers = (answer: Response | Error) =>
  vi.spyOn(globalThis, 'fetch').mockImplementation(async () => {
    if (answer instanceof Error) throw answer;
    return answer;
  });

afterEach(() => void vi.restoreAllMocks());

describe('every failure is one that the phone can tell', () => {
  test('no answer', async () => {
    answers(new TypeError('network'));
    await expect(http.pull(HEAD)).rejects.toThrow(OutOfReach);
  });
  test('a refusal says why', async () => {
    answers(Response.json({ problem: 'disk full', sentence: 'Make room.' }, { status: 507 }));
    const refused = await http.push(['{}'], 1, HEAD).catch((problem) => problem);
    expect(refused).toBeInstanceOf(Refused);
    expect(refused).toMatchObject({ status: 507, word: 'disk full', message: 'Make room.' });
  });
  test.each([
    ['another page', '<html>sign in</html>'],
    ['nothing', ''],
    ['half an answer', '{"position":3,'],
    ['something else', '{"hello":1}'],
    ['null', 'null'],
  ])('%s in place of the answer', async (_, text) => {
    answers(new Response(text));
    await expect(http.pull(HEAD)).rejects.toThrow(OutOfReach);
    answers(new Response(text));
    await expect(http.push(['{}'], 1, HEAD)).rejects.toThrow(OutOfReach);
  });
  test('an answer that breaks off', async () => {
    const body = new ReadableStream({
      pull: (control) => control.error(new TypeError('connection lost')),
    });
    answers(new Response(body));
    await expect(http.pull(HEAD)).rejects.toThrow(OutOfReach);
  });
});

test('a push is lines of bytes, with the clock and what was seen', async () => {
  const asked = answers(Response.json({ answers: [] }));
  await http.push(['{"a":1}', '{"b":2}'], 99, HEAD);
  expect(asked.mock.calls[0]).toMatchObject([
    '/api/push',
    {
      method: 'POST',
      body: '{"a":1}\n{"b":2}\n',
      headers: { 'Bucktail-Now': '99', 'Bucktail-Seen': '7 ab' },
    },
  ]);
});

test('a page is its first line and cards as text, signs that look like line ends included', async () => {
  const card = '{"name":"a\u2028b\u0085c"}';
  answers(new Response(`{"position":9,"chain":"cd","more":true,"edition":"e"}\n${card}\n`));
  expect(await http.pull(HEAD)).toEqual({
    head: { position: 9, chain: 'cd' },
    more: true,
    edition: 'e',
    cards: [card],
  });
});
