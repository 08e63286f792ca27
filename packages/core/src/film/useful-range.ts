/**
 * Useful log exposure range: from the speed point to where the curve has fallen to 0.3 of gamma on
 * its shoulder, or to the last reading where it has not.
 *
 * Sources: the project's own definition; the fraction 0.3 follows the fractional-gradient criterion
 * of [NS1956]. Deviations: no standard defines a useful range.
 */
import { gradientAt, type CharacteristicCurve } from '../curve/index.ts';

const LEAST_FRACTION_OF_GAMMA = 0.3;
const STEPS = 200;

export interface UsefulRange {
  readonly fromLogExposure: number;
  readonly toLogExposure: number;
  /** Length in log10 exposure. */
  readonly value: number;
  /** True when the readings end before the shoulder does, so that the range is at least this. */
  readonly atLeast: boolean;
}

/**
 * @param speedPoint - log exposure at net 0.10
 * @param gamma - greatest sustained slope
 * @returns the range, or null where the speed point lies beyond the last reading
 */
export function usefulRange(
  curve: CharacteristicCurve,
  speedPoint: number,
  gamma: number,
): UsefulRange | null {
  const [, last] = curve.logExposureRange;
  if (!(speedPoint < last)) return null;
  const enough = (x: number): boolean => gradientAt(curve, x) >= LEAST_FRACTION_OF_GAMMA * gamma;
  const step = (last - speedPoint) / STEPS;
  let end = last;
  while (end > speedPoint && !enough(end)) end -= step;
  const atLeast = end === last;
  return {
    fromLogExposure: speedPoint,
    toLogExposure: end,
    value: end - speedPoint,
    atLeast,
  };
}
