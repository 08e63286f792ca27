/**
 * The steepest sustained part of a curve: gamma and inertia.
 *
 *   gamma   γ = max_x [D(x + h) - D(x - h)] / 2h,  2h = 0.15, half a stop
 *   inertia log i = x - h - (D(x - h) - base fog) / γ, where the straight part meets base + fog
 *
 * Sources: [HD1890] for the straight part and inertia. Deviations: the straight part is found on
 * the fitted curve as the steepest chord over half a stop, not drawn by eye and not taken from a
 * slope parameter, which runs away on curves without a straight part.
 */
import {
  derivedBaseFog,
  derivedDensity,
  constant,
  placeOfMaximum,
  plus,
  quotient,
  scaled,
  shifted,
  functionOf,
  type CharacteristicCurve,
  type Derived,
} from '../curve/index.ts';

/** Half of the log exposure over which a slope must last to count as sustained. */
const HALF_WIDTH = 0.075;
const GRID = 32;

export interface SteepestPart {
  /** Centre of the steepest chord, log exposure. */
  readonly logExposure: number;
  readonly gamma: Derived;
  readonly inertia: Derived;
  /** True when the curve is still growing steeper at its last reading. */
  readonly stillRising: boolean;
}

/**
 * Gamma and inertia of a curve within its readings.
 *
 * @returns the steepest part, or null where the readings span less than half a stop or the curve
 *   does not rise
 */
export function steepestPart(curve: CharacteristicCurve): SteepestPart | null {
  const [first, last] = curve.logExposureRange;
  const low = first + HALF_WIDTH;
  const high = last - HALF_WIDTH;
  if (!(high > low)) return null;
  const model = functionOf(curve);
  const { parameters } = curve;
  const rise = (x: number): number =>
    model.value(x + HALF_WIDTH, parameters) - model.value(x - HALF_WIDTH, parameters);

  const centre = placeOfMaximum(rise, low, high, { grid: GRID, tolerance: 1e-4 });

  const lower = derivedDensity(curve, constant(curve, centre - HALF_WIDTH));
  const upper = derivedDensity(curve, constant(curve, centre + HALF_WIDTH));
  const gamma = scaled(plus(upper, lower, -1), 1 / (2 * HALF_WIDTH));
  if (!(gamma.value > 0)) return null;
  const above = plus(lower, derivedBaseFog(curve), -1);
  const inertia = shifted(scaled(quotient(above, gamma), -1), centre - HALF_WIDTH);

  const before = Math.max(low, centre - 0.3);
  const stillRising =
    high - centre < (high - low) / GRID && rise(before) / (2 * HALF_WIDTH) < 0.97 * gamma.value;
  return { logExposure: centre, gamma, inertia, stillRising };
}
