/**
 * Pointwise confidence band of a curve.
 *
 *   D(x) ± t(1 - α/2, degrees of freedom) s_D(x)
 *
 * Sources: [Seber2003] section 5.1. Deviations: pointwise, not simultaneous; rival forms widen it
 * as in `estimateOn`.
 */
import { InvalidArgumentError } from '../errors.ts';
import { studentTQuantile } from '../fitting/index.ts';
import type { CharacteristicCurve } from './characteristic-curve.ts';
import { estimateOn } from './measure.ts';
import { functionOf } from './function-of.ts';

export interface BandPoint {
  readonly logExposure: number;
  readonly density: number;
  /** Standard error of the density of the curve, or null without an error model. */
  readonly standardError: number | null;
  readonly lower: number;
  readonly upper: number;
}

/**
 * Density with its confidence limits at given log exposures.
 *
 * @param logExposures - where, any order, finite
 * @param confidence - coverage of the interval at each point, in (0, 1)
 * @returns one point per log exposure; limits equal the density where there is no error model
 * @throws InvalidArgumentError if a log exposure is not finite or `confidence` is out of range
 */
export function densityBand(
  curve: CharacteristicCurve,
  logExposures: readonly number[],
  confidence = 0.95,
): BandPoint[] {
  if (!(confidence > 0 && confidence < 1)) {
    throw new InvalidArgumentError('densityBand', 'confidence', confidence, 'in (0, 1)');
  }
  const quantile =
    curve.degreesOfFreedom > 0
      ? studentTQuantile(0.5 + confidence / 2, curve.degreesOfFreedom)
      : null;
  return logExposures.map((logExposure) => {
    if (!Number.isFinite(logExposure)) {
      throw new InvalidArgumentError('densityBand', 'logExposure', logExposure, 'finite');
    }
    const estimate = estimateOn(curve, (form) => {
      const derivatives = new Float64Array(form.parameters.length);
      const value = functionOf(form).derivatives(logExposure, form.parameters, derivatives);
      return { value, derivatives };
    });
    const density = estimate?.value ?? functionOf(curve).value(logExposure, curve.parameters);
    const standardError = estimate?.standardError ?? null;
    const half = standardError === null || quantile === null ? 0 : quantile * standardError;
    return { logExposure, density, standardError, lower: density - half, upper: density + half };
  });
}
