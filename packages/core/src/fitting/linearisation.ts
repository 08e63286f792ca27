/**
 * The least-squares problem linearised at a point: free parameters, scaled and factorised columns,
 * rank, condition and relative offset.
 *
 *   relative offset = sqrt(|Q1'r|^2 / p) / sqrt(|Q2'r|^2 / (n - p))
 *
 * with Q1 spanning the tangent plane and Q2 its complement: how far the point is from the minimum,
 * in units of the size of the confidence region.
 *
 * Sources: [BW1988] section 2.2.3, the offset; [MORE1978] section 6, the scaling by the greatest
 * column norms so far. Deviations: parameters at a bound that the gradient pushes outwards are
 * left out.
 */
import type { LeastSquaresProblem } from './least-squares-types.ts';
import { pivotedQr } from './pivoted-qr.ts';

const ROUNDING = 2 ** -52;

/** Where the iteration stands. */
export interface Point {
  readonly parameters: Float64Array;
  /** Unweighted. */
  readonly residuals: Float64Array;
  /** Row-major n x P, unweighted. */
  readonly jacobian: Float64Array;
  /** Weighted sum of squares; Infinity outside the model's domain. */
  square: number;
}

/** The linear problem and its buffers; written anew by each `linearise`. */
export interface Linearisation {
  /** Column-major, n rows; holds R after the factorisation. */
  readonly columns: Float64Array;
  /** Q' of the weighted residuals. */
  readonly right: Float64Array;
  /** Greatest column lengths so far, by parameter. */
  readonly scale: Float64Array;
  /** The first `freeCount` entries are the indices of the free parameters. */
  readonly free: Int32Array;
  /** Column k of R belongs to parameter free[pivot[k]]. */
  readonly pivot: Int32Array;
  /** 1 for parameters to be left out whatever the gradient says. */
  readonly held: Uint8Array;
  readonly squares: Float64Array;
  readonly originals: Float64Array;
  /** Roots of the weights; null where all are 1. */
  roots: Float64Array | null;
  /** Residuals with a weight above 0. */
  usable: number;
  freeCount: number;
  /** Least ratio of a column's length to its scale. */
  leastShare: number;
  rank: number;
  condition: number;
  offset: number;
}

export function newPoint(count: number, n: number): Point {
  return {
    parameters: new Float64Array(count),
    residuals: new Float64Array(n),
    jacobian: new Float64Array(n * count),
    square: Infinity,
  };
}

export function newLinearisation(count: number, n: number): Linearisation {
  return {
    columns: new Float64Array(n * count),
    right: new Float64Array(n),
    scale: new Float64Array(count),
    free: new Int32Array(count),
    pivot: new Int32Array(count),
    held: new Uint8Array(count),
    squares: new Float64Array(count),
    originals: new Float64Array(count),
    roots: null,
    usable: n,
    freeCount: 0,
    leastShare: 1,
    rank: 0,
    condition: 1,
    offset: Infinity,
  };
}

/** Evaluates residuals, Jacobian and the weighted sum of squares at the point's parameters. */
export function evaluateAt(
  problem: LeastSquaresProblem,
  point: Point,
  roots: Float64Array | null,
): void {
  problem.evaluate(point.parameters, point.residuals, point.jacobian);
  const { residuals } = point;
  let sum = 0;
  if (roots) {
    for (let i = 0; i < residuals.length; i++) {
      const value = (residuals[i] as number) * (roots[i] as number);
      sum += value * value;
    }
  } else {
    for (let i = 0; i < residuals.length; i++) {
      sum += (residuals[i] as number) * (residuals[i] as number);
    }
  }
  point.square = Number.isFinite(sum) ? sum : Infinity;
}

/** Linearises at a point, scaling the columns by the greatest lengths so far. */
export function linearise(problem: LeastSquaresProblem, point: Point, into: Linearisation): void {
  chooseFree(problem, point, into);
  fillColumns(point, into, problem.start.length);
  const { columns, right, freeCount, pivot, squares, originals, usable } = into;
  const n = right.length;
  pivotedQr(columns, n, freeCount, right, pivot, squares, originals);
  const first = Math.abs(columns[0] as number);
  let last = first;
  let rank = 0;
  while (rank < freeCount && rank < n) {
    const diagonal = Math.abs(columns[rank * n + rank] as number);
    if (!(diagonal > ROUNDING * n * first)) break;
    last = diagonal;
    rank++;
  }
  into.rank = rank;
  into.condition = freeCount === 0 ? 1 : rank < freeCount ? Infinity : first / last;
  let tangent = 0;
  let normal = 0;
  for (let i = 0; i < n; i++) {
    const square = (right[i] as number) * (right[i] as number);
    if (i < rank) tangent += square;
    else normal += square;
  }
  if (tangent === 0) into.offset = 0;
  else if (usable <= rank) into.offset = Infinity;
  else into.offset = Math.sqrt(tangent / rank / (normal / (usable - rank)));
}

/** Leaves out parameters that are fixed, held, or at a bound that the gradient pushes against. */
function chooseFree(problem: LeastSquaresProblem, point: Point, into: Linearisation): void {
  const { lower, upper, fixed } = problem;
  const { parameters } = point;
  const { free, held } = into;
  let freeCount = 0;
  for (let j = 0; j < parameters.length; j++) {
    if (fixed?.[j] === true || held[j] === 1) continue;
    const value = parameters[j] as number;
    const atLower = lower !== undefined && value <= (lower[j] as number);
    const atUpper = upper !== undefined && value >= (upper[j] as number);
    if (atLower || atUpper) {
      const gradient = gradientOf(point, into.roots, j);
      if ((atLower && gradient > 0) || (atUpper && gradient < 0)) continue;
      if (atLower && atUpper) continue;
    }
    free[freeCount++] = j;
  }
  into.freeCount = freeCount;
}

function gradientOf(point: Point, roots: Float64Array | null, j: number): number {
  const { residuals, jacobian, parameters } = point;
  let sum = 0;
  for (let i = 0; i < residuals.length; i++) {
    const root = roots ? (roots[i] as number) : 1;
    sum += root * root * (jacobian[i * parameters.length + j] as number) * (residuals[i] as number);
  }
  return sum;
}

/** Copies weighted residuals and free columns, each divided by its scale. */
function fillColumns(point: Point, into: Linearisation, count: number): void {
  const { columns, right, scale, free, freeCount, squares, roots } = into;
  const { residuals, jacobian } = point;
  const n = right.length;
  for (let i = 0; i < n; i++) {
    right[i] = roots ? (residuals[i] as number) * (roots[i] as number) : (residuals[i] as number);
  }
  let leastShare = 1;
  for (let k = 0; k < freeCount; k++) {
    const j = free[k] as number;
    const start = k * n;
    let square = 0;
    for (let i = 0; i < n; i++) {
      let value = jacobian[i * count + j] as number;
      if (roots) value *= roots[i] as number;
      columns[start + i] = value;
      square += value * value;
    }
    const length = Math.sqrt(square);
    if (length > (scale[j] as number)) scale[j] = length;
    const factor = (scale[j] as number) > 0 ? 1 / (scale[j] as number) : 1;
    for (let i = start; i < start + n; i++) columns[i] = (columns[i] as number) * factor;
    squares[k] = square * factor * factor;
    leastShare = Math.min(leastShare, length * factor);
  }
  into.leastShare = leastShare;
}
