/**
 * A smooth monotone curve for readings that no family fits: a penalised B-spline.
 *
 *   minimise |y - B c|^2 + lambda |D c|^2  subject to c_0 <= c_1 <= ...
 *
 * D takes second differences of the coefficients. In place of c the increments
 * c_j - c_(j-1) >= 0 are found, those that would fall held at 0 by an active set. lambda minimises the restricted
 * likelihood of the readings with the curve as a random path,
 *
 *   (n - m) ln s^2 + ln |B'B + lambda D'D| - (k - m) ln lambda,
 *   s^2 = (|y - B c|^2 + lambda |D c|^2) / (n - m),  m the dimension that D does not see
 *
 * which follows noise less readily than cross-validation does on a strip of a few dozen steps. The
 * covariance is the Bayesian one, s^2 (B'B + lambda D'D)^-1, whose intervals cover on average as
 * stated although the fit is biased.
 *
 * Sources: [EM1996] the P-spline; [WOOD2011] restricted likelihood; [WAHBA1983] the covariance.
 * Deviations: monotone by bounded increments.
 */
import { InvalidArgumentError } from '../errors.ts';
import { bandSolve, cholesky, choleskyInverse, choleskySolve } from './cholesky.ts';
import type { CurveModel } from './model.ts';
import { monotoneSmoothModel } from './monotone-smooth-model.ts';

/** A fitted smooth curve. */
export interface SmoothCurve {
  readonly model: CurveModel;
  /** Coefficients of the spline, never falling; the first is base + fog. */
  readonly parameters: readonly number[];
  readonly knots: readonly number[];
  /** Row-major; null when the readings leave no degree of freedom. */
  readonly covariance: readonly number[] | null;
  /** Model minus reading. */
  readonly residuals: readonly number[];
  /** Weighted. */
  readonly residualSumOfSquares: number;
  readonly residualStandardDeviation: number | null;
  /** Readings less effective parameters; not a whole number. */
  readonly degreesOfFreedom: number;
  /** Trace of the matrix that takes readings to fitted densities. */
  readonly effectiveParameters: number;
  /** The weight of the penalty that was chosen. */
  readonly penalty: number;
}

/** Options of `monotoneSmooth`. */
export interface MonotoneSmoothOptions {
  /** Weight of the penalty; by default chosen by restricted likelihood. */
  readonly penalty?: number | undefined;
  /** Cells between the first and the last reading; by default one a step, at most 16. */
  readonly cells?: number | undefined;
  /** Weight of each reading, 1 / sigma^2 up to a common factor, above 0; 1 where absent. */
  readonly weights?: readonly number[] | undefined;
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
  const { penalty, cells = Math.min(16, different.size), weights } = options;
  if (!(Number.isInteger(cells) && cells >= 3 && cells <= 200)) {
    throw new InvalidArgumentError(name, 'cells', cells, 'a whole number from 3 to 200');
  }
  if (penalty !== undefined && !(penalty > 0 && penalty < Infinity)) {
    throw new InvalidArgumentError(name, 'penalty', penalty, 'a finite number above 0');
  }
  if (weights && !(weights.length === x.length && weights.every((w) => w > 0 && w < Infinity))) {
    throw new InvalidArgumentError(name, 'weights', weights, `${x.length} finite numbers above 0`);
  }
  const roots = weights?.map(Math.sqrt);
  const knots = knotsFor(different, cells);
  const model = monotoneSmoothModel(knots);
  const system = systemOf(model, knots.length, x, y, roots);
  const chosen = penalty ?? choosePenalty(system);
  return smoothCurve(model, knots, system, chosen, x, y, roots);
}

/** Cells before the first reading, where the readings span next to nothing. */
const MOST_BEFORE = 24;

/** Knots from a toe's length before the first reading to the last. */
function knotsFor(different: ReadonlySet<number>, cells: number): number[] {
  const first = Math.min(...different);
  const last = Math.max(...different);
  const h = (last - first) / cells;
  const before = Math.min(MOST_BEFORE, Math.max(3, Math.round(0.6 / h)));
  return Array.from({ length: cells + before + 1 }, (_, k) => last - (cells + before - k) * h);
}

/** The normal equations, by increments. */
interface System {
  readonly n: number;
  readonly count: number;
  readonly bb: Float64Array;
  readonly by: Float64Array;
  readonly yy: number;
  readonly dd: Float64Array;
  /** Dimension of what the penalty does not see. */
  readonly unseen: number;
  /** The same by coefficients: bands of WIDTH, entry (i, i - d) at i * WIDTH + d. */
  readonly bandBb: Float64Array;
  readonly bandDd: Float64Array;
  readonly bandBy: Float64Array;
  /** Room for the factor and the solution. */
  readonly band: Float64Array;
  readonly solution: Float64Array;
}

