/**
 * Refuses a malformed least-squares problem with the reason.
 */
import { InvalidArgumentError } from '../errors.ts';
import type { LeastSquaresProblem } from './least-squares-types.ts';

/** @throws {InvalidArgumentError} if lengths disagree, a number is not finite, or bounds cross */
export function checkProblem(problem: LeastSquaresProblem): void {
  const { residualCount, start, lower, upper, fixed, weights } = problem;
  const name = 'leastSquares';
  if (!(Number.isInteger(residualCount) && residualCount > 0)) {
    throw new InvalidArgumentError(name, 'residualCount', residualCount, 'a positive integer');
  }
  if (!(start.length > 0 && start.every(Number.isFinite))) {
    throw new InvalidArgumentError(name, 'start', start, 'a list of finite numbers');
  }
  for (const [argument, list] of [
    ['lower', lower],
    ['upper', upper],
    ['fixed', fixed],
  ] as const) {
    if (list && list.length !== start.length) {
      throw new InvalidArgumentError(name, argument, list, `a list of ${start.length}`);
    }
  }
  start.forEach((value, j) => {
    const low = lower?.[j] ?? -Infinity;
    const high = upper?.[j] ?? Infinity;
    if (!(low <= high)) {
      throw new InvalidArgumentError(name, `lower[${j}]`, low, `at most upper[${j}] = ${high}`);
    }
    if (!(value >= low && value <= high)) {
      throw new InvalidArgumentError(name, `start[${j}]`, value, `within [${low}, ${high}]`);
    }
  });
  if (weights) {
    const good = weights.length === residualCount && weights.every((w) => w >= 0 && w < Infinity);
    if (!good) {
      throw new InvalidArgumentError(
        name,
        'weights',
        weights,
        `${residualCount} finite numbers of at least 0`,
      );
    }
  }
}
