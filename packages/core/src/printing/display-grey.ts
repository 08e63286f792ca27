/**
 * Grey of a screen for a print density.
 *
 *   Y = 10^-(D - D_white)           the paper's white is the screen's, unless absolute
 *   grey = 255 V(Y)                 the transfer curve of sRGB
 *
 * A screen shows the differences of a print, not its look: its black is lighter or darker than the
 * paper's, and it shines.
 *
 * Sources: [IEC61966] the transfer curve. Deviations: light above the screen's white is shown as white.
 */
import { InvalidArgumentError } from '../errors.ts';
import { srgbFromLight } from '../readings/index.ts';

export interface DisplayOptions {
  /** Print density shown as the screen's white; 0 (a perfect white) unless given. */
  readonly whiteDensity?: number;
}

/**
 * sRGB grey of a print density.
 *
 * @param density - reflection density, finite
 * @param options - which density is the screen's white
 * @returns 0 to 255, not rounded
 * @throws InvalidArgumentError if a density is not finite
 * @source [IEC61966]
 * @example
 * displayGrey(0); // => 255
 */
export function displayGrey(density: number, options: DisplayOptions = {}): number {
  const { whiteDensity = 0 } = options;
  if (!Number.isFinite(density - whiteDensity)) {
    throw new InvalidArgumentError('displayGrey', 'density', density, 'a finite number');
  }
  const light = Math.min(1, 10 ** -(density - whiteDensity));
  return 255 * srgbFromLight(light);
}
