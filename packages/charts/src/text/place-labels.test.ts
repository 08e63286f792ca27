import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { around, overlaps, placeLabels, spread, type LabelRequest } from './place-labels.ts';

const BOUNDS = { x0: 0, y0: 0, x1: 400, y1: 300 };
const point = fc.record({
  x: fc.integer({ min: 0, max: 400 }),
  y: fc.integer({ min: 0, max: 300 }),
});

describe('placeLabels', () => {
  it('never lets two labels overlap or leave the bounds, however crowded', () => {
    fc.assert(
      fc.property(fc.array(point, { maxLength: 30 }), (points) => {
        const requests = points.map(({ x, y }, i): LabelRequest => {
          return { id: String(i), text: `label ${i}`, size: 12, candidates: around(x, y) };
        });
        const placed = placeLabels(requests, BOUNDS, []);
        for (const [i, a] of placed.entries()) {
          expect(a.box.x0 >= 0 && a.box.x1 <= 400 && a.box.y0 >= 0 && a.box.y1 <= 300).toBe(true);
          for (const b of placed.slice(i + 1)) expect(overlaps(a.box, b.box)).toBe(false);
        }
      }),
    );
  });

  it('prefers the first free place, avoids lines, and leaves out what has no place', () => {
    const request = { id: 'a', text: 'ab', size: 12, candidates: around(100, 100) };
    const [first] = placeLabels([request], BOUNDS, []);
    expect(first).toMatchObject({ anchor: 'start', x: 108, y: 92 });
    const line = { id: 'l', points: [[112, 88]] as const };
    expect(placeLabels([request], BOUNDS, [line])[0]).toMatchObject({ anchor: 'end' });
    expect(placeLabels([{ ...request, ownLine: 'l' }], BOUNDS, [line])[0]?.anchor).toBe('start');
    expect(placeLabels([request], BOUNDS, [], [BOUNDS])).toEqual([]);
  });
});

describe('spread', () => {
  it('keeps the distance and the order, and stays inside where there is room', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 200 }), { maxLength: 12 }), (wanted) => {
        const result = spread(wanted, 15, 0, 200);
        const sorted = [...result].sort((a, b) => a - b);
        for (let i = 1; i < sorted.length; i++) {
          expect(sorted[i]! - sorted[i - 1]!).toBeGreaterThanOrEqual(15 - 1e-9);
        }
        expect(Math.min(0, ...result)).toBeGreaterThanOrEqual(-1e-9);
        expect(Math.max(0, ...result)).toBeLessThanOrEqual(200 + 1e-9);
      }),
    );
  });
});
