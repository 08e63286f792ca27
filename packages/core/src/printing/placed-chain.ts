/**
 * Places a subject on a film by its shadow: which log luminance gave the shadow's density, with the
 * flare of the camera.
 *
 *   l_s = (zone - 5) log10 2                 log luminance of the shadow; zone V is 0
 *   10^x_s = 10^h0 (10^l_s + r 10^l_max)     x_s from the film's curve, r flare over the highest exposure
 *
 * Sources: additive light (derived); flare factors as in [JC1941]. Deviations: the subject is taken to
 * reach as far above zone V as below it.
 */
import { logExposureAt, type CharacteristicCurve } from '../curve/index.ts';
import { InvalidArgumentError } from '../errors.ts';
import { LOG_STOP } from '../readings/index.ts';
import { flareOfFactor } from './flare.ts';
import type { ToneChain } from './tone-chain.ts';

export interface ShadowPlacement {
  /** Gross density of the negative's shadow. */
  readonly shadowDensity: number;
  /** Zone on which it lies, 0 to 10. */
  readonly shadowZone: number;
  /** From the darkest to the lightest part of the subject, stops, above 0. */
  readonly subjectRangeStops: number;
  /** Luminance ratio of the subject over that on the film, 1 for no flare. */
  readonly flareFactor: number;
}

/**
 * Where the subject lies on the film.
 *
 * @param film - the curve that the negative lies on
 * @param placement - of the shadow
 * @returns the two numbers that a tone chain needs, or null where the curve does not reach the density
 * @throws InvalidArgumentError if the zone is not from 0 to 10
 * @throws OutOfDomainError if the range or the flare is out of range
 */
export function placedSubject(
  film: CharacteristicCurve,
  { shadowDensity, shadowZone, subjectRangeStops, flareFactor }: ShadowPlacement,
): Pick<ToneChain, 'logExposureAtZero' | 'cameraFlareExposure'> | null {
  if (!(shadowZone >= 0 && shadowZone <= 10)) {
    throw new InvalidArgumentError('placedSubject', 'shadowZone', shadowZone, 'from 0 to 10');
  }
  const flare = flareOfFactor(10 ** (LOG_STOP * subjectRangeStops), flareFactor);
  const shadowExposure = logExposureAt(film, shadowDensity);
  if (shadowExposure === null) return null;
  const top = 10 ** (0.5 * LOG_STOP * subjectRangeStops);
  const shadow = 10 ** (LOG_STOP * (shadowZone - 5));
  const logExposureAtZero = shadowExposure - Math.log10(shadow + flare * top);
  return { logExposureAtZero, cameraFlareExposure: flare * top * 10 ** logExposureAtZero };
}
