/**
 * Values of a fitted model with pointwise confidence limits for the curve and prediction limits
 * for a single new observation.
 *
 *   f(x) +- t(1 - a/2, v) sqrt(g' C g),   f(x) +- t(1 - a/2, v) sqrt(s^2 + g' C g)
 *
 * g the derivatives of f by the parameters, C their covariance.
 *
 * Sources: [BW1988] section 2.3.2. Deviations: pointwise, not simultaneous.
 */
import { quadraticForm } from './quadratic-form.ts';
import { InvalidArgumentError } from '../errors.ts';
import type { ModelFit } from './fit-model.ts';
import type { Model } from './model.ts';
import { studentTQuantile } from './student-t-quantile.ts';

/** A predicted value; limits are null where the fit has no errors. */
export interface Prediction {
  readonly x: number;
  readonly value: number;
  readonly standardError: number | null;
  /** Confidence limits of the curve. */
  readonly lower: number | null;
  readonly upper: number | null;
  /** Limits for one new observation of weight 1. */
  readonly observationLower: number | null;
  readonly observationUpper: number | null;
}

/**
 * Predicts values of a fitted model.
 *
 * @param model - the model fitted
 * @param fit - its fit
 * @param x - where
 * @param confidence - of each interval, in (0, 1); default 0.95
 * @throws {InvalidArgumentError} if the confidence is out of range or the model has no finite
 *   value at an x
 */
export function predictWithBand(
  model: Model,
  fit: Pick<
    ModelFit,
    'parameters' | 'covariance' | 'residualStandardDeviation' | 'degreesOfFreedom'
  >,
  x: readonly number[],
  confidence = 0.95,
): Prediction[] {
  if (!(confidence > 0 && confidence < 1)) {
    throw new InvalidArgumentError('predictWithBand', 'confidence', confidence, 'in (0, 1)');
  }
  const { parameters, covariance, residualStandardDeviation: sigma, degreesOfFreedom } = fit;
  const quantile =
    degreesOfFreedom > 0 ? studentTQuantile((1 + confidence) / 2, degreesOfFreedom) : null;
  const row = new Float64Array(parameters.length);
  return x.map((at) => {
    const value = model.derivatives(at, parameters, row);
    if (!Number.isFinite(value)) {
      throw new InvalidArgumentError('predictWithBand', 'x', at, 'in the domain of the model');
    }
    const known = covariance ? quadraticForm(row, covariance) : null;
    // Beyond the range of doubles there is no error to state.
    const variance = Number.isFinite(known) ? known : null;
    const error = variance === null ? null : Math.sqrt(variance);
    const half = error === null || quantile === null ? null : quantile * error;
    const wide =
      variance === null || quantile === null || sigma === null
        ? null
        : quantile * Math.sqrt(variance + sigma * sigma);
    return {
      x: at,
      value,
      standardError: error,
      lower: half === null ? null : value - half,
      upper: half === null ? null : value + half,
      observationLower: wide === null ? null : value - wide,
      observationUpper: wide === null ? null : value + wide,
    };
  });
}
