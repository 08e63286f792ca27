/**
 * Fractional-gradient speed by the delta-X method: the speed that the 0.3-average-gradient
 * criterion would give, from the 0.10 speed point and the density rise over 1.30.
 *
 *   ΔX = 0.83 - 0.86 ΔD + 0.24 ΔD²
 *   S  = (0.8 / H_m) 10^(ΔX - 0.2956)        0.5 < ΔD < 1.2
 *
 * Sources: [NS1956]. Deviations: the coefficients are from memory (at ΔD = 0.80 they give 0.2956,
 * where 0.29 is published); the result is marked unverified.
 */
import type { Estimate } from '../estimate.ts';

const RISE_LIMITS = { lowest: 0.5, highest: 1.2 } as const;
const REFERENCE = 0.83 - 0.86 * 0.8 + 0.24 * 0.8 ** 2; // ΔX of the ISO contrast condition

export interface DeltaXSpeed {
  readonly deltaX: number;
  readonly exact: Estimate;
  readonly verified: false;
}

/**
 * Speed by the delta-X method.
 *
 * @param speedPoint - log10 lux-seconds at net 0.10
 * @param densityRise - density rise over the next 1.30 of log exposure
 * @returns the speed, or null where the rise is outside 0.5 to 1.2, for which no relation is given
 * @source [NS1956]
 */
export function deltaXSpeed(speedPoint: Estimate, densityRise: Estimate): DeltaXSpeed | null {
  const rise = densityRise.value;
  if (!(rise > RISE_LIMITS.lowest && rise < RISE_LIMITS.highest)) return null;
  const deltaX = 0.83 - 0.86 * rise + 0.24 * rise ** 2;
  const value = 0.8 * 10 ** (deltaX - REFERENCE - speedPoint.value);
  const slope = -0.86 + 0.48 * rise;
  const standardError =
    speedPoint.standardError === null || densityRise.standardError === null
      ? null
      : Math.LN10 * value * Math.hypot(speedPoint.standardError, slope * densityRise.standardError);
  return { deltaX, exact: { value, standardError }, verified: false };
}
