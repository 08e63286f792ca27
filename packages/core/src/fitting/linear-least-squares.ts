/**
 * Linear least squares to the precision of the data: QR of scaled columns, with refinement of the
 * solution and of the inverse by residuals in twice the working precision.
 *
 *   minimise |b - A x|:  r + A x = b,  A' r = 0
 *   f = b - r - A x,  g = -A' r;  solve for (dr, dx);  r += dr,  x += dx
 *
 * Sources: [BJORCK1967] refinement of the augmented system. Deviations: columns are scaled by
 * powers of two to a length near 1; the columns of (A'A)^-1 are refined by the same system with
 * b = 0 and a unit vector in place of A'r = 0.
 */
import { InvalidArgumentError } from '../errors.ts';
import { addProductTo, addTo, type Accumulator } from './double-double.ts';
import {
  applyReflections,
  backSubstitute,
  forwardSubstitute,
  householderQr,
} from './householder-qr.ts';

/** A column of the design, with what rounding took off its numbers where that is known. */
export interface DesignColumn {
  readonly values: ArrayLike<number>;
  /** Added to `values` in twice the working precision. */
  readonly remainders?: ArrayLike<number> | undefined;
}

/** The solution, or the reason why there is none. */
export type LinearFit =
  | {
      readonly status: 'ok';
      readonly coefficients: readonly number[];
      /** Null without a degree of freedom. */
      readonly standardErrors: readonly number[] | null;
      /** Row-major, null without a degree of freedom. */
      readonly covariance: readonly number[] | null;
      /** Observation minus fit. */
      readonly residuals: readonly number[];
      readonly residualSumOfSquares: number;
      readonly residualStandardDeviation: number | null;
      readonly degreesOfFreedom: number;
      /** Condition estimate of the scaled columns. */
      readonly condition: number;
    }
  | { readonly status: 'not-determined'; readonly reason: 'too-few-data' | 'rank-deficient' };

const MOST_ROUNDS = 20;
const ROUNDING = 2 ** -52;

/**
 * Solves a linear regression.
 *
 * @param columns - the design, one column a coefficient, each as long as `y`; finite
 * @param y - observations, finite
 * @returns coefficients with errors, or why they are not determined
 * @throws {InvalidArgumentError} if lengths differ or a number is not finite
 * @source [BJORCK1967]
 */
export function linearLeastSquares(
  columns: readonly DesignColumn[],
  y: readonly number[],
): LinearFit {
  const n = y.length;
  const count = columns.length;
  checkDesign(columns, y);
  if (n < count) return { status: 'not-determined', reason: 'too-few-data' };

  const a = new Float64Array(n * count);
  const rest = new Float64Array(n * count);
  const scales = new Float64Array(count);
  columns.forEach(({ values, remainders }, j) => {
    let greatest = 0;
    for (let i = 0; i < n; i++) greatest = Math.max(greatest, Math.abs(values[i] as number));
    const scale = greatest > 0 ? 2 ** -Math.round(Math.log2(greatest * Math.sqrt(n))) : 1;
    scales[j] = scale;
    for (let i = 0; i < n; i++) {
      a[j * n + i] = (values[i] as number) * scale;
      rest[j * n + i] = (remainders?.[i] ?? 0) * scale;
    }
  });
  const system: System = {
    n,
    count,
    a,
    rest,
    qr: Float64Array.from(a),
    factors: new Float64Array(count),
  };
  householderQr(system.qr, n, count, system.factors);
  let greatest = 0;
  let least = Infinity;
  for (let k = 0; k < count; k++) {
    const diagonal = Math.abs(system.qr[k * n + k] as number);
    greatest = Math.max(greatest, diagonal);
    least = Math.min(least, diagonal);
  }
  if (!(least > ROUNDING * n * greatest)) {
    return { status: 'not-determined', reason: 'rank-deficient' };
  }

  const zero = new Float64Array(count);
  const { x, r } = solveRefined(system, Float64Array.from(y), zero);
  let square = 0;
  for (let i = 0; i < n; i++) square += (r[i] as number) * (r[i] as number);
  const degreesOfFreedom = n - count;
  const variance = degreesOfFreedom > 0 ? square / degreesOfFreedom : null;
  const covariance = variance === null ? null : inverseOf(system, scales, variance);
  return {
    status: 'ok',
    coefficients: Array.from(x, (value, j) => value * (scales[j] as number)),
    standardErrors: covariance
      ? columns.map((_, j) => Math.sqrt(covariance[j * count + j] as number))
      : null,
    covariance,
    residuals: Array.from(r),
    residualSumOfSquares: square,
    residualStandardDeviation: variance === null ? null : Math.sqrt(variance),
    degreesOfFreedom,
    condition: greatest / least,
  };
}

