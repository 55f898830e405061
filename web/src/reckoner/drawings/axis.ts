// Along one direction of a drawing: to scale, but a stretch in which there is nothing to see is cut
// short, with break lines in the middle of it.

export interface Axis {
  /** px from the first mark */
  to: (nm: number) => number;
  size: number;
  /** px at which a stretch is broken */
  breaks: number[];
  /** the same stretches in nm */
  hidden: [from: number, to: number][];
}

/** `marks` (nm, in any order) are what must be seen; stretches longer than `most` px are cut to it. */
export function axis(
  marks: readonly number[],
  scale: number,
  most = Number.POSITIVE_INFINITY,
): Axis {
  const sorted = [...new Set(marks)].sort((a, b) => a - b);
  const at: number[] = [0];
  const breaks: number[] = [];
  const hidden: [number, number][] = [];
  for (const [index, mark] of sorted.entries()) {
    const before = sorted[index - 1];
    if (before === undefined) continue;
    const long = (mark - before) * scale;
    const start = at[index - 1] ?? 0;
    at.push(start + Math.min(long, most));
    if (long <= most) continue;
    breaks.push(start + most / 2);
    hidden.push([before, mark]);
  }
  const to = (nm: number): number => {
    const above = sorted.findIndex((mark) => mark >= nm);
    if (above === 0) return (nm - (sorted[0] ?? 0)) * scale;
    if (above < 0) return (at.at(-1) ?? 0) + (nm - (sorted.at(-1) ?? 0)) * scale;
    const [low = 0, high = 0] = [sorted[above - 1], sorted[above]];
    const [from = 0, till = 0] = [at[above - 1], at[above]];
    return from + ((till - from) * (nm - low)) / (high - low);
  };
  return { to, size: at.at(-1) ?? 0, breaks, hidden };
}
