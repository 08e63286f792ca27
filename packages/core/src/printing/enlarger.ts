/**
 * The enlarger's own arithmetic: column height, aperture, dry-down.
 *
 *   distance of negative and paper   d = f (m + 1)² / m         thin lens in focus
 *   magnification from it            m + 1/m = d/f - 2,  m >= 1
 *   aperture                         t2 = t1 (N2 / N1)²
 *   dry-down of p %                  t2 = t1 (1 - p/100)
 *
 * Sources: thin-lens equation and the definition of the f-number (derived); dry-down of about 10 %
 * [DRYDOWN]. Deviations: the thickness of a real lens shifts the distance by the gap of its principal
 * planes.
 */
import { InvalidArgumentError, OutOfDomainError } from '../errors.ts';
import { LOG_STOP } from '../readings/index.ts';

/**
 * Distance from negative to paper.
 *
 * @param magnification - image length over negative length, > 0
 * @param focalLength - of the lens, > 0; the distance comes in its unit
 * @throws InvalidArgumentError if an argument is not above zero
 * @example
 * distanceForMagnification(4, 80); // => 500
 */
export function distanceForMagnification(magnification: number, focalLength: number): number {
  positive('distanceForMagnification', 'magnification', magnification);
  positive('distanceForMagnification', 'focalLength', focalLength);
  return (focalLength * (magnification + 1) ** 2) / magnification;
}

/**
 * Magnification at a distance from negative to paper, for prints of life size and more.
 *
 * @param distance - at least four focal lengths
 * @param focalLength - in the same unit, > 0
 * @throws OutOfDomainError if nothing can be in focus at the distance
 * @example
 * magnificationAtDistance(500, 80); // => 4
 */
export function magnificationAtDistance(distance: number, focalLength: number): number {
  positive('magnificationAtDistance', 'focalLength', focalLength);
  if (!(distance >= 4 * focalLength && distance < Infinity)) {
    throw new OutOfDomainError('magnificationAtDistance', 'distance', distance, [
      4 * focalLength,
      Infinity,
    ]);
  }
  const sum = distance / focalLength - 2;
  return 0.5 * (sum + Math.sqrt(sum * sum - 4));
}

/**
 * Time at another aperture.
 *
 * @param seconds - time at the first, > 0
 * @param from - first f-number, > 0
 * @param to - second f-number, > 0
 * @throws InvalidArgumentError if an argument is not above zero
 * @example
 * timeForAperture(10, 8, 16); // => 40
 */
export function timeForAperture(seconds: number, from: number, to: number): number {
  positive('timeForAperture', 'seconds', seconds);
  positive('timeForAperture', 'from', from);
  positive('timeForAperture', 'to', to);
  return seconds * (to / from) ** 2;
}

/** Less exposure for a print that dries darker. */
export interface DryDown {
  readonly seconds: number;
  /** Change in stops, zero or less. */
  readonly stops: number;
}

/**
 * Time that allows for dry-down.
 *
 * @param seconds - time of a print that looks right when wet, > 0
 * @param percent - less exposure, from 0 to 50
 * @throws InvalidArgumentError if an argument is out of range
 * @example
 * dryDown(20, 10).seconds; // => 18
 */
export function dryDown(seconds: number, percent: number): DryDown {
  positive('dryDown', 'seconds', seconds);
  if (!(percent >= 0 && percent <= 50)) {
    throw new InvalidArgumentError('dryDown', 'percent', percent, 'from 0 to 50');
  }
  const part = 1 - percent / 100;
  return { seconds: seconds * part, stops: Math.log10(part) / LOG_STOP || 0 };
}

/**
 * Dry-down of one's own paper from two patches of one density, read wet and dry: the exposure change
 * that undoes the difference.
 *
 * @param wetDensity - print density read or judged wet
 * @param dryDensity - the same patch dry
 * @param gradient - slope of the paper there, density per log10 exposure, > 0
 * @returns percent less exposure, zero where it dries no darker
 * @throws InvalidArgumentError if an argument is not finite or the gradient not above zero
 * @example
 * dryDownPercent(0.3, 0.35, 1).toFixed(1); // => '10.9'
 */
export function dryDownPercent(wetDensity: number, dryDensity: number, gradient: number): number {
  positive('dryDownPercent', 'gradient', gradient);
  const rise = dryDensity - wetDensity;
  if (!Number.isFinite(rise)) {
    throw new InvalidArgumentError('dryDownPercent', 'dryDensity', dryDensity, 'a finite number');
  }
  return rise <= 0 ? 0 : 100 * (1 - 10 ** (-rise / gradient));
}

function positive(functionName: string, argument: string, value: number): void {
  if (!(value > 0 && value < Infinity)) {
    throw new InvalidArgumentError(functionName, argument, value, 'a number above zero');
  }
}
