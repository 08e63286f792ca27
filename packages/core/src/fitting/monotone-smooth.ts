/**
 * A smooth monotone curve for readings that no family fits: a penalised B-spline.
 *
 *   minimise |y - B c|^2 + lambda |D c|^2  subject to c_0 <= c_1 <= ...
 *
 * D takes second differences of the coefficients. Increments c_j - c_(j-1) that would fall are held
 * at 0 by an active set, which makes neighbouring coefficients one and leaves a band matrix. lambda minimises the restricted
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
import { BAND_WIDTH as WIDTH, bandFactor, bandInverse, bandSolve } from './band-cholesky.ts';
import { listOf } from './list-of.ts';
import type { CurveFunction } from './model.ts';
import { monotoneSmoothModel } from './monotone-smooth-model.ts';

/** A fitted smooth curve. */
export interface SmoothCurve {
  readonly model: CurveFunction;
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
  /** -2 ln of the restricted likelihood at that penalty, up to a constant of the number of readings. */
  readonly restrictedScore: number;
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
  const problem = smoothProblem(x, y, options);
  const { penalty } = options;
  const chosen =
    penalty === undefined
      ? choosePenalty(problem.system)
      : { penalty, score: restrictedScore(problem.system, penalty) };
  const curve = smoothCurve(problem, chosen, x, y);
  if (curve === null) {
    throw new InvalidArgumentError(
      'monotoneSmooth',
      'penalty',
      chosen.penalty,
      'a number that leaves the readings a say',
    );
  }
  return curve;
}

/**
 * The `restrictedScore` of the smooth curve through readings, without the curve.
 *
 * @param x - log exposures, as for `monotoneSmooth`
 * @param y - densities
 * @throws {InvalidArgumentError} as `monotoneSmooth`
 */
export function smoothScore(x: readonly number[], y: readonly number[]): number {
  return choosePenalty(smoothProblem(x, y, {}).system).score;
}

/** What is smoothed, and by which spline. */
interface SmoothProblem {
  readonly model: CurveFunction;
  readonly knots: readonly number[];
  readonly system: System;
  /** Roots of the weights. */
  readonly roots: readonly number[] | undefined;
}

function smoothProblem(
  x: readonly number[],
  y: readonly number[],
  options: MonotoneSmoothOptions,
): SmoothProblem {
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
  return { model, knots, system: systemOf(model, knots.length, x, y, roots), roots };
}

/** Cells before the first reading, where the readings span next to nothing. */
const MOST_BEFORE = 24;

/** Knots from a toe's length before the first reading to the last. */
function knotsFor(different: ReadonlySet<number>, cells: number): number[] {
  let first = Infinity;
  let last = -Infinity;
  for (const x of different) {
    if (x < first) first = x;
    if (x > last) last = x;
  }
  const h = (last - first) / cells;
  const before = Math.min(MOST_BEFORE, Math.max(3, Math.round(0.6 / h)));
  const knots: number[] = [];
  for (let k = cells + before; k >= 0; k--) knots.push(last - k * h);
  return knots;
}

/** The normal equations by coefficients; matrices as bands, see `band-cholesky.ts`. */
interface System {
  readonly n: number;
  readonly count: number;
  readonly bb: Float64Array;
  readonly by: Float64Array;
  readonly yy: number;
  readonly dd: Float64Array;
  /** Room for the factor and the solution. */
  readonly factor: Float64Array;
  readonly solution: Float64Array;
}

const SECOND = [1, -2, 1] as const;
/** Dimension of what the penalty does not see: straight lines. */
const UNSEEN = 2;

function systemOf(
  model: CurveFunction,
  count: number,
  x: readonly number[],
  y: readonly number[],
  roots: readonly number[] | undefined,
): System {
  const bb = new Float64Array(count * WIDTH);
  const by = new Float64Array(count);
  const row = new Float64Array(count);
  const zeros = new Float64Array(count);
  let yy = 0;
  for (let i = 0; i < x.length; i++) {
    model.derivatives(x[i] as number, zeros, row);
    const root = roots?.[i] ?? 1;
    const value = root * (y[i] as number);
    yy += value * value;
    for (let j = 0; j < count; j++) {
      if (row[j] === 0) continue;
      const left = root * (row[j] as number);
      add(by, j, left * value);
      for (let d = 0; d < WIDTH && d <= j; d++) {
        add(bb, j * WIDTH + d, left * root * (row[j - d] as number));
      }
    }
  }
  return {
    n: x.length,
    count,
    bb,
    by,
    yy,
    dd: secondDifferences(count),
    factor: new Float64Array(count * WIDTH),
    solution: new Float64Array(count),
  };
}

/** D'D of second differences, as a band. */
function secondDifferences(count: number): Float64Array {
  const dd = new Float64Array(count * WIDTH);
  for (let r = 0; r + 3 <= count; r++) {
    for (let a = 0; a < 3; a++) {
      for (let d = 0; d <= a; d++) {
        add(dd, (r + a) * WIDTH + d, (SECOND[a] as number) * (SECOND[a - d] as number));
      }
    }
  }
  return dd;
}

