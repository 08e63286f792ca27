/**
 * What the shape of a film leaves over that a toe, a straight part and a shoulder do not follow, such
 * as two emulsions: one smooth curve for all strips and its change with time.
 *
 *   D(x, τ) = cut(x, τ) + Σ_j B_j(x) (u_j + z v_j),   z = ln(τ / τ0) / spread
 *   u, v ~ N(0, (κ P)^-1),   P = I / 10 + D'D, D second differences
 *   κ maximises the likelihood of the residuals with u and v as random:
 *   r'r/σ² - b'A^-1 b + ln|A| - ln|κP|,   A = X'X/σ² + κ P,  b = X'r/σ²
 *
 * Where the form follows the film, κ grows without end and nothing is added.
 *
 * Sources: [EM1996] the penalised spline; [WOOD2011] its weight by likelihood; [WAHBA1983] the
 * covariance A^-1. Deviations: fitted to the residuals of the form, not together with it.
 */
import {
  cholesky,
  choleskyInverse,
  choleskySolve,
  monotoneSmoothModel,
} from '../../fitting/index.ts';

/** Plain data of a correction. */
export interface ShapeCorrection {
  /** Log exposures, equally spaced. */
  readonly knots: readonly number[];
  readonly centreMinutes: number;
  readonly spread: number;
  /** u, then v. */
  readonly coefficients: readonly number[];
  /** Row-major. */
  readonly covariance: readonly number[];
}

/** Residual of a reading: what the form leaves over. */
export interface LeftOver {
  readonly x: number;
  /** Minutes at the reference temperature. */
  readonly time: number;
  readonly residual: number;
}

const CELLS = 18;
/** κ to try, per square of density. */
const WEIGHTS = Array.from({ length: 7 }, (_, i) => 10 ** (2 + i));
/** Gain of likelihood, as -2 ln, below which nothing is added. */
const LEAST_GAIN = 2;

/** Row of the design: B_j(x) and z B_j(x). */
export function correctionRow(
  { knots, centreMinutes, spread }: Pick<ShapeCorrection, 'knots' | 'centreMinutes' | 'spread'>,
  x: number,
  time: number,
): Float64Array {
  const size = knots.length;
  const row = new Float64Array(2 * size);
  if (x === -Infinity) return row;
  const z = Math.log(time / centreMinutes) / spread;
  const basis = new Float64Array(size);
  monotoneSmoothModel(knots).derivatives(x, new Float64Array(size), basis);
  basis.forEach((value, j) => {
    row[j] = value;
    row[size + j] = z * value;
  });
  return row;
}

/** Density that a correction adds; 0 where there is none. */
export function correctionAt(correction: ShapeCorrection | null, x: number, time: number): number {
  if (correction === null) return 0;
  const { coefficients, knots } = correction;
  // Beyond the readings it stays what it is at their ends.
  const within = Math.min(knots.at(-1) ?? x, Math.max(knots[0] ?? x, x));
  return correctionRow(correction, x === -Infinity ? x : within, time).reduce(
    (sum, value, j) => sum + value * (coefficients[j] ?? 0),
    0,
  );
}

/**
 * Fits the correction.
 *
 * @param left - residuals of all readings of all strips
 * @param scatter - σ, of a reading
 * @param centreMinutes - τ0
 * @returns null where the readings do not ask for one
 */
export function fitCorrection(
  left: readonly LeftOver[],
  scatter: number,
  centreMinutes: number,
): ShapeCorrection | null {
  const exposed = left.filter(({ x }) => Number.isFinite(x));
  const xs = exposed.map(({ x }) => x);
  const [first, last] = [Math.min(...xs), Math.max(...xs)];
  if (!(last > first)) return null;
  const knots = Array.from({ length: CELLS + 1 }, (_, i) => first + ((last - first) * i) / CELLS);
  const logs = exposed.map(({ time }) => Math.log(time / centreMinutes));
  const spread = Math.sqrt(logs.reduce((sum, log) => sum + log * log, 0) / logs.length);
  if (!(spread > 0)) return null;
  const frame = { knots, centreMinutes, spread };
  const half = knots.length;
  const size = 2 * half;
  const gram = new Float64Array(size * size);
  const b = new Float64Array(size);
  const weight = 1 / scatter ** 2;
  for (const { x, time, residual } of exposed) {
    const row = correctionRow(frame, x, time);
    for (let i = 0; i < size; i++) {
      const own = weight * (row[i] ?? 0);
      if (own === 0) continue;
      b[i] = (b[i] ?? 0) + own * residual;
      for (let j = 0; j < size; j++) {
        gram[i * size + j] = (gram[i * size + j] ?? 0) + own * (row[j] ?? 0);
      }
    }
  }
  const penalty = penaltyOf(half);
  const logPenalty = logDeterminant(penalty, size);
  let best: { readonly criterion: number; readonly factor: Float64Array } | null = null;
  for (const kappa of WEIGHTS) {
    const a = gram.map((value, at) => value + kappa * (penalty[at] ?? 0));
    if (!cholesky(a, size)) continue;
    const solution = b.slice();
    choleskySolve(a, size, solution);
    const explained = solution.reduce((sum, value, i) => sum + value * (b[i] ?? 0), 0);
    const criterion = logOfFactor(a, size) - size * Math.log(kappa) - logPenalty - explained;
    if (best === null || criterion < best.criterion) best = { criterion, factor: a };
  }
  // Without a correction the criterion is 0: A and κP are one.
  if (best === null || best.criterion > -LEAST_GAIN) return null;
  const coefficients = b.slice();
  choleskySolve(best.factor, size, coefficients);
  return {
    ...frame,
    coefficients: Array.from(coefficients),
    covariance: Array.from(choleskyInverse(best.factor, size)),
  };
}

/** P for u and for v. */
function penaltyOf(half: number): Float64Array {
  const size = 2 * half;
  const penalty = new Float64Array(size * size);
  const add = (i: number, j: number, value: number): void => {
    penalty[i * size + j] = (penalty[i * size + j] ?? 0) + value;
  };
  for (const offset of [0, half]) {
    for (let i = 0; i < half; i++) add(offset + i, offset + i, 0.1);
    for (let i = 0; i + 2 < half; i++) {
      const difference = [1, -2, 1];
      difference.forEach((left, j) => {
        difference.forEach((right, k) => {
          add(offset + i + j, offset + i + k, left * right);
        });
      });
    }
  }
  return penalty;
}

function logDeterminant(matrix: Float64Array, size: number): number {
  const copy = matrix.slice();
  return cholesky(copy, size) ? logOfFactor(copy, size) : 0;
}

function logOfFactor(factor: Float64Array, size: number): number {
  let sum = 0;
  for (let i = 0; i < size; i++) sum += 2 * Math.log(factor[i * size + i] ?? 1);
  return sum;
}
