/**
 * The answer of the solver from where its search stopped: status, errors, covariance.
 *
 * Sources: [BW1988] section 2.3, errors from the linear approximation. Deviations: none.
 */
import { covarianceFromTriangle } from './covariance-from-triangle.ts';
import type { LeastSquaresFit, StopTest } from './least-squares-types.ts';
import { conditionOf, linearise } from './linearisation.ts';
import { finiteOrNull } from './finite-or-null.ts';
import { listOf } from './list-of.ts';
import type { Search } from './search.ts';

/** Columns no shorter than this share of their scale need no new scaling to show the rank. */
const SHARE_TO_KEEP = 0.1;

/**
 * Builds the fit. Unless the linearisation is current and well scaled, it is made anew with
 * columns scaled by their own lengths.
 *
 * @param search - at its end
 * @param test - what ended it; null where there were fewer residuals than free parameters
 * @param absolute - whether the weights are 1/sigma^2 as they stand
 */
export function fitFromSearch(
  search: Search,
  test: StopTest | null,
  absolute: boolean,
): LeastSquaresFit {
  const { count, free, here } = search;
  const { fixed } = search.problem;
  const residualSumOfSquares = here.square;
  if (!(test === 'relative-offset' && search.leastShare > SHARE_TO_KEEP)) {
    search.held.fill(0);
    search.scale.fill(0);
    linearise(search);
  }
  const { freeCount, rank } = search;
  const determined = rank === freeCount;
  const degreesOfFreedom = Math.max(0, search.usable - freeCount);
  const variance =
    test !== null && degreesOfFreedom > 0 ? residualSumOfSquares / degreesOfFreedom : null;
  const factor = absolute && test !== null ? 1 : variance;
  const covariance =
    determined && factor !== null ? finiteOrNull(covarianceFromTriangle(search, factor)) : null;
  const atBound = new Array<boolean>(count).fill(true);
  const standardErrors = new Array<number | null>(count).fill(null);
  for (let k = 0; k < freeCount; k++) {
    const j = free[k] as number;
    atBound[j] = false;
    if (covariance) standardErrors[j] = Math.sqrt(covariance[j * (count + 1)] as number);
  }
  fixed?.forEach((stays, j) => {
    if (stays) atBound[j] = false;
  });
  return {
    parameters: listOf(here.parameters),
    standardErrors,
    covariance,
    residuals: listOf(here.residuals),
    residualSumOfSquares,
    residualStandardDeviation: variance === null ? null : Math.sqrt(variance),
    degreesOfFreedom,
    atBound,
    report: {
      status:
        test === null
          ? 'too-few-data'
          : test === 'iterations' || test === 'underflow'
            ? 'not-converged'
            : determined
              ? 'converged'
              : 'rank-deficient',
      test: test ?? 'iterations',
      iterations: search.evaluations,
      rank,
      condition: conditionOf(search),
      relativeOffset: residualSumOfSquares === 0 ? 0 : search.offset,
    },
  };
}
