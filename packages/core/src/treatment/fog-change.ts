/**
 * What a bath does to base + fog: whether it tones the fog silver too.
 *
 *   Δ_i = b'_i - b_i,   s_i² = σ² (1/n_i + 1/n'_i);   mean Δ = Σ Δ_i / s_i² / Σ 1 / s_i²
 *
 * Sources: elementary weighting. Deviations: strips that share an untreated one share its error too,
 * which the error of the mean leaves out of account.
 */
import type { Estimate } from '../estimate.ts';
import type { BaseFog, PairedReadings } from './pair-strips.ts';

export interface FogChanges {
  /** By strip; null where base + fog was not read before and after. */
  readonly each: readonly (Estimate | null)[];
  readonly mean: Estimate | null;
}

const READ: readonly BaseFog['source'][] = ['read', 'given'];

/**
 * Changes of base + fog.
 *
 * @param strips - paired readings
 * @param readingError - standard deviation of one reading
 */
export function fogChanges(strips: readonly PairedReadings[], readingError: number): FogChanges {
  const each = strips.map(({ untreatedBaseFog, treatedBaseFog }): Estimate | null => {
    if (![untreatedBaseFog, treatedBaseFog].every(({ source }) => READ.includes(source)))
      return null;
    const value = treatedBaseFog.value - untreatedBaseFog.value;
    const share = 1 / untreatedBaseFog.weight + 1 / treatedBaseFog.weight;
    return { value, standardError: readingError * Math.sqrt(share) };
  });
  const known = each.flatMap((one) => one ?? []);
  if (known.length === 0) return { each, mean: null };
  const weights = known.map(({ standardError }) => 1 / Math.max(1e-6, standardError ?? 1) ** 2);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const value = known.reduce((sum, one, i) => sum + one.value * (weights[i] ?? 0), 0) / total;
  return { each, mean: { value, standardError: 1 / Math.sqrt(total) } };
}
