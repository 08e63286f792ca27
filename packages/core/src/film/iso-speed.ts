/**
 * ISO speed numbers of black-and-white negative film.
 *
 *   S  = 0.8 / H_m            arithmetic, H_m in lux-seconds
 *   S° = 1 + 10 log10 S       degrees, nearest integer; the arithmetic number follows from it
 *
 * Rounding goes through the degrees: S = 71 is 80/20°, though 64 is the nearer number.
 *
 * Sources: [ISO6] speed and rounding; the series as in [ISO5800]. Deviations: the series is
 * continued below 4 and above 6400 by its own pattern.
 */
import { InvalidArgumentError } from '../errors.ts';

// One decade of the series; it is printed with fewer figures in the lower decades.
const UNITS = [1, 1.2, 1.6, 2, 2.5, 3, 4, 5, 6, 8];
const TENS = [10, 12, 16, 20, 25, 32, 40, 50, 64, 80];
const HUNDREDS = [100, 125, 160, 200, 250, 320, 400, 500, 640, 800];

export interface IsoSpeed {
  /** Number of the arithmetic series. */
  readonly arithmetic: number;
  /** Integer degrees. */
  readonly degrees: number;
  /** Unrounded arithmetic speed. */
  readonly exact: number;
  /** Unrounded degrees. */
  readonly exactDegrees: number;
}

/**
 * Arithmetic speed number that belongs to a number of degrees.
 *
 * @param degrees - integer degrees
 * @returns number of the series
 * @throws InvalidArgumentError if `degrees` is not an integer
 * @source [ISO5800] table of the series
 * @example
 * isoSpeedOfDegrees(22); // => 125
 */
export function isoSpeedOfDegrees(degrees: number): number {
  if (!Number.isInteger(degrees)) {
    throw new InvalidArgumentError('isoSpeedOfDegrees', 'degrees', degrees, 'an integer');
  }
  const decade = Math.floor((degrees - 1) / 10);
  const place = degrees - 1 - 10 * decade;
  const [row, unit] =
    decade <= 0 ? [UNITS, decade] : decade === 1 ? [TENS, 0] : [HUNDREDS, decade - 2];
  const number = row[place] ?? NaN;
  // Division keeps 0.8 and 0.05 free of the last digit's error that a product with 10^-k has.
  return unit < 0 ? number / 10 ** -unit : number * 10 ** unit;
}

/**
 * Speed from the log exposure of the speed point.
 *
 * @param logExposure - log10 of H_m in lux-seconds
 * @returns speed, exact and rounded
 * @throws InvalidArgumentError if `logExposure` is not finite
 * @source [ISO6]
 * @example
 * isoSpeed(Math.log10(0.0064)).arithmetic; // => 125
 */
export function isoSpeed(logExposure: number): IsoSpeed {
  if (!Number.isFinite(logExposure)) {
    throw new InvalidArgumentError('isoSpeed', 'logExposure', logExposure, 'a finite number');
  }
  const exact = 0.8 / 10 ** logExposure;
  const exactDegrees = 1 + 10 * (Math.log10(0.8) - logExposure);
  const degrees = Math.round(exactDegrees);
  return { arithmetic: isoSpeedOfDegrees(degrees), degrees, exact, exactDegrees };
}