/** A weight of the penalty, and the restricted likelihood there. */
interface ScoredPenalty {
  readonly penalty: number;
  readonly score: number;
}

/** Exponents between which the penalty is sought. */
const LEAST_EXPONENT = -4;
const GREATEST_EXPONENT = 6;

/**
 * Minimises the restricted likelihood over log lambda: a scan by two decades, their neighbours, then
 * twice the lowest point of the parabola through the lowest three.
 */
function choosePenalty(system: System): ScoredPenalty {
  const score = (exponent: number): number => restrictedScore(system, 10 ** exponent);
  let middle = LEAST_EXPONENT;
  let least = Infinity;
  for (let exponent = LEAST_EXPONENT; exponent <= GREATEST_EXPONENT; exponent += 2) {
    const here = score(exponent);
    if (here < least) {
      least = here;
      middle = exponent;
    }
  }
  let low = middle - 1;
  let high = middle + 1;
  let atLow = score(low);
  let atHigh = score(high);
  // A neighbour may lie lower; then the other one is the middle, and the next one its neighbour.
  if (atLow < least && atLow <= atHigh) {
    [high, atHigh, middle, least, low] = [middle, least, low, atLow, low - 1];
    atLow = score(low);
  } else if (atHigh < least) {
    [low, atLow, middle, least, high] = [middle, least, high, atHigh, high + 1];
    atHigh = score(high);
  }
  for (let round = 0; round < 2; round++) {
    const next = lowestOfParabola(low, middle, high, atLow, least, atHigh);
    if (next === null) break;
    const here = score(next);
    const lower = here < least;
    // The new point takes the place of an end, or of the middle, which then becomes an end.
    const [a, b, atA, atB] = lower ? [middle, next, least, here] : [next, middle, here, least];
    if (a < b) [low, atLow] = [a, atA];
    else [high, atHigh] = [a, atA];
    [middle, least] = [b, atB];
  }
  return { penalty: 10 ** middle, score: least };
}

/** Null where the three points show no lowest one between the ends. */
function lowestOfParabola(
  low: number,
  middle: number,
  high: number,
  atLow: number,
  atMiddle: number,
  atHigh: number,
): number | null {
  const left = (middle - low) * (atMiddle - atHigh);
  const right = (middle - high) * (atMiddle - atLow);
  const next = middle - ((middle - low) * left - (middle - high) * right) / (2 * (left - right));
  return next > low && next < high && Math.abs(next - middle) > 1e-3 ? next : null;
}

/** The restricted likelihood of a penalty. */
function restrictedScore(system: System, penalty: number): number {
  const { n, count, bb, dd, by, yy, factor, solution } = system;
  const cells = count * WIDTH;
  for (let k = 0; k < cells; k++) factor[k] = (bb[k] as number) + penalty * (dd[k] as number);
  const logDeterminant = bandFactor(factor, count);
  if (logDeterminant === null) return Infinity;
  solution.set(by);
  bandSolve(factor, count, solution);
  // |y - Bc|^2 + lambda |Dc|^2 = y'y - c'B'y at the minimum
  let square = yy;
  for (let j = 0; j < count; j++) square -= (solution[j] as number) * (by[j] as number);
  const rest = Math.max(square, 1e-14 * yy, Number.MIN_VALUE);
  return (
    (n - UNSEEN) * Math.log(rest / (n - UNSEEN)) +
    logDeterminant -
    (count - UNSEEN) * Math.log(penalty)
  );
}

/** The rising solution. Coefficients whose increments are held at 0 are one: a group. */
interface Rising {
  /** By coefficient. */
  readonly coefficients: Float64Array;
  /** Group of each coefficient. */
  readonly groups: Int32Array;
  readonly groupCount: number;
  /** Inverse of the penalised matrix by groups, row-major. */
  readonly inverse: Float64Array;
}

/**
 * The coefficients, none below the one before.
 *
 * @returns null where the penalised matrix is not positive definite to rounding
 */
function risingCoefficients(system: System, penalty: number): Rising | null {
  const { count, bb, by, dd } = system;
  const a = new Float64Array(count * WIDTH);
  for (let k = 0; k < a.length; k++) a[k] = (bb[k] as number) + penalty * (dd[k] as number);
  const held = new Uint8Array(count);
  const groups = new Int32Array(count);
  const coefficients = new Float64Array(count);
  let factor: Float64Array = new Float64Array(0);
  let groupCount = 0;
  for (let round = 0; round < 4 * count; round++) {
    groupCount = 0;
    for (let j = 0; j < count; j++) {
      if (j > 0 && held[j] === 0) groupCount++;
      groups[j] = groupCount;
    }
    groupCount++;
    factor = grouped(a, groups, groupCount);
    const solution = new Float64Array(groupCount);
    for (let j = 0; j < count; j++) add(solution, groups[j] as number, by[j] as number);
    if (bandFactor(factor, groupCount) === null) return null;
    bandSolve(factor, groupCount, solution);
    for (let j = 0; j < count; j++) coefficients[j] = solution[groups[j] as number] as number;
    if (!changeHeld(system, a, coefficients, held, round > count)) break;
  }
  for (let j = 1; j < count; j++) {
    coefficients[j] = Math.max(coefficients[j - 1] as number, coefficients[j] as number);
  }
  return { coefficients, groups, groupCount, inverse: bandInverse(factor, groupCount) };
}

