/**
 * A monotone curve through the readings themselves, to draw or to invert a trusted table.
 *
 * The curve follows every error of reading, and its slopes are worse than its densities: it is no
 * source of gradients, gamma or contrast, and it has no error model.
 *
 * Sources: see `as-drawn-curve.ts` and `monotone-slopes.ts`. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import { asDrawnCurve } from './as-drawn-curve.ts';
import type { CurveFunction } from './model.ts';
import { monotoneSlopes } from './monotone-slopes.ts';

/** A curve through its knots: the model and the densities it goes through. */
export interface DrawnCurve {
  readonly model: CurveFunction;
  /** Base + fog, the density at each knot, the slope at each. */
  readonly parameters: readonly number[];
  /** Log exposures, ascending, all different. */
  readonly knots: readonly number[];
  /** There is no error model. */
  readonly covariance: null;
}

/**
 * Draws a curve through readings. Replicates are averaged; unexposed readings (x = -Infinity) give
 * base + fog, else the least exposed reading does.
 *
 * @param x - log exposures, any order, at least two different finite ones
 * @param y - densities
 * @throws {InvalidArgumentError} if lengths differ, a density is not finite or there are fewer
 *   than two different exposures
 */
export function asDrawn(x: readonly number[], y: readonly number[]): DrawnCurve {
  if (x.length !== y.length || !y.every(Number.isFinite)) {
    throw new InvalidArgumentError('asDrawn', 'y', y, `${x.length} finite numbers, as x`);
  }
  const sums = new Map<number, { sum: number; count: number }>();
  x.forEach((at, i) => {
    const entry = sums.get(at) ?? { sum: 0, count: 0 };
    sums.set(at, { sum: entry.sum + (y[i] ?? 0), count: entry.count + 1 });
  });
  const mean = (at: number): number | null => {
    const entry = sums.get(at);
    return entry ? entry.sum / entry.count : null;
  };
  const knots = [...sums.keys()].filter(Number.isFinite).sort((a, b) => a - b);
  const [first] = knots;
  if (first === undefined || knots.length < 2) {
    throw new InvalidArgumentError('asDrawn', 'x', x, 'at least two different finite numbers');
  }
  const densities = knots.map((at) => mean(at) ?? 0);
  const slopes = monotoneSlopes(knots, densities).map(({ slope }) => slope);
  const parameters = [mean(-Infinity) ?? densities[0] ?? 0, ...densities, ...slopes];
  return { model: asDrawnCurve(knots), parameters, knots, covariance: null };
}
