/**
 * Density and gradient of a characteristic curve.
 *
 * Sources: [HD1890]. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import type { CharacteristicCurve } from './characteristic-curve.ts';
import { functionOf } from './function-of.ts';

/**
 * Density on the curve.
 *
 * @param logExposure - log10 lux-seconds or relative, as the curve's readings; -Infinity is the
 *   unexposed material
 * @returns density, dimensionless, base + fog included
 * @throws InvalidArgumentError if `logExposure` is NaN or +Infinity
 */
export function densityAt(curve: CharacteristicCurve, logExposure: number): number {
  if (!(logExposure < Infinity)) {
    throw new InvalidArgumentError('densityAt', 'logExposure', logExposure, 'a number');
  }
  return functionOf(curve).value(logExposure, curve.parameters);
}

/**
 * Gradient of the curve: density per unit of log10 exposure.
 *
 * @param logExposure - log10 lux-seconds or relative, finite
 * @returns gradient, dimensionless
 * @throws InvalidArgumentError if `logExposure` is not finite
 */
export function gradientAt(curve: CharacteristicCurve, logExposure: number): number {
  if (!Number.isFinite(logExposure)) {
    throw new InvalidArgumentError('gradientAt', 'logExposure', logExposure, 'a finite number');
  }
  return functionOf(curve).gradient(logExposure, curve.parameters);
}
