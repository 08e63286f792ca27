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
  modelOf,
  plus,
  scaled,
  type CharacteristicCurve,
  type Derived,
} from '../curve/index.ts';

const GRID = 64;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** Half of the chord that stands for the tangent; its error is below 1e-7 on any real paper. */
const HALF_CHORD = 2.5e-4;

/**
 * Greatest slope d D / d log H between the least and the greatest exposure read.
 *
 * @returns the slope with its derivatives by the parameters, or null for a curve that never rises
 */
export function greatestGradient(curve: CharacteristicCurve): Derived | null {
  const [low, high] = curve.logExposureRange;
  const model = modelOf(curve);
  const slope = (x: number): number => model.gradient(x, curve.parameters);
  const step = (high - low) / GRID;
  let best = low;
  for (let i = 1; i <= GRID; i++) {
    const x = low + i * step;
    if (slope(x) > slope(best)) best = x;
  }
  let a = Math.max(low, best - step);
  let b = Math.min(high, best + step);
  while (b - a > 1e-7) {
    const left = b - GOLDEN * (b - a);
    const right = a + GOLDEN * (b - a);
    if (slope(left) < slope(right)) a = left;
    else b = right;
  }
  const middle = 0.5 * (a + b);
  const x = slope(middle) > slope(best) ? middle : best;
  const upper = derivedDensity(curve, constant(curve, x + HALF_CHORD));
  const lower = derivedDensity(curve, constant(curve, x - HALF_CHORD));
  const result = scaled(plus(upper, lower, -1), 1 / (2 * HALF_CHORD));
  return result.value > 0 ? result : null;
}
