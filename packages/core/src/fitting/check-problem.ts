/**
 * Refuses a malformed least-squares problem with the reason.
 */
import { refusing } from '../errors.ts';
import type { LeastSquaresProblem } from './least-squares-types.ts';

/** @throws {InvalidArgumentError} if lengths disagree, a number is not finite, or bounds cross */
export function checkProblem(problem: LeastSquaresProblem): void {
  const { residualCount, start, lower, upper, fixed, weights } = problem;
  const refuse = refusing('leastSquares');
  if (!(Number.isInteger(residualCount) && residualCount > 0)) {
    refuse('residualCount', residualCount, 'a positive integer');
  }
  if (!(start.length > 0 && start.every(Number.isFinite))) {
    refuse('start', start, 'a list of finite numbers');
  }
  for (const [argument, list] of Object.entries({ lower, upper, fixed })) {
    if (list && list.length !== start.length) refuse(argument, list, `a list of ${start.length}`);
  }
  start.forEach((value, j) => {
    const low = lower?.[j] ?? -Infinity;
    const high = upper?.[j] ?? Infinity;
    if (!(low <= high)) refuse(`lower[${j}]`, low, `at most upper[${j}] = ${high}`);
    if (!(value >= low && value <= high)) {
      refuse(`start[${j}]`, value, `within [${low}, ${high}]`);
    }
  });
  if (!weights) return;
  if (weights.length !== residualCount || !weights.every((w) => w >= 0 && w < Infinity)) {
    refuse('weights', weights, `${residualCount} finite numbers of at least 0`);
  }
}
