// Whether a drawing can be read: every figure on the ground, none on another, none on a line.
import { type Box, boxOf, type Picture, type Point } from './picture.ts';

/** What is wrong with a drawing, in words; nothing where it can be read. */
export function illegible(picture: Picture): string[] {
  const found: string[] = [];
  const figures = picture.figures.map((figure) => ({ text: figure.text, box: boxOf(figure) }));
  for (const [at, { text, box }] of figures.entries()) {
    if (box.left < 0 || box.right > picture.width) found.push(`${text} runs off the side`);
    if (box.top < 0 || box.bottom > picture.height) found.push(`${text} runs off the top or foot`);
    for (const other of figures.slice(at + 1))
      if (overlap(box, other.box)) found.push(`${text} stands on ${other.text}`);
    for (const { look, points } of picture.strokes)
      if (crosses(points, box)) found.push(`${text} stands on a line (${look})`);
    for (const { look, points } of picture.solids)
      if (
        crosses([...points, ...points.slice(0, 1)], box) ||
        (look !== 'metal' && holds(points, box))
      )
        found.push(`${text} stands on a shape (${look})`);
    for (const { x, y, radius } of picture.circles) {
      const dx = Math.max(box.left - x, 0, x - box.right);
      const dy = Math.max(box.top - y, 0, y - box.bottom);
      if (Math.hypot(dx, dy) < radius) found.push(`${text} stands on a hole`);
    }
  }
  return found;
}

function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

function crosses(points: readonly Point[], box: Box): boolean {
  return points.some((point, at) => {
    const before = points[at - 1];
    return before !== undefined && cuts(before, point, box);
  });
}

/** Whether a line from a to b passes through a box: what is left of it after clipping at each side. */
function cuts([ax, ay]: Point, [bx, by]: Point, box: Box): boolean {
  let [from, to] = [0, 1];
  for (const [start, step, low, high] of [
    [ax, bx - ax, box.left, box.right],
    [ay, by - ay, box.top, box.bottom],
  ] as const) {
    if (step === 0) {
      if (start <= low || start >= high) return false;
      continue;
    }
    const [one, two] = [(low - start) / step, (high - start) / step];
    from = Math.max(from, Math.min(one, two));
    to = Math.min(to, Math.max(one, two));
  }
  return from < to;
}

function holds(points: readonly Point[], box: Box): boolean {
  const [x, y] = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
  let inside = false;
  for (const [at, [ax, ay]] of points.entries()) {
    const [bx, by] = points.at(at - 1) ?? [ax, ay];
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside;
  }
  return inside;
}
