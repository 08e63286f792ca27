/**
 * A polyline with no more points than the eye can tell: a straight stretch needs its ends alone, and
 * a shorter path is sooner parsed and painted.
 */

type Point = readonly [number, number];

/** Farthest, in pixels, that a point left out may lie from the line drawn. */
const UNSEEN = 0.1;

/**
 * @param points - in the order of the line, in pixels
 * @returns some of them, the first and the last included
 */
export function thinLine(points: readonly Point[]): readonly Point[] {
  const kept: Point[] = [];
  let from = 0;
  for (let to = 1; to < points.length; to++) {
    const next = points[to + 1];
    if (next !== undefined && straight(points, from, to + 1)) continue;
    const start = points[from];
    if (start !== undefined) kept.push(start);
    from = to;
  }
  const last = points.at(-1);
  if (last !== undefined) kept.push(last);
  return kept;
}

/** Whether all points between two lie on their chord, as far as can be seen. */
function straight(points: readonly Point[], from: number, to: number): boolean {
  const [x0, y0] = points[from] ?? [NaN, NaN];
  const [x1, y1] = points[to] ?? [NaN, NaN];
  const [dx, dy] = [x1 - x0, y1 - y0];
  const square = dx * dx + dy * dy;
  const most = UNSEEN * Math.sqrt(square);
  for (let i = from + 1; i < to; i++) {
    const [x, y] = points[i] ?? [NaN, NaN];
    const along = (x - x0) * dx + (y - y0) * dy;
    const beside = Math.abs((x - x0) * dy - (y - y0) * dx);
    // A line that turns back upon itself leaves its chord lengthwise.
    if (!(beside <= most && along >= 0 && along <= square && square > 0)) return false;
  }
  return true;
}
