import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { thinLine } from './thin-line.ts';

/** Distance of a point from the nearest stretch of a polyline. */
function distanceTo(line: readonly (readonly [number, number])[], x: number, y: number): number {
  let least = Infinity;
  for (let i = 0; i < line.length - 1; i++) {
    const [x0, y0] = line[i]!;
    const [x1, y1] = line[i + 1]!;
    const length = (x1 - x0) ** 2 + (y1 - y0) ** 2;
    const along = length === 0 ? 0 : ((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / length;
    const t = Math.min(1, Math.max(0, along));
    least = Math.min(least, Math.hypot(x - x0 - t * (x1 - x0), y - y0 - t * (y1 - y0)));
  }
  return least;
}

describe('a thinned line', () => {
  it('keeps the ends of a straight stretch alone', () => {
    const points = Array.from({ length: 50 }, (_, i): [number, number] => [2 * i, 30 - i]);
    expect(thinLine(points)).toEqual([points[0], points[49]]);
  });

  it('keeps a corner', () => {
    const points: [number, number][] = [
      [0, 0],
      [10, 0],
      [20, 0],
      [30, 10],
      [40, 20],
    ];
    expect(thinLine(points)).toEqual([
      [0, 0],
      [20, 0],
      [40, 20],
    ]);
  });

  it('halves a characteristic curve at least, and no point strays by more than it may', () => {
    const curve = Array.from({ length: 121 }, (_, i): [number, number] => {
      const x = i / 20 - 3;
      return [5 * i, 300 - 80 * Math.log1p(Math.exp(2 * x))];
    });
    const thinned = thinLine(curve);
    expect(thinned.length).toBeLessThan(60);
    for (const [x, y] of curve) expect(distanceTo(thinned, x, y)).toBeLessThan(0.1);
  });

  it('lies by every point of any line that runs from left to right', () => {
    const steps = fc.array(
      fc.tuple(fc.double({ min: 0.01, max: 9, noNaN: true }), fc.integer({ min: -40, max: 40 })),
    );
    fc.assert(
      fc.property(steps, (moves) => {
        let [x, y] = [0, 0];
        const points = moves.map(([dx, dy]): [number, number] => [(x += dx), (y += dy)]);
        const thinned = thinLine(points);
        expect(thinned.length).toBeLessThanOrEqual(points.length);
        if (points.length < 2) return;
        for (const [px, py] of points) expect(distanceTo(thinned, px, py)).toBeLessThan(0.1001);
      }),
    );
  });

  it('has nothing where there is nothing', () => {
    expect(thinLine([])).toEqual([]);
    expect(thinLine([[1, 2]])).toEqual([[1, 2]]);
  });
});