/** Sums of a band over groups of neighbours. */
function grouped(a: Float64Array, groups: Int32Array, groupCount: number): Float64Array {
  const sum = new Float64Array(groupCount * WIDTH);
  for (let j = 0; j < groups.length; j++) {
    const group = groups[j] as number;
    for (let d = 0; d < WIDTH && d <= j; d++) {
      const apart = group - (groups[j - d] as number);
      // Within a group, an entry below the diagonal stands for the one above it too.
      const times = apart === 0 && d > 0 ? 2 : 1;
      add(sum, group * WIDTH + apart, times * (a[j * WIDTH + d] as number));
    }
  }
  return sum;
}

/** Holds increments that fall, frees those that the gradient would raise; false where none is. */
function changeHeld(
  { count, by }: System,
  a: Float64Array,
  coefficients: Float64Array,
  held: Uint8Array,
  single: boolean,
): boolean {
  let changed = false;
  // The pull on an increment is that on all coefficients from it on.
  let pull = 0;
  for (let j = count - 1; j > 0 && !(single && changed); j--) {
    pull += (by[j] as number) - rowTimes(a, count, j, coefficients);
    if (held[j] === 0) {
      if ((coefficients[j] as number) < (coefficients[j - 1] as number)) {
        held[j] = 1;
        changed = true;
      }
    } else if (pull > 1e-12) {
      held[j] = 0;
      changed = true;
    }
  }
  return changed;
}

/** Row j of a symmetric band times a vector. */
function rowTimes(band: Float64Array, count: number, j: number, vector: Float64Array): number {
  let sum = 0;
  for (let d = 0; d < WIDTH && d <= j; d++) {
    sum += (band[j * WIDTH + d] as number) * (vector[j - d] as number);
  }
  for (let d = 1; d < WIDTH && j + d < count; d++) {
    sum += (band[(j + d) * WIDTH + d] as number) * (vector[j + d] as number);
  }
  return sum;
}

function smoothCurve(
  { model, knots, system, roots }: SmoothProblem,
  { penalty, score }: ScoredPenalty,
  x: readonly number[],
  y: readonly number[],
): SmoothCurve | null {
  const { count, bb, n } = system;
  const rising = risingCoefficients(system, penalty);
  if (!rising) return null;
  const { coefficients, groups, groupCount, inverse } = rising;
  const parameters = listOf(coefficients);
  const residuals: number[] = [];
  let square = 0;
  for (let i = 0; i < n; i++) {
    const residual = model.value(x[i] as number, coefficients) - (y[i] as number);
    residuals.push(residual);
    square += (residual * (roots?.[i] ?? 1)) ** 2;
  }
  let effective = 0;
  for (let j = 0; j < count; j++) {
    const start = (groups[j] as number) * groupCount;
    for (let d = 0; d < WIDTH && d <= j; d++) {
      const share =
        (bb[j * WIDTH + d] as number) * (inverse[start + (groups[j - d] as number)] as number);
      effective += d === 0 ? share : 2 * share;
    }
  }
  let rough = 0;
  for (let j = 2; j < count; j++) {
    const [a, b, c] = [coefficients[j - 2], coefficients[j - 1], coefficients[j]] as number[];
    rough += ((a as number) - 2 * (b as number) + (c as number)) ** 2;
  }
  const degreesOfFreedom = Math.max(0, n - effective);
  const variance = n > UNSEEN ? (square + penalty * rough) / (n - UNSEEN) : null;
  return {
    model,
    parameters,
    knots,
    covariance: variance === null ? null : spreadCovariance(rising, variance),
    residuals,
    residualSumOfSquares: square,
    residualStandardDeviation: degreesOfFreedom > 0.5 ? Math.sqrt(square / degreesOfFreedom) : null,
    degreesOfFreedom,
    effectiveParameters: effective,
    penalty,
    restrictedScore: score,
  };
}

/** The covariance of the coefficients: those of a group move as one. */
function spreadCovariance({ groups, groupCount, inverse }: Rising, variance: number): number[] {
  const count = groups.length;
  const covariance = new Array<number>(count * count);
  for (let j = 0; j < count; j++) {
    const start = (groups[j] as number) * groupCount;
    for (let k = 0; k < count; k++) {
      covariance[j * count + k] = variance * (inverse[start + (groups[k] as number)] as number);
    }
  }
  return covariance;
}

function add(array: Float64Array, at: number, value: number): void {
  array[at] = (array[at] as number) + value;
}
