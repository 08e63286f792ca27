/**
 * The question put to the least-squares solver, and its answer, as plain data.
 */

/** What is to be minimised: sum_i w_i r_i(p)^2 over p within bounds. */
export interface LeastSquaresProblem {
  /** Number of residuals n. */
  readonly residualCount: number;
  /** Starting values, one for each of the P parameters; finite and within the bounds. */
  readonly start: readonly number[];
  /**
   * Writes the residuals (model minus observation, length n) and the Jacobian
   * d r_i / d p_j to `jacobian[i * P + j]`. Values that are not finite mark a point outside the
   * model's domain; the solver then tries a shorter step.
   */
  readonly evaluate: (
    parameters: Float64Array,
    residuals: Float64Array,
    jacobian: Float64Array,
  ) => void;
  /** Lower bounds; -Infinity where free. */
  readonly lower?: readonly number[] | undefined;
  /** Upper bounds; Infinity where free. */
  readonly upper?: readonly number[] | undefined;
  /** True for each parameter that stays at its starting value. */
  readonly fixed?: readonly boolean[] | undefined;
  /**
   * Weights w_i >= 0 that multiply the squared residuals; 1 where absent. A weight is 1/sigma^2,
   * never a standard deviation.
   */
  readonly weights?: readonly number[] | undefined;
}

/** Options of the solver. The defaults serve every certified set; none needs tuning. */
export interface LeastSquaresOptions {
  /**
   * `relative` (default): the weights are known up to a factor, which the residuals estimate.
   * `absolute`: weights are 1/sigma^2 with sigma in the unit of the residuals, and the covariance
   * is not scaled by the residual variance.
   */
  readonly weightKind?: 'relative' | 'absolute' | undefined;
  /** Steps allowed, rejected ones included. Default 1,000. */
  readonly maxIterations?: number | undefined;
  /**
   * Relative offset that ends the search, default 1e-10: each parameter is then within about
   * 1e-10 of its standard error from the minimum.
   */
  readonly offsetTolerance?: number | undefined;
  /**
   * Share of the sum of squares, default 4 roundings. Three steps in a row that gain less, and
   * promised less, end the search: what is left is a direction that the data hardly see.
   */
  readonly reductionTolerance?: number | undefined;
}

/**
 * Why the solver stopped: a small relative offset [BW1988], a step below rounding, a reduction
 * below rounding, residuals that are all 0, no parameter free to move, the allowance of iterations
 * spent, or residuals whose squares are too small for numbers (`leastSquaresInUnits` fits those).
 */
export type StopTest =
  'relative-offset' | 'step' | 'reduction' | 'exact' | 'nothing-free' | 'iterations' | 'underflow';

/**
 * `converged`: a minimum with every free parameter determined. `rank-deficient`: a minimum along
 * which some parameter can move without changing the fit; it has no standard errors.
 * `too-few-data`: fewer residuals than free parameters; nothing was fitted.
 * `not-converged`: the allowance of iterations ran out, or squares of residuals were lost.
 */
export type FitStatus = 'converged' | 'rank-deficient' | 'too-few-data' | 'not-converged';

/** How a fit ended. */
export interface FitReport {
  readonly status: FitStatus;
  readonly test: StopTest;
  /** Evaluations of residuals and Jacobian. */
  readonly iterations: number;
  /** Numerical rank of the Jacobian with columns scaled to unit length, bound columns left out. */
  readonly rank: number;
  /** Condition estimate of that matrix, from its pivoted R; Infinity when singular. */
  readonly condition: number;
  /** Bates and Watts' relative offset at the end; 0 for an exact fit. */
  readonly relativeOffset: number;
}

/** The minimum and what it tells of the parameters. */
export interface LeastSquaresFit {
  readonly parameters: readonly number[];
  /** Standard errors; null where the data do not determine the parameter, or it is not free. */
  readonly standardErrors: readonly (number | null)[];
  /**
   * Row-major P x P, zero in rows and columns of parameters at a bound or fixed; null when the
   * rank is short or no degree of freedom is left to estimate the variance.
   */
  readonly covariance: readonly number[] | null;
  /** Unweighted residuals, model minus observation. */
  readonly residuals: readonly number[];
  /** Weighted sum of squares; 0 where it is too small for a number. */
  readonly residualSumOfSquares: number;
  /** Root of (sum of squares / degrees of freedom); null without a degree of freedom. */
  readonly residualStandardDeviation: number | null;
  readonly degreesOfFreedom: number;
  /** Parameters held by a bound at the minimum. */
  readonly atBound: readonly boolean[];
  readonly report: FitReport;
}
