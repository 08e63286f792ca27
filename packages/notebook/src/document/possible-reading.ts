/**
 * Whether a figure can be a reading at all. A notebook opens with any finite number in it, so that
 * it can be put right; no curve is fitted to a density of 1e200.
 *
 * Sources: the limits of density are core's; exposures beyond the project's own limit, 10^20 lux
 * seconds, come from no light. Deviations: none.
 */
import { DENSITY_LIMITS } from '@wedgebook/core';

/** A tablet of density 6 before a light of 10^12 lux seconds, either way, and some more. */
const LARGEST_LOG_EXPOSURE = 20;

/** @returns whether a film, a paper or a tablet can have this density */
export function isPossibleDensity(density: number): boolean {
  return density >= DENSITY_LIMITS.lowest && density <= DENSITY_LIMITS.highest;
}

/** @returns whether a step can have this log exposure, absolute or relative */
export function isPossibleLogExposure(logExposure: number): boolean {
  return Math.abs(logExposure) <= LARGEST_LOG_EXPOSURE;
}