/** Four coefficients act at each point, three enter each penalty. */
const WIDTH = 4;
const SECOND = [1, -2, 1];

function systemOf(
  model: CurveModel,
  count: number,
  x: readonly number[],
  y: readonly number[],
  roots: readonly number[] | undefined,
): System {
  const bb = new Float64Array(count * count);
  const by = new Float64Array(count);
  const dd = new Float64Array(count * count);
  const row = new Float64Array(count);
  const zeros = new Float64Array(count);
  const bandBb = new Float64Array(count * WIDTH);
  const bandDd = new Float64Array(count * WIDTH);
  const bandBy = new Float64Array(count);
  let yy = 0;
  x.forEach((at, i) => {
    model.derivatives(at, zeros, row);
    const root = roots?.[i] ?? 1;
    const value = root * (y[i] as number);
    for (let j = 0; j < count; j++) {
      const left = (row[j] = root * (row[j] as number));
      if (left === 0) continue;
      add(bandBy, j, left * value);
      for (let d = 0; d < WIDTH && d <= j; d++) {
        add(bandBb, j * WIDTH + d, left * (row[j - d] as number));
      }
    }
    // c_j = sum of increments up to j: column k collects the coefficients from k on.
    for (let k = count - 2; k >= 0; k--) row[k] = (row[k] as number) + (row[k + 1] as number);
    yy += value * value;
    for (let j = 0; j < count; j++) {
      const left = row[j] as number;
      if (left === 0) break;
      add(by, j, left * value);
      for (let k = 0; k <= j; k++) {
        add(bb, j * count + k, left * (row[k] as number));
      }
    }
  });
  mirror(bb, count);
  // Second differences of c are first differences of the increments after c_0.
  for (let r = 0; r + 3 <= count; r++) {
    add(dd, (r + 1) * count + r + 1, 1);
    add(dd, (r + 2) * count + r + 2, 1);
    add(dd, (r + 1) * count + r + 2, -1);
    add(dd, (r + 2) * count + r + 1, -1);
    SECOND.forEach((left, a) => {
      for (let d = 0; d <= a; d++)
        add(bandDd, (r + a) * WIDTH + d, left * (SECOND[a - d] as number));
    });
  }
  const band = new Float64Array(count * WIDTH);
  const solution = new Float64Array(count);
  return {
    n: x.length,
    count,
    bb,
    by,
    yy,
    dd,
    unseen: 2,
    bandBb,
    bandDd,
    bandBy,
    band,
    solution,
  };
}

/** Minimises the restricted likelihood over ln lambda: a scan by decades, then golden section. */
function choosePenalty(system: System): number {
  let best = -4;
  let least = Infinity;
  for (let exponent = -4; exponent <= 6; exponent += 1) {
    const score = restrictedScore(system, 10 ** exponent);
    if (score < least) {
      least = score;
      best = exponent;
    }
  }
  let low = best - 1;
  let high = best + 1;
  const share = (Math.sqrt(5) - 1) / 2;
  let left = high - share * (high - low);
  let right = low + share * (high - low);
  let atLeft = restrictedScore(system, 10 ** left);
  let atRight = restrictedScore(system, 10 ** right);
  for (let round = 0; round < 6; round++) {
    if (atLeft < atRight) {
      high = right;
      right = left;
      atRight = atLeft;
      left = high - share * (high - low);
      atLeft = restrictedScore(system, 10 ** left);
    } else {
      low = left;
      left = right;
      atLeft = atRight;
      right = low + share * (high - low);
      atRight = restrictedScore(system, 10 ** right);
    }
  }
  return 10 ** (atLeft < atRight ? left : right);
}

/**
 * The restricted likelihood, in the coefficients themselves, where the matrix is a band: their
 * change to increments has determinant 1.
 */
function restrictedScore(system: System, penalty: number): number {
  const { n, count, bandBb, bandDd, bandBy, yy, unseen, band, solution } = system;
  const cells = count * WIDTH;
  for (let k = 0; k < cells; k++) {
    band[k] = (bandBb[k] as number) + penalty * (bandDd[k] as number);
  }
  solution.set(bandBy);
  const logDeterminant = bandSolve(band, count, WIDTH, solution);
  if (logDeterminant === null) return Infinity;
  // |y - Bc|^2 + lambda |Dc|^2 = y'y - c'B'y at the minimum
  let square = yy;
  for (let j = 0; j < count; j++) square -= (solution[j] as number) * (bandBy[j] as number);
  const rest = Math.max(square, 1e-14 * yy, Number.MIN_VALUE);
  return (
    (n - unseen) * Math.log(rest / (n - unseen)) +
    logDeterminant -
    (count - unseen) * Math.log(penalty)
  );
}

