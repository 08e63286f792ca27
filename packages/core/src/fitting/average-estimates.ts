/**
 * The average of one measure over several models, with an error that holds whichever is right.
 *
 *   m = sum_i w_i m_i,  var m = sum_i w_i (var_i + (m_i - m)^2)
 *
 * Sources: [BA2002] section 4.3.2, equation 4.9 in its later form. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';

/** A measure from one model and the weight of the model. */
export interface WeightedEstimate extends Estimate {
  /** At least 0; weights need not add up to 1. */
  readonly weight: number;
}

/**
 * Averages estimates of the same measure.
 *
 * @returns the average; its standard error is null where a model of weight above 0 has none
 * @throws {InvalidArgumentError} if there is no estimate of weight above 0, or a number is not
 *   finite
 * @source [BA2002] section 4.3.2
 * @example
 * averageEstimates([
 *   { value: 1, standardError: 0, weight: 1 },
 *   { value: 3, standardError: 0, weight: 1 },
 * ]); // => { value: 2, standardError: 1 }
 */
export function averageEstimates(estimates: readonly WeightedEstimate[]): Estimate {
  let total = 0;
  let value = 0;
  for (const estimate of estimates) {
    if (!(Number.isFinite(estimate.value) && estimate.weight >= 0)) {
      throw new InvalidArgumentError('averageEstimates', 'estimates', estimate, 'finite numbers');
    }
    total += estimate.weight;
    value += estimate.weight * estimate.value;
  }
  if (!(total > 0 && total < Infinity)) {
    throw new InvalidArgumentError('averageEstimates', 'weights', total, 'a sum above 0');
  }
  value /= total;
  let variance: number | null = 0;
  for (const { value: own, standardError, weight } of estimates) {
    if (weight === 0) continue;
    if (standardError === null || variance === null) variance = null;
    else variance += (weight / total) * (standardError ** 2 + (own - value) ** 2);
  }
  return { value, standardError: variance === null ? null : Math.sqrt(variance) };
}

/**
 * Akaike weights exp(-Delta / 2), scaled to add up to 1.
 *
 * @param criteria - AICc of each model on the same data; Infinity excludes a model
 * @throws {InvalidArgumentError} if no criterion is below Infinity, or one is NaN
 * @source [BA2002] section 2.9
 */
export function akaikeWeights(criteria: readonly number[]): number[] {
  const least = Math.min(...criteria);
  if (!(least < Infinity)) {
    throw new InvalidArgumentError('akaikeWeights', 'criteria', criteria, 'one finite number');
  }
  // An exact fit has -Infinity; it and its equals share all the weight.
  const raw = criteria.map((c) => (c === least ? 1 : Math.exp((least - c) / 2)));
  const total = raw.reduce((sum, w) => sum + w, 0);
  return raw.map((w) => w / total);
}
