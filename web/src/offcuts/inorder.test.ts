import { expect, test } from 'vitest';
import { First, inOrder } from './inorder.ts';

const byNumber = (one: number, other: number): number => one - other;

test('all of them come, in order', () => {
  let state = 7;
  const draw = (): number => {
    state = (state * 48_271) % 2_147_483_647;
    return state % 50;
  };
  for (let length = 0; length < 60; length += 1) {
    const items = Array.from({ length }, draw);
    expect([...inOrder([...items], byNumber)]).toEqual([...items].sort(byNumber));
  }
});

test('the first few of many cost about two looks at each', () => {
  let looks = 0;
  const items = Array.from({ length: 5000 }, (_, n) => (n * 7919) % 5000);
  const taken: number[] = [];
  for (const one of inOrder(items, (a, b) => {
    looks += 1;
    return a - b;
  })) {
    taken.push(one);
    if (taken.length === 40) break;
  }
  expect(taken).toEqual(Array.from({ length: 40 }, (_, n) => n));
  expect(looks).toBeLessThan(2.5 * 5000);
});

test('the first few of all that are offered, whatever their order', () => {
  const items = Array.from({ length: 500 }, (_, n) => (n * 7919) % 500);
  const few = new First<number>(7, byNumber);
  for (const item of items) few.offer(item);
  expect(few.items).toEqual([0, 1, 2, 3, 4, 5, 6]);
  expect(few.offered).toBe(500);
  expect([few.takes(6), few.takes(5.5)]).toEqual([false, true]);
  const none = new First<number>(0, byNumber);
  none.offer(1);
  expect([none.items, none.offered]).toEqual([[], 1]);
});
