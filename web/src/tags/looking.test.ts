import { describe, expect, test } from 'vitest';
import { type Box, looksAtFrame, OUTLINE, outlined, tiles, within } from './looking.ts';

const inside = (box: Box, size: { width: number; height: number }): boolean =>
  box.x >= 0 && box.y >= 0 && box.x + box.width <= size.width && box.y + box.height <= size.height;

describe('the part of a frame that the outline covers', () => {
  test('a wide frame in a tall window: the height is shown whole', () => {
    const frame = { width: 1280, height: 720 };
    const box = outlined(frame, { width: 360, height: 480 });
    // 480 on the screen are 720 in the frame; the outline is a share of the 360 across
    expect(box.width).toBe(Math.round((360 * OUTLINE * 720) / 480));
    expect(box.height).toBe(box.width);
    expect(Math.abs(box.x + box.width / 2 - 640)).toBeLessThan(1);
    expect(Math.abs(box.y + box.height / 2 - 360)).toBeLessThan(1);
  });

  test('a tall frame, as a phone held upright gives', () => {
    const box = outlined({ width: 1080, height: 1920 }, { width: 360, height: 440 });
    expect(box.width).toBe(Math.round(1080 * OUTLINE));
  });

  test('a window that is not drawn yet gives no box outside the frame', () => {
    const frame = { width: 640, height: 480 };
    expect(inside(outlined(frame, { width: 0, height: 0 }), frame)).toBe(true);
  });
});

describe('the looks at a frame', () => {
  test.each([
    [1280, 720],
    [1920, 1080],
    [1080, 1920],
    [640, 480],
  ])(
    '%i x %i: enlarged, inside the frame, never huge; the whole frame comes last',
    (width, height) => {
      const frame = { width, height };
      const outline = outlined(frame, { width: 358, height: 444 });
      for (const turn of [0, 1, 2]) {
        const looks = looksAtFrame(frame, outline, turn);
        for (const { box, scale } of looks) {
          expect(inside(box, frame)).toBe(true);
          expect(scale).toBeGreaterThanOrEqual(1);
          if (scale > 1) expect(Math.max(box.width, box.height) * scale).toBeLessThanOrEqual(1001);
        }
        expect(looks.at(-1)).toEqual({
          box: { x: 0, y: 0, width, height },
          scale: 1,
          denoise: false,
        });
        expect(looks).toHaveLength(turn === 2 ? 3 : 2);
      }
    },
  );
});

test('a photo is made no larger, and smaller in its own shape', () => {
  expect(within({ width: 800, height: 600 }, 1600)).toEqual({ width: 800, height: 600 });
  expect(within({ width: 8000, height: 5000 }, 4096)).toEqual({ width: 4096, height: 2560 });
  expect(within({ width: 9000, height: 1 }, 1600)).toEqual({ width: 1600, height: 1 });
});

test.each([
  [4096, 3072],
  [3072, 4096],
  [1500, 900],
  [700, 500],
])('tiles of %i x %i reach every tag of 400 pixels whole', (width, height) => {
  const size = { width, height };
  const boxes = tiles(size, 1400).map(({ box }) => box);
  for (const box of boxes) expect(inside(box, size)).toBe(true);
  const side = Math.min(400, width, height);
  for (let x = 0; x <= width - side; x += 50)
    for (let y = 0; y <= height - side; y += 50)
      expect(
        boxes.some(
          (box) =>
            box.x <= x &&
            box.y <= y &&
            box.x + box.width >= x + side &&
            box.y + box.height >= y + side,
        ),
      ).toBe(true);
});
