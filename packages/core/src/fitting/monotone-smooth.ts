/**
 * A smooth monotone curve for readings that no family fits: a penalised B-spline.
 *
 *   minimise |y - B c|^2 + lambda |D c|^2  subject to c_0 <= c_1 <= ...
 *
 * D takes third differences. In place of c the increments c_j - c_(j-1) >= 0 are fitted, so that the
 * bounds of the least-squares solver keep the curve rising. lambda minimises the generalised
 * cross-validation score
 *
 *   GCV = n RSS / (n - tr H)^2,  H the hat matrix on the increments that are not held at 0
 *
 * and the covariance is the Bayesian one, sigma^2 (B'B + lambda D'D)^-1, sigma^2 = RSS / (n - tr H),
 * whose intervals cover the curve on average as stated although the fit is biased.
 *
 * Sources: [EM1996] the P-spline; [CW1979] GCV; [WAHBA1983] the covariance. Deviations: monotone
 * by bounded increments.
 */
import { InvalidArgumentError } from '../errors.ts';
import { leastSquares } from './least-squares.ts';
import type { LeastSquaresFit } from './least-squares-types.ts';
import type { CurveModel } from './model.ts';
import { monotoneSmoothModel } from './monotone-smooth-model.ts';

/** A fitted smooth curve. */
export interface SmoothCurve {
  readonly model: CurveModel;
  /** Coefficients of the spline; the first is base + fog. */
  readonly parameters: readonly number[];
  readonly knots: readonly number[];
  /** Row-major; null when the readings leave no degree of freedom. */
  readonly covariance: readonly number[] | null;
  /** Model minus reading. */
  readonly residuals: readonly number[];
  readonly residualSumOfSquares: number;
  readonly residualStandardDeviation: number | null;
  /** Readings less effective parameters; not a whole number. */
  readonly degreesOfFreedom: number;
  /** tr H. */
  readonly effectiveParameters: number;
  /** The weight of the penalty that was chosen. */
  readonly penalty: number;
}

/** Options of `monotoneSmooth`. */
export interface MonotoneSmoothOptions {
  /** Weight of the penalty; by default chosen by cross-validation. */
  readonly penalty?: number | undefined;
  /** Cells between the first and the last reading; by default one a reading, at most 16. */
  readonly cells?: number | undefined;
}

/**
 * Smooths readings to a rising curve.
 *
 * @param x - log exposures, any order, -Infinity for the unexposed film; at least four different
 * @param y - densities
 * @throws {InvalidArgumentError} if lengths differ, a value is not finite, there are fewer than
 *   four different exposures, or an option is out of range
 */
export function monotoneSmooth(
  x: readonly number[],
  y: readonly number[],
  options: MonotoneSmoothOptions = {},
): SmoothCurve {
  const name = 'monotoneSmooth';
  if (x.length !== y.length || !y.every(Number.isFinite)) {
    throw new InvalidArgumentError(name, 'y', y, `${x.length} finite numbers, as x`);
  }
  const different = new Set(x.filter(Number.isFinite));
  if (different.size < 4 || !x.every((at) => Number.isFinite(at) || at === -Infinity)) {
    throw new InvalidArgumentError(name, 'x', x, 'at least four different finite numbers');
  }
  const { penalty, cells = Math.min(16, different.size) } = options;
  if (!(cells >= 3 && cells <= 200)) {
    throw new InvalidArgumentError(name, 'cells', cells, 'between 3 and 200');
  }
  if (penalty !== undefined && !(penalty >= 0 && penalty < Infinity)) {
    throw new InvalidArgumentError(name, 'penalty', penalty, 'a number of at least 0');
  }
  const knots = knotsFor(different, cells);
  const model = monotoneSmoothModel(knots);
  const design = designOf(model, knots, x);
  if (penalty !== undefined) return smoothCurve(model, knots, fitPenalised(design, y, penalty));

  // A coarse scan over eight decades, then a parabola through the best three.
  let best: PenalisedFit | null = null;
  let start: readonly number[] | undefined;
  const scores: { exponent: number; score: number }[] = [];
  for (let exponent = 4; exponent >= -4; exponent--) {
    const fit = fitPenalised(design, y, 10 ** exponent, start);
    start = fit.increments;
    scores.push({ exponent, score: fit.score });
    if (!best || fit.score < best.score) best = fit;
  }
  const centre = scores.findIndex(({ score }) => score === best?.score);
  for (const shift of [-0.5, 0.5, -0.25, 0.25]) {
    const exponent = (scores[centre]?.exponent ?? 0) + shift;
    const fit = fitPenalised(design, y, 10 ** exponent, best?.increments);
    if (!best || fit.score < best.score) best = fit;
  }
  return smoothCurve(model, knots, best as PenalisedFit);
}

/** Knots from a toe's length before the first reading to the last. */
function knotsFor(different: ReadonlySet<number>, cells: number): number[] {
  const first = Math.min(...different);
  const last = Math.max(...different);
  const h = (last - first) / cells;
  const before = Math.max(3, Math.round(0.6 / h));
  return Array.from({ length: cells + before + 1 }, (_, k) => last - (cells + before - k) * h);
}

