/**
 * A least-squares problem in units in which its squares can be computed, and its answer put back.
 *
 *   r' = r / u,   p = p0 + v q,   J' = J v / u        u, v_j powers of two, J'_j about 1
 *   cov p_ij = v_i v_j cov q_ij                        weights known up to a factor
 *   cov p_ij = v_i v_j cov q_ij / u²                   absolute weights
 *
 * Squares of residuals below 1e-146 lose digits, and below 1e-162 are 0, as if the fit were exact.
 * Powers of two change no digit of any number.
 *
 * Sources: the change of units is derived. Deviations: p0 is 0 where
 * the parameter is no more than 2^300 of its unit.
 */
import type { LeastSquaresFit, LeastSquaresProblem } from './least-squares-types.ts';
import type { Search } from './search.ts';

/** The problem in its own units, and what takes its answer back. */
interface RescaledProblem {
  readonly problem: LeastSquaresProblem;
  readonly restore: (fit: LeastSquaresFit) => LeastSquaresFit;
}

/** Below this a sum of squares has lost digits to underflow. */
const LEAST_SQUARE = 1e-290;
/** No power of two beyond this, so that neither it nor its inverse leaves the numbers. */
const MOST_POWER = 1000;
/** Parameters may be so many units from their origin: their squares can still be computed. */
const FARTHEST = 2 ** 300;

/** True if the squares of the residuals that the search stands at are lost to underflow. */
export function squaresLost({ here, roots }: Search): boolean {
  if (here.square >= LEAST_SQUARE || !here.jacobian.every(Number.isFinite)) return false;
  return here.residuals.some((residual, i) => residual !== 0 && (roots?.[i] ?? 1) !== 0);
}

/**
 * The problem from where the search stands, in better units.
 *
 * @param search - whose squares are lost
 * @param absolute - whether the weights are 1/sigma^2 as they stand
 */
export function rescaledProblem(search: Search, absolute: boolean): RescaledProblem {
  const { problem, here, roots, n, count } = search;
  const { evaluate, lower, upper, residualCount, fixed, weights } = problem;
  const size = (of: (i: number) => number): number => {
    let most = 0;
    for (let i = 0; i < n; i++) most = Math.max(most, Math.abs(of(i)) * (roots?.[i] ?? 1));
    return powerOf(most);
  };
  const unit = size((i) => here.residuals[i] as number);
  const shares = Array.from(here.parameters, (_, j) => {
    const column = size((i) => here.jacobian[i * count + j] as number);
    return clamped(unit - column);
  });
  const units = shares.map((power) => 2 ** power);
  // Counted from 0, a parameter keeps all its digits; one far from 0 in its unit is counted from there.
  const origin = here.parameters.map((value, j) =>
    Math.abs(value / (units[j] as number)) < FARTHEST ? 0 : value,
  );
  const perUnit = 2 ** -unit;
  const steps = shares.map((power) => 2 ** clamped(power - unit));
  const inUnits = (bounds: readonly number[] | undefined): readonly number[] | undefined =>
    bounds?.map((bound, j) => (bound - (origin[j] as number)) / (units[j] as number));
  const parametersAt = (q: ArrayLike<number>): Float64Array =>
    origin.map((start, j) => {
      const value = start + (units[j] as number) * (q[j] as number);
      return Math.min(upper?.[j] ?? Infinity, Math.max(lower?.[j] ?? -Infinity, value));
    });
  return {
    problem: {
      residualCount,
      start: units.map(
        (size, j) => ((here.parameters[j] as number) - (origin[j] as number)) / size,
      ),
      lower: inUnits(lower),
      upper: inUnits(upper),
      fixed,
      weights,
      evaluate: (q, residuals, jacobian) => {
        evaluate(parametersAt(q), residuals, jacobian);
        for (let i = 0; i < n; i++) {
          residuals[i] = (residuals[i] as number) * perUnit;
          for (let j = 0; j < count; j++) {
            jacobian[i * count + j] = (jacobian[i * count + j] as number) * (steps[j] as number);
          }
        }
      },
    },
    restore: (fit) => {
      const back = absolute ? perUnit : 1;
      const scale = 2 ** unit;
      const { residualStandardDeviation: deviation } = fit;
      return {
        ...fit,
        parameters: Array.from(parametersAt(fit.parameters)),
        standardErrors: fit.standardErrors.map(
          (error, j) => error && error * (units[j] as number) * back,
        ),
        covariance:
          fit.covariance?.map(
            (value, k) =>
              value *
              ((units[Math.floor(k / count)] as number) * back) *
              ((units[k % count] as number) * back),
          ) ?? null,
        residuals: fit.residuals.map((residual) => residual * scale),
        residualSumOfSquares: fit.residualSumOfSquares * scale * scale,
        residualStandardDeviation: deviation === null ? null : deviation * scale,
        report: { ...fit.report, iterations: fit.report.iterations + search.evaluations },
      };
    },
  };
}

/** Exponent of the power of two next below a size; 0 for nothing. */
function powerOf(size: number): number {
  return size > 0 && size < Infinity ? clamped(Math.floor(Math.log2(size))) : 0;
}

function clamped(power: number): number {
  return Math.max(-MOST_POWER, Math.min(MOST_POWER, power));
}
