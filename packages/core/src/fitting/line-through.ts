/**
 * A straight line through readings by one of three methods: drift of an instrument, a tablet
 * against its certificate, a factor from a few trials.
 *
 *   least-squares  the best line where errors are alike and normal
 *   theil-sen      the median of the slopes between all pairs; up to 29 % of bad readings do no harm
 *   huber          least squares with a limited pull of far readings, with standard errors
 *
 * Sources: [THEIL1950], [SEN1968]; [HUBER1964]. Lines of the first two kinds come from
 * ml-regression, which is exact to rounding there; its robust polynomial draws random samples and is
 * not used, as the same readings must give the same line. Deviations: abscissae and readings are
 * centred before the fit, so that lines far from the origin lose no digits.
 */
import { SimpleLinearRegression, TheilSenRegression } from 'ml-regression';
import { InvalidArgumentError } from '../errors.ts';
import { fitModel } from './fit-model.ts';
import { straightLine } from './models/straight-line.ts';
import { robustLeastSquares } from './robust-least-squares.ts';

/** How the line is found. */
export type LineMethod = 'least-squares' | 'theil-sen' | 'huber';

/** A line y = intercept + slope x. */
export interface Line {
  readonly intercept: number;
  readonly slope: number;
  /** Null for Theil and Sen's line and where no degree of freedom is left. */
  readonly interceptStandardError: number | null;
  readonly slopeStandardError: number | null;
}

/**
 * Draws a straight line through readings.
 *
 * @param x - abscissae, finite, at least two different ones
 * @param y - readings, finite, as many
 * @param method - default least-squares
 * @throws {InvalidArgumentError} if lengths differ, a number is not finite, or all x are the same
 */
export function lineThrough(
  x: readonly number[],
  y: readonly number[],
  method: LineMethod = 'least-squares',
): Line {
  if (x.length !== y.length || ![...x, ...y].every(Number.isFinite)) {
    throw new InvalidArgumentError('lineThrough', 'y', y, `${x.length} finite numbers, as x`);
  }
  if (new Set(x).size < 2) {
    throw new InvalidArgumentError('lineThrough', 'x', x, 'at least two different numbers');
  }
  const centreX = x.reduce((sum, value) => sum + value, 0) / x.length;
  const centreY = y.reduce((sum, value) => sum + value, 0) / y.length;
  const u = x.map((value) => value - centreX);
  const v = y.map((value) => value - centreY);
  const moved = ({ slope, intercept }: { slope: number; intercept: number }) => ({
    slope,
    intercept: intercept + centreY - slope * centreX,
  });
  if (method === 'theil-sen') {
    const line = moved(new TheilSenRegression(u, v));
    return { ...line, interceptStandardError: null, slopeStandardError: null };
  }
  const solve = method === 'huber' ? robustLeastSquares : undefined;
  const fit = fitModel(straightLine, u, v, { solve });
  const line =
    method === 'huber'
      ? moved({ intercept: fit.parameters[0] ?? 0, slope: fit.parameters[1] ?? 0 })
      : moved(new SimpleLinearRegression(u, v));
  const [aa = 0, ab = 0, , bb = 0] = fit.covariance ?? [];
  return {
    ...line,
    // At x = 0, a distance of -centre from where the fit was made.
    interceptStandardError: fit.covariance
      ? Math.sqrt(aa - 2 * centreX * ab + centreX * centreX * bb)
      : null,
    slopeStandardError: fit.standardErrors[1] ?? null,
  };
}
