/**
 * The greatest gradient of a curve within its readings.
 *
 * Sources: none needed; the location is found on a grid and refined by golden section. The error
 * follows from the gradient at that place, since at a maximum the place itself does not count.
 * Deviations: none.
 */
import {
  constant,
  derivedDensity,
  functionOf,
  placeOfMaximum,
  plus,
  scaled,
  type CharacteristicCurve,
  type Derived,
} from '../curve/index.ts';

const GRID = 64;
/** Half of the chord that stands for the tangent; its error is below 1e-7 on any real paper. */
const HALF_CHORD = 2.5e-4;

/**
 * Greatest slope d D / d log H between the least and the greatest exposure read.
 *
 * @returns the slope with its derivatives by the parameters, or null for a curve that never rises
 */
export function greatestGradient(curve: CharacteristicCurve): Derived | null {
  const [low, high] = curve.logExposureRange;
  const model = functionOf(curve);
  const slope = (x: number): number => model.gradient(x, curve.parameters);
  const x = placeOfMaximum(slope, low, high, { grid: GRID, tolerance: 1e-7 });
  const upper = derivedDensity(curve, constant(curve, x + HALF_CHORD));
  const lower = derivedDensity(curve, constant(curve, x - HALF_CHORD));
  const result = scaled(plus(upper, lower, -1), 1 / (2 * HALF_CHORD));
  return result.value > 0 ? result : null;
}
