import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { monotoneSlopes } from './monotone-slopes.ts';

const KNOTS = [-2, -1.4, -1, 0.2, 0.5];

describe('monotoneSlopes', () => {
  it('[FB1984] is the weighted harmonic mean of the secants, worked by hand', () => {
    const [first, middle, last] = monotoneSlopes([0, 1, 3], [0, 2, 3]);
    expect(first!.slope).toBe(2);
    expect(last!.slope).toBe(0.5);
    // a = (1 + 2 * 2) / (3 * 3) = 5/9; 1 / (5/9 / 2 + 4/9 / 0.5) = 1 / (5/18 + 16/18) = 6/7
    expectWithin(middle!.slope, 6 / 7, 1e-15);
  });

  it('lies in the region where pieces rise, [FC1980]: at most three times either secant', () => {
    const values = [0.1, 0.11, 0.9, 1, 1];
    const slopes = monotoneSlopes(KNOTS, values).map(({ slope }) => slope);
    for (let k = 0; k + 1 < KNOTS.length; k++) {
      const secant = (values[k + 1]! - values[k]!) / (KNOTS[k + 1]! - KNOTS[k]!);
      for (const slope of [slopes[k]!, slopes[k + 1]!]) {
        expect(slope).toBeGreaterThanOrEqual(0);
        expect(slope).toBeLessThanOrEqual(3 * secant + 1e-15);
      }
    }
  });

  it('is 0 at an extreme', () => {
    const [, top] = monotoneSlopes([0, 1, 2], [0, 1, 0]);
    expect(top).toEqual({ slope: 0, by: [0, 0, 0] });
  });

  it.each([[[0.1, 0.2, 0.9, 1, 1.6]], [[1, 0.7, 0.6, 0.2, 0.1]]])(
    'has the derivatives of its slopes at %j',
    (values) => {
      const h = 1e-5;
      const slopes = monotoneSlopes(KNOTS, values);
      slopes.forEach(({ by }, k) => {
        KNOTS.forEach((_, j) => {
          const at = (shift: number) =>
            monotoneSlopes(
              KNOTS,
              values.map((value, i) => (i === j ? value + shift : value)),
            )[k]!.slope;
          const expected = by[j - k + 1] ?? 0;
          expectWithin(expected, (at(h) - at(-h)) / (2 * h), 1e-7, `slope ${k} by value ${j}`);
        });
      });
    },
  );
});
