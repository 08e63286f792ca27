/**
 * Numbers derived from a curve, with standard errors by the delta method.
 *
 *   var m = g' C g,   g_j = d m / d p_j,   C the covariance of the parameters
 *
 * and, where rival forms stand beside the curve, unconditional of the choice between them:
 *
 *   var m = Σ_i w_i (var_i m + (m_i - m)²)
 *
 * Sources: [BA2002] section 4.3.2, unconditional variance; [Seber2003] section 5.1 for the delta
 * method. Deviations: deviations are taken from the value of the drawn curve, so that the number
 * quoted is the number drawn.
 */
import { InvalidArgumentError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';
import { unconditionalError } from '../fitting/index.ts';
import type { CharacteristicCurve } from './characteristic-curve.ts';

/** A derived number and its derivative by each parameter of the curve it was taken from. */
export interface Derived {
  readonly value: number;
  readonly derivatives: Float64Array;
}

/** A rule that derives a number from a curve; null where the curve does not define it. */
export type CurveMeasure = (curve: CharacteristicCurve) => Derived | null;

/**
 * A measure of a curve with its standard error.
 *
 * @param curve - a fitted curve
 * @param measure - the rule
 * @returns the estimate, or null where the drawn curve does not define the measure. The standard
 *   error is null for a curve without an error model
 */
export function estimateOn(curve: CharacteristicCurve, measure: CurveMeasure): Estimate | null {
  const derived = measure(curve);
  if (derived === null || !Number.isFinite(derived.value)) return null;
  const standardError = unconditionalError(
    {
      value: derived.value,
      derivatives: derived.derivatives,
      covariance: curve.covariance,
      weight: curve.weight,
    },
    curve.companions.map(({ curve: rival, weight }) => {
      const other = measure(rival);
      return (
        other && {
          value: other.value,
          derivatives: other.derivatives,
          covariance: rival.covariance,
          weight,
        }
      );
    }),
  );
  return { value: derived.value, standardError };
}

/**
 * As `estimateOn`, for a measure that every usable curve defines.
 *
 * @param caller - function named in the error
 * @throws InvalidArgumentError if the curve does not define it
 */
export function requiredEstimate(
  caller: string,
  curve: CharacteristicCurve,
  measure: CurveMeasure,
): Estimate {
  const estimate = estimateOn(curve, measure);
  if (estimate === null) {
    throw new InvalidArgumentError(caller, 'curve', curve.family, 'a curve with finite densities');
  }
  return estimate;
}