function penalised({ bb, dd }: System, penalty: number): Float64Array {
  const a = new Float64Array(bb.length);
  for (let k = 0; k < a.length; k++) a[k] = (bb[k] as number) + penalty * (dd[k] as number);
  return a;
}

/** The increments, none below 0, and the inverse of the penalised matrix on those above it. */
function monotoneIncrements(
  system: System,
  penalty: number,
): { readonly increments: Float64Array; readonly inverse: Float64Array; readonly free: number[] } {
  const { count, by } = system;
  const a = penalised(system, penalty);
  const held = new Uint8Array(count);
  const increments = new Float64Array(count);
  let free: number[] = [];
  let factor = new Float64Array(0);
  for (let round = 0; round < 4 * count; round++) {
    free = [];
    for (let j = 0; j < count; j++) if (held[j] === 0) free.push(j);
    const size = free.length;
    factor = new Float64Array(size * size);
    const c = new Float64Array(size);
    free.forEach((j, p) => {
      c[p] = by[j] as number;
      free.forEach((k, q) => (factor[p * size + q] = a[j * count + k] as number));
    });
    cholesky(factor, size);
    choleskySolve(factor, size, c);
    increments.fill(0);
    free.forEach((j, p) => (increments[j] = c[p] as number));
    // Hold what falls; free what the gradient would raise. After many rounds, one at a time.
    let changed = false;
    const single = round > count;
    for (let j = 1; j < count && !(single && changed); j++) {
      if (held[j] === 0) {
        if ((increments[j] as number) < 0) {
          held[j] = 1;
          changed = true;
        }
        continue;
      }
      let pull = by[j] as number;
      for (let k = 0; k < count; k++) {
        pull -= (a[j * count + k] as number) * (increments[k] as number);
      }
      if (pull > 1e-12) {
        held[j] = 0;
        changed = true;
      }
    }
    if (!changed) break;
  }
  for (let j = 1; j < count; j++) increments[j] = Math.max(0, increments[j] as number);
  return { increments, inverse: choleskyInverse(factor, free.length), free };
}

function smoothCurve(
  model: CurveModel,
  knots: readonly number[],
  system: System,
  penalty: number,
  x: readonly number[],
  y: readonly number[],
  roots: readonly number[] | undefined,
): SmoothCurve {
  const { count, bb, dd, n, unseen } = system;
  const { increments, inverse, free } = monotoneIncrements(system, penalty);
  const parameters: number[] = [];
  let total = 0;
  for (const increment of increments) parameters.push((total += increment));
  const residuals = x.map((at, i) => model.value(at, parameters) - (y[i] as number));
  const square = residuals.reduce((sum, r, i) => sum + (r * (roots?.[i] ?? 1)) ** 2, 0);
  let effective = 0;
  let rough = 0;
  free.forEach((j, p) => {
    free.forEach((k, q) => {
      effective += (inverse[p * free.length + q] as number) * (bb[k * count + j] as number);
      rough +=
        (increments[j] as number) * (increments[k] as number) * (dd[j * count + k] as number);
    });
  });
  const degreesOfFreedom = Math.max(0, n - effective);
  const variance = n > unseen ? (square + penalty * rough) / (n - unseen) : null;
  return {
    model,
    parameters,
    knots,
    covariance: variance === null ? null : spreadCovariance(inverse, free, count, variance),
    residuals,
    residualSumOfSquares: square,
    residualStandardDeviation: degreesOfFreedom > 0.5 ? Math.sqrt(square / degreesOfFreedom) : null,
    degreesOfFreedom,
    effectiveParameters: effective,
    penalty,
  };
}

/** The covariance of c from that of the free increments: cumulative sums along both axes. */
function spreadCovariance(
  inverse: Float64Array,
  free: readonly number[],
  count: number,
  variance: number,
): number[] {
  const covariance = new Array<number>(count * count).fill(0);
  free.forEach((j, p) => {
    free.forEach((k, q) => {
      covariance[j * count + k] = variance * (inverse[p * free.length + q] as number);
    });
  });
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < count; j++) {
      const at = i * count + j;
      covariance[at] =
        (covariance[at] as number) +
        (i > 0 ? (covariance[at - count] as number) : 0) +
        (j > 0 ? (covariance[at - 1] as number) : 0) -
        (i > 0 && j > 0 ? (covariance[at - count - 1] as number) : 0);
    }
  }
  return covariance;
}

function add(array: Float64Array, at: number, value: number): void {
  array[at] = (array[at] as number) + value;
}

function mirror(a: Float64Array, count: number): void {
  for (let j = 0; j < count; j++) {
    for (let k = 0; k < j; k++) a[k * count + j] = a[j * count + k] as number;
  }
}