interface System {
  readonly n: number;
  readonly count: number;
  /** Column-major, scaled. */
  readonly a: Float64Array;
  readonly rest: Float64Array;
  readonly qr: Float64Array;
  readonly factors: Float64Array;
}

/** Solves r + A x = b, A' r = c to working precision. */
function solveRefined(
  system: System,
  b: Float64Array,
  c: Float64Array,
): { readonly x: Float64Array; readonly r: Float64Array } {
  const { n, count, a, rest, qr, factors } = system;
  const x = new Float64Array(count);
  const r = new Float64Array(n);
  const f = new Float64Array(n);
  const g = new Float64Array(count);
  let before = Infinity;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    for (let i = 0; i < n; i++) {
      const sum: Accumulator = { high: b[i] as number, low: 0 };
      addTo(sum, -(r[i] as number));
      for (let j = 0; j < count; j++) {
        addProductTo(sum, -(a[j * n + i] as number), x[j] as number);
        addTo(sum, -(rest[j * n + i] as number) * (x[j] as number));
      }
      f[i] = sum.high;
    }
    for (let j = 0; j < count; j++) {
      const sum: Accumulator = { high: c[j] as number, low: 0 };
      for (let i = 0; i < n; i++) {
        addProductTo(sum, -(a[j * n + i] as number), r[i] as number);
        addTo(sum, -(rest[j * n + i] as number) * (r[i] as number));
      }
      g[j] = sum.high;
    }
    // d = Q'f, h = R^-T g, dr = Q (h, d2), dx = R^-1 (d1 - h)
    applyReflections(qr, n, count, factors, f, false);
    forwardSubstitute(qr, n, count, g);
    const dx = new Float64Array(count);
    for (let j = 0; j < count; j++) {
      dx[j] = (f[j] as number) - (g[j] as number);
      f[j] = g[j] as number;
    }
    backSubstitute(qr, n, count, dx);
    applyReflections(qr, n, count, factors, f, true);
    let change = 0;
    let size = 0;
    for (let j = 0; j < count; j++) {
      change = Math.max(change, Math.abs(dx[j] as number));
      x[j] = (x[j] as number) + (dx[j] as number);
      size = Math.max(size, Math.abs(x[j] as number));
    }
    for (let i = 0; i < n; i++) r[i] = (r[i] as number) + (f[i] as number);
    if (change <= ROUNDING * size && round > 0) break;
    if (round > 2 && change > 0.5 * before) break;
    before = change;
  }
  return { x, r };
}

/** variance (A'A)^-1 in the units of the unscaled columns: A'A z = e_j is r = -A z, A'r = -e_j. */
function inverseOf(system: System, scales: Float64Array, variance: number): number[] {
  const { n, count } = system;
  const covariance = new Array<number>(count * count).fill(0);
  for (let j = 0; j < count; j++) {
    const unit = new Float64Array(count);
    unit[j] = -1;
    const { x } = solveRefined(system, new Float64Array(n), unit);
    for (let k = 0; k < count; k++) {
      covariance[k * count + j] =
        variance * (x[k] as number) * (scales[k] as number) * (scales[j] as number);
    }
  }
  return covariance;
}

function checkDesign(columns: readonly DesignColumn[], y: readonly number[]): void {
  const name = 'linearLeastSquares';
  if (columns.length === 0) {
    throw new InvalidArgumentError(name, 'columns', columns, 'a list of at least one column');
  }
  if (!y.every(Number.isFinite)) throw new InvalidArgumentError(name, 'y', y, 'finite numbers');
  for (const { values, remainders } of columns) {
    const good =
      values.length === y.length &&
      Array.from(values).every(Number.isFinite) &&
      (remainders === undefined || remainders.length === y.length);
    if (!good) {
      throw new InvalidArgumentError(name, 'columns', values, `${y.length} finite numbers, as y`);
    }
  }
}
