/**
 * Least squares on numbers of any size: where the squares of the residuals are lost to underflow, the
 * search goes on in units in which they can be computed, and its answer is put back.
 *
 *   r' = r / u,   p = p0 + v q,   J' = J v / u        u, v_j powers of two, J'_j about 1
 *   cov p_ij = v_i v_j cov q_ij                        weights known up to a factor
 *   cov p_ij = v_i v_j cov q_ij / u²                   absolute weights
 *
 * Squares of residuals below 1e-146 lose digits, and below 1e-162 are 0, as if the fit were exact.
 * Powers of two change no digit of any number.
 *
 * Sources: the change of units is derived. Deviations: p0 is 0 where the parameter is no more than
 * 2^300 of its unit.
 */
import { leastSquares } from './least-squares.ts';
import type {
  LeastSquaresFit,
  LeastSquaresOptions,
  LeastSquaresProblem,
} from './least-squares-types.ts';

/** The problem in its own units, and what takes its answer back. */
interface RescaledProblem {
  readonly problem: LeastSquaresProblem;
  readonly restore: (fit: LeastSquaresFit) => LeastSquaresFit;
}

/** No power of two beyond this, so that neither it nor its inverse leaves the numbers. */
const MOST_POWER = 1000;
/** Parameters may be so many units from their origin: their squares can still be computed. */
const FARTHEST = 2 ** 300;

/**
 * As `leastSquares`, for numbers of any size: a test `exact` means residuals of 0.
 *
 * @param problem - residuals with analytic Jacobian, start, bounds, weights
 * @param options - kind of weights, allowance of iterations, final relative offset
 * @throws {InvalidArgumentError} as `leastSquares`
 */
export function leastSquaresInUnits(
  problem: LeastSquaresProblem,
  options: LeastSquaresOptions = {},
): LeastSquaresFit {
  const fit = leastSquares(problem, options);
  if (fit.report.test !== 'underflow') return fit;
  const { problem: inUnits, restore } = rescaled(problem, fit, options.weightKind === 'absolute');
  return restore(leastSquares(inUnits, options));
}

/** The problem in better units, from where a search has lost its squares. */
function rescaled(
  problem: LeastSquaresProblem,
  reached: LeastSquaresFit,
  absolute: boolean,
): RescaledProblem {
  const { evaluate, lower, upper, residualCount: n, fixed, weights } = problem;
  const parameters = Float64Array.from(reached.parameters);
  const count = parameters.length;
  const residuals = new Float64Array(n);
  const jacobian = new Float64Array(n * count);
  evaluate(parameters, residuals, jacobian);
  const size = (of: (i: number) => number): number => {
    let most = 0;
    for (let i = 0; i < n; i++)
      most = Math.max(most, Math.abs(of(i)) * Math.sqrt(weights?.[i] ?? 1));
    return powerOf(most);
  };
  const unit = size((i) => residuals[i] as number);
  const shares = Array.from(parameters, (_, j) => {
    const column = size((i) => jacobian[i * count + j] as number);
    return clamped(unit - column);
  });
  const units = shares.map((power) => 2 ** power);
  // Counted from 0, a parameter keeps all its digits; one far from 0 in its unit is counted from there.
  const origin = parameters.map((value, j) =>
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
      residualCount: n,
      start: units.map((size, j) => ((parameters[j] as number) - (origin[j] as number)) / size),
      lower: inUnits(lower),
      upper: inUnits(upper),
      fixed,
      weights,
      evaluate: (q, moved, slopes) => {
        evaluate(parametersAt(q), moved, slopes);
        for (let i = 0; i < n; i++) {
          moved[i] = (moved[i] as number) * perUnit;
          for (let j = 0; j < count; j++) {
            slopes[i * count + j] = (slopes[i * count + j] as number) * (steps[j] as number);
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
        report: { ...fit.report, iterations: fit.report.iterations + reached.report.iterations },
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
