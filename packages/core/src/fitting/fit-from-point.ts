/**
 * The answer of the solver from the point where it stopped: status, errors, covariance.
 *
 * Sources: [BW1988] section 2.3, errors from the linear approximation. Deviations: none.
 */
import { covarianceFromTriangle } from './covariance-from-triangle.ts';
import type {
  FitStatus,
  LeastSquaresFit,
  LeastSquaresProblem,
  StopTest,
} from './least-squares-types.ts';
import { linearise, type Linearisation, type Point } from './linearisation.ts';

/** How the search ended. */
export interface SearchEnd {
  /** Whether there were as many usable residuals as free parameters. */
  readonly enough: boolean;
  readonly test: StopTest;
  readonly evaluations: number;
  readonly weightKind: 'relative' | 'absolute';
}

/** Columns no shorter than this share of their scale need no new scaling to show the rank. */
const SHARE_TO_KEEP = 0.1;

/**
 * Builds the fit. Unless the linearisation is current and well scaled, it is made anew with
 * columns scaled by their own lengths.
 */
export function fitFromPoint(
  problem: LeastSquaresProblem,
  point: Point,
  linear: Linearisation,
  end: SearchEnd,
): LeastSquaresFit {
  const { fixed } = problem;
  const { parameters, square } = point;
  const count = parameters.length;
  if (!(end.test === 'relative-offset' && linear.leastShare > SHARE_TO_KEEP)) {
    linear.held.fill(0);
    linear.scale.fill(0);
    linearise(problem, point, linear);
  }
  const { freeCount, rank, usable } = linear;
  const determined = rank === freeCount;
  const degreesOfFreedom = Math.max(0, usable - freeCount);
  const hasVariance = end.enough && degreesOfFreedom > 0;
  const variance = hasVariance ? square / degreesOfFreedom : null;
  const factor = end.weightKind === 'absolute' && end.enough ? 1 : variance;
  const covariance =
    determined && factor !== null ? covarianceFromTriangle(linear, count, factor) : null;
  const atBound = new Array<boolean>(count).fill(true);
  for (let k = 0; k < freeCount; k++) atBound[linear.free[k] as number] = false;
  const standardErrors = new Array<number | null>(count).fill(null);
  for (let j = 0; j < count; j++) {
    if (covariance && atBound[j] === false) {
      standardErrors[j] = Math.sqrt(covariance[j * count + j] as number);
    }
    if (fixed?.[j] === true) atBound[j] = false;
  }
  return {
    parameters: listOf(parameters),
    standardErrors,
    covariance,
    residuals: listOf(point.residuals),
    residualSumOfSquares: square,
    residualStandardDeviation: variance === null ? null : Math.sqrt(variance),
    degreesOfFreedom,
    atBound,
    report: {
      status: statusOf(end, determined),
      test: end.test,
      iterations: end.evaluations,
      rank,
      condition: linear.condition,
      relativeOffset: square === 0 ? 0 : linear.offset,
    },
  };
}

function statusOf(end: SearchEnd, determined: boolean): FitStatus {
  if (!end.enough) return 'too-few-data';
  if (end.test === 'iterations') return 'not-converged';
  return determined ? 'converged' : 'rank-deficient';
}

/** A plain list; several times as fast as Array.from. */
function listOf(values: Float64Array): number[] {
  const list = new Array<number>(values.length);
  for (let i = 0; i < values.length; i++) list[i] = values[i] as number;
  return list;
}
