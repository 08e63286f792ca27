/**
 * The screen's grey of a lightness, for patches that show print tones.
 *
 *   Y = Y(L*), luminance over white, 0 to 1
 *   V = 12.92 Y                    where Y <= 0.0031308
 *   V = 1.055 Y^(1/2.4) - 0.055    above
 *
 * Red, green and blue take the same V, since a neutral stays neutral whatever the white point.
 *
 * Sources: [IEC61966] the transfer function; [CIE15] lightness. Deviations: the screen's white stands
 * for L* 100, and the light that a screen reflects is left out.
 */
import { InvalidArgumentError } from '../errors.ts';
import { srgbFromLight } from '../readings/index.ts';
import { densityFromLightness } from './lightness.ts';

/**
 * sRGB value of the neutral that has a lightness.
 *
 * @param lightness - L*, 0 to 100
 * @returns value of each channel, 0 to 1; times 255 for eight bits
 * @throws InvalidArgumentError if `lightness` is not in [0, 100]
 * @source [IEC61966] transfer function
 * @example
 * greyOfLightness(100).toFixed(6); // => '1.000000'
 */
export function greyOfLightness(lightness: number): number {
  if (!(lightness >= 0 && lightness <= 100)) {
    throw new InvalidArgumentError('greyOfLightness', 'lightness', lightness, 'in [0, 100]');
  }
  if (lightness === 0) return 0;
  return srgbFromLight(10 ** -densityFromLightness(lightness));
}