interface Design {
  readonly rows: number;
  readonly count: number;
  /** Row-major rows x count, by increments. */
  readonly b: Float64Array;
  /** Row-major penalties x count, by increments. */
  readonly d: Float64Array;
  readonly penalties: number;
}

function designOf(model: CurveModel, knots: readonly number[], x: readonly number[]): Design {
  const count = knots.length;
  const rows = x.length;
  const b = new Float64Array(rows * count);
  const out = new Float64Array(count);
  const zeros = new Float64Array(count);
  x.forEach((at, i) => {
    model.derivatives(at, zeros, out);
    // c_j = sum of increments up to j, so that column k collects the coefficients from k on.
    let sum = 0;
    for (let k = count - 1; k >= 0; k--) {
      sum += out[k] as number;
      b[i * count + k] = sum;
    }
  });
  // Third differences of c are second differences of the increments c_1 - c_0, ...
  const penalties = count - 3;
  const d = new Float64Array(penalties * count);
  for (let r = 0; r < penalties; r++) {
    d[r * count + r + 1] = 1;
    d[r * count + r + 2] = -2;
    d[r * count + r + 3] = 1;
  }
  return { rows, count, b, d, penalties };
}

interface PenalisedFit {
  readonly increments: readonly number[];
  readonly penalty: number;
  readonly score: number;
  readonly effective: number;
  readonly residuals: readonly number[];
  readonly square: number;
  readonly unscaled: readonly number[] | null;
}

function fitPenalised(
  design: Design,
  y: readonly number[],
  penalty: number,
  start?: readonly number[],
): PenalisedFit {
  const { rows, count, b, d, penalties } = design;
  const root = Math.sqrt(penalty);
  const low = Math.min(...y);
  const rise = (Math.max(...y) - low) / count;
  const fit: LeastSquaresFit = leastSquares(
    {
      residualCount: rows + penalties,
      start: start ?? Array.from({ length: count }, (_, j) => (j === 0 ? low : rise)),
      lower: Array.from({ length: count }, (_, j) => (j === 0 ? -Infinity : 0)),
      evaluate(p, residuals, jacobian) {
        for (let i = 0; i < rows; i++) {
          let sum = -(y[i] as number);
          for (let j = 0; j < count; j++) sum += (b[i * count + j] as number) * (p[j] as number);
          residuals[i] = sum;
        }
        for (let i = 0; i < penalties; i++) {
          let sum = 0;
          for (let j = 0; j < count; j++) sum += (d[i * count + j] as number) * (p[j] as number);
          residuals[rows + i] = root * sum;
        }
        jacobian.set(b);
        for (let k = 0; k < penalties * count; k++) {
          jacobian[rows * count + k] = root * (d[k] as number);
        }
      },
    },
    { weightKind: 'absolute' },
  );
  const unscaled = fit.covariance;
  let effective = 0;
  if (unscaled) {
    for (let i = 0; i < rows; i++) {
      for (let j = 0; j < count; j++) {
        const left = b[i * count + j] as number;
        if (left === 0) continue;
        for (let k = 0; k < count; k++) {
          effective += left * (unscaled[j * count + k] ?? 0) * (b[i * count + k] as number);
        }
      }
    }
  } else effective = count;
  const residuals = fit.residuals.slice(0, rows);
  const square = residuals.reduce((sum, r) => sum + r * r, 0);
  const left = rows - effective;
  const score = left > 0.5 ? (rows * square) / (left * left) : Infinity;
  const increments = fit.parameters;
  return { increments, penalty, score, effective, residuals, square, unscaled };
}

function smoothCurve(model: CurveModel, knots: readonly number[], fit: PenalisedFit): SmoothCurve {
  const count = knots.length;
  const parameters: number[] = [];
  let sum = 0;
  for (const increment of fit.increments) parameters.push((sum += increment));
  const degreesOfFreedom = Math.max(0, fit.residuals.length - fit.effective);
  const variance = degreesOfFreedom > 0.5 ? fit.square / degreesOfFreedom : null;
  let covariance: number[] | null = null;
  if (variance !== null && fit.unscaled) {
    // c = L increments with L the lower triangle of ones: cumulative sums along both axes.
    covariance = fit.unscaled.map((value) => variance * value);
    for (let i = 0; i < count; i++) {
      for (let j = 0; j < count; j++) {
        const at = i * count + j;
        covariance[at] =
          (covariance[at] ?? 0) +
          (i > 0 ? (covariance[at - count] ?? 0) : 0) +
          (j > 0 ? (covariance[at - 1] ?? 0) : 0) -
          (i > 0 && j > 0 ? (covariance[at - count - 1] ?? 0) : 0);
      }
    }
  }
  return {
    model,
    parameters,
    knots,
    covariance,
    residuals: fit.residuals,
    residualSumOfSquares: fit.square,
    residualStandardDeviation: variance === null ? null : Math.sqrt(variance),
    degreesOfFreedom,
    effectiveParameters: fit.effective,
    penalty: fit.penalty,
  };
}
