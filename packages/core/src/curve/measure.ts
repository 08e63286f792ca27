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
import type { Estimate } from '../estimate.ts';
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
  const own = deltaVariance(curve, derived.derivatives);
  if (own === null) return { value: derived.value, standardError: null };
  let variance = curve.weight * own;
  let weight = curve.weight;
  for (const companion of curve.companions) {
    const rival = measure(companion.curve);
    if (rival === null || !Number.isFinite(rival.value)) continue;
    const within = deltaVariance(companion.curve, rival.derivatives) ?? own;
    variance += companion.weight * (within + (rival.value - derived.value) ** 2);
    weight += companion.weight;
  }
  const standardError = Math.sqrt(variance / weight);
  // Beyond the range of doubles there is no error to state: null, never NaN or Infinity.
  return {
    value: derived.value,
    standardError: Number.isFinite(standardError) ? standardError : null,
  };
}

/** g' C g, or null where the curve has no covariance. Clipped at 0 against rounding only. */
function deltaVariance(curve: CharacteristicCurve, derivatives: Float64Array): number | null {
  const { covariance } = curve;
  if (covariance === null) return null;
  const size = derivatives.length;
  let sum = 0;
  for (let row = 0; row < size; row++) {
    const left = derivatives[row] ?? 0;
    if (left === 0) continue;
    let inner = 0;
    for (let column = 0; column < size; column++) {
      inner += (covariance[row * size + column] ?? 0) * (derivatives[column] ?? 0);
    }
    sum += left * inner;
  }
  return Math.max(0, sum);
}
