/**
 * Flare: light that reaches film or paper everywhere alike, added to the image.
 *
 *   E' = E + F,   gradient d log E' / d log E = E / (E + F)
 *   scene ratio R to R' = R / f:   F / E_max = (1 - R'/R) / (R' - 1)
 *   pre-flash f of the paper's threshold:   range' = log10((10^range - f) / (1 - f))
 *
 * Sources: additive light (derived); flare factors as in [JC1941]. Deviations: none.
 */
import { InvalidArgumentError, OutOfDomainError } from '../errors.ts';

/**
 * Log exposure with flare added.
 *
 * @param logExposure - log10 of the image-forming exposure
 * @param flare - flare in the unit of the exposure, >= 0
 * @returns log10 of the sum
 * @throws InvalidArgumentError if an argument is not finite or the flare negative
 * @example
 * withFlare(0, 1); // => 0.3010299956639812
 */
export function withFlare(logExposure: number, flare: number): number {
  if (!Number.isFinite(logExposure)) {
    throw new InvalidArgumentError('withFlare', 'logExposure', logExposure, 'a finite number');
  }
  if (!(flare >= 0 && flare < Infinity)) {
    throw new InvalidArgumentError('withFlare', 'flare', flare, 'zero or more');
  }
  return Math.log10(10 ** logExposure + flare);
}

/**
 * Gradient by which flare lowers the contrast of a tone.
 *
 * @returns E / (E + F), in (0, 1]
 * @throws as `withFlare`
 * @example
 * flareGradient(0, 1); // => 0.5
 */
export function flareGradient(logExposure: number, flare: number): number {
  withFlare(logExposure, flare); // its checks
  const exposure = 10 ** logExposure;
  return exposure / (exposure + flare);
}

/**
 * Flare, as a part of the highest exposure, that turns one luminance ratio into a lower one.
 *
 * @param sceneRatio - ratio without flare, > 1
 * @param flareFactor - ratio without flare over ratio with it, >= 1 and < `sceneRatio`
 * @returns flare over the highest image-forming exposure
 * @throws OutOfDomainError if a ratio is out of range
 * @example
 * flareOfFactor(100, 1); // => 0
 */
export function flareOfFactor(sceneRatio: number, flareFactor: number): number {
  if (!(sceneRatio > 1 && sceneRatio < 1e9)) {
    throw new OutOfDomainError('flareOfFactor', 'sceneRatio', sceneRatio, [1, 1e9]);
  }
  if (!(flareFactor >= 1 && flareFactor < sceneRatio)) {
    throw new OutOfDomainError('flareOfFactor', 'flareFactor', flareFactor, [1, sceneRatio]);
  }
  const ratio = sceneRatio / flareFactor;
  return (1 - ratio / sceneRatio) / (ratio - 1) || 0;
}

/**
 * Exposure scale of a paper after an even pre-flash.
 *
 * @param exposureScale - scale without the flash, log10, > 0
 * @param fraction - flash as a part of the exposure that gives the threshold tone, in [0, 1)
 * @returns scale with the flash, log10
 * @throws OutOfDomainError if an argument is out of range
 * @example
 * exposureScaleWithFlash(1, 0); // => 1
 */
export function exposureScaleWithFlash(exposureScale: number, fraction: number): number {
  if (!(exposureScale > 0 && exposureScale <= 4)) {
    throw new OutOfDomainError('exposureScaleWithFlash', 'exposureScale', exposureScale, [0, 4]);
  }
  if (!(fraction >= 0 && fraction < 1)) {
    throw new OutOfDomainError('exposureScaleWithFlash', 'fraction', fraction, [0, 1]);
  }
  return Math.log10((10 ** exposureScale - fraction) / (1 - fraction));
}
