// A QR symbol as one path: rows of "1" (dark) and "0" become runs of unit squares.
export function symbolPath(rows: string[]): string {
  let path = '';
  rows.forEach((row, y) => {
    for (const run of row.matchAll(/1+/g)) {
      const width = run[0].length;
      path += `M${run.index} ${y}h${width}v1h-${width}z`;
    }
  });
  return path;
}
