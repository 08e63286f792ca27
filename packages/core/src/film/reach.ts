/**
 * How far a measure leans beyond the readings. A little is allowed with a warning; more is refused.
 */
import type { CharacteristicCurve } from '../curve/index.ts';

/** One stop: a measure that needs the curve farther out than this is not given. */
export const FARTHEST_EXTRAPOLATION = 0.301;

/**
 * Distance of a log exposure from the range that was read.
 *
 * @returns `beyond` 0 inside the readings, else the distance in log exposure
 */
export function withinReadings(
  curve: CharacteristicCurve,
  logExposure: number,
): { beyond: number } {
  const [first, last] = curve.logExposureRange;
  // A billionth of slack: a chord that ends on the last step is not an extrapolation.
  const beyond = Math.max(first - logExposure, logExposure - last, 0);
  return { beyond: beyond < 1e-9 ? 0 : beyond };
}
