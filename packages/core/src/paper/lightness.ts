/**
 * Reflectance and lightness of a print density.
 *
 *   Y / Y_n = 10^(-D)
 *   L* = 116 (Y/Y_n)^(1/3) - 16            where Y/Y_n > (6/29)^3
 *   L* = (29/3)^3 Y/Y_n                    below
 *
 * Sources: [CIE15] section 8.2.1.1. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';

const KNEE = 216 / 24389; // (6/29)^3
const SLOPE = 24389 / 27; // (29/3)^3

/**
 * CIE lightness of a reflection density, seen against a perfect white.
 *
 * @param density - reflection density, dimensionless, finite
 * @returns L*, 0 to 100 for densities from 0 upwards
 * @throws InvalidArgumentError if `density` is not finite
 * @source [CIE15] section 8.2.1.1
 * @example
 * lightnessFromDensity(0); // => 100
 */
export function lightnessFromDensity(density: number): number {
  if (!Number.isFinite(density)) {
    throw new InvalidArgumentError('lightnessFromDensity', 'density', density, 'a finite number');
  }
  const luminance = 10 ** -density;
  return luminance > KNEE ? 116 * Math.cbrt(luminance) - 16 : SLOPE * luminance;
}

/**
 * Change of lightness with density, d L* / d D.
 *
 * @param density - reflection density, finite
 * @returns lightness per unit of density, negative
 * @throws InvalidArgumentError if `density` is not finite
 * @source [CIE15] section 8.2.1.1, differentiated
 */
export function lightnessGradient(density: number): number {
  const luminance = 10 ** -density;
  const byLuminance = luminance > KNEE ? (116 / 3) * luminance ** (-2 / 3) : SLOPE;
  if (!Number.isFinite(density)) {
    throw new InvalidArgumentError('lightnessGradient', 'density', density, 'a finite number');
  }
  return -Math.LN10 * luminance * byLuminance;
}

/**
 * Reflection density of a CIE lightness.
 *
 * @param lightness - L*, in (0, 100]
 * @returns reflection density
 * @throws InvalidArgumentError if `lightness` is not in (0, 100]
 * @source [CIE15] section 8.2.1.1, inverted
 * @example
 * densityFromLightness(100); // => 0
 */
export function densityFromLightness(lightness: number): number {
  if (!(lightness > 0 && lightness <= 100)) {
    throw new InvalidArgumentError('densityFromLightness', 'lightness', lightness, 'in (0, 100]');
  }
  // L* = 8 is the knee: 116 * 6/29 - 16.
  const luminance = lightness > 8 ? ((lightness + 16) / 116) ** 3 : lightness / SLOPE;
  return -Math.log10(luminance) || 0;
}
