/**
 * The inverse of a characteristic curve: at which log exposure does it reach a density?
 *
 * Bracketed Newton iteration: a Newton step where it stays inside the bracket, else bisection.
 *
 * Sources: [PTVF2007] section 9.4, the safeguarded Newton method. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import type { CharacteristicCurve } from './characteristic-curve.ts';
import { functionOf } from './function-of.ts';

/** How far beyond the readings the inverse is sought, in log exposure. */
const REACH = 3;
const MOST_ITERATIONS = 100;

/**
 * Log exposure at which the curve rises through a density.
 *
 * @param density - density, dimensionless, base + fog included
 * @returns log exposure within 3.0 of the readings, or null where the curve does not reach the
 *   density there
 * @throws InvalidArgumentError if `density` is not finite
 */
export function logExposureAt(curve: CharacteristicCurve, density: number): number | null {
  if (!Number.isFinite(density)) {
    throw new InvalidArgumentError('logExposureAt', 'density', density, 'a finite number');
  }
  const model = functionOf(curve);
  const { parameters } = curve;
  const excess = (x: number): number => model.value(x, parameters) - density;
  let low = curve.logExposureRange[0] - REACH;
  let high = curve.logExposureRange[1] + REACH;
  if (excess(low) > 0 || excess(high) < 0) return null;

  let x = 0.5 * (curve.logExposureRange[0] + curve.logExposureRange[1]);
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    const miss = excess(x);
    if (miss === 0) return x;
    if (miss < 0) low = x;
    else high = x;
    const step = miss / model.gradient(x, parameters);
    const newton = x - step;
    const next = newton > low && newton < high ? newton : 0.5 * (low + high);
    if (Math.abs(next - x) <= 1e-14 * Math.max(1, Math.abs(x))) return next;
    x = next;
  }
  return x;
}
