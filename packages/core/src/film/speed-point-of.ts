/**
 * Log exposure at which a curve stands a net density above base + fog.
 *
 * Sources: [ISO6] for net 0.10. Deviations: another net density gives the exposure index of a user
 * who wants the least exposure that much denser; it is never an ISO speed.
 */
import { derivedNetPoint, estimateOn, type CharacteristicCurve } from '../curve/index.ts';
import { InvalidArgumentError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';
import { SPEED_POINT_DENSITY } from './film-measures.ts';
import { FARTHEST_EXTRAPOLATION, withinReadings } from './reach.ts';

/**
 * The speed point of a curve.
 *
 * @param curve - of a strip, or of a development surface at a time
 * @param netDensity - density above base + fog, > 0; 0.10 unless given
 * @returns log exposure with its error; null where the readings end more than a stop away from it
 * @throws InvalidArgumentError if `netDensity` is out of range
 * @source [ISO6]
 */
export function speedPointOf(
  curve: CharacteristicCurve,
  netDensity = SPEED_POINT_DENSITY,
): Estimate | null {
  if (!(netDensity > 0 && netDensity < 3)) {
    throw new InvalidArgumentError('speedPointOf', 'netDensity', netDensity, 'in (0, 3)');
  }
  const point = estimateOn(curve, (c) => derivedNetPoint(c, netDensity));
  if (point === null) return null;
  return withinReadings(curve, point.value).beyond > FARTHEST_EXTRAPOLATION ? null : point;
}
