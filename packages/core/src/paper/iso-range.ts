/**
 * ISO range and ISO speed of a paper, exact and rounded.
 *
 *   R = 100 (log H_s - log H_t)     rounded to the nearest 10
 *   P = 1000 / H_m                  rounded to the series of tenths of log10
 *
 * Sources: [ISO6846]; the rounding rules are from memory, so the exact figure always stands beside
 * the rounded one. Deviations: a range that ends in 5 is rounded up, which no source seen settles.
 */
import { InvalidArgumentError, OutOfDomainError } from '../errors.ts';

/** Rounded ISO paper speeds: tenths of log10 from 0 to 3. */
export const ISO_PAPER_SPEEDS: readonly number[] = [
  1, 1.2, 1.6, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50, 64, 80, 100, 125, 160, 200,
  250, 320, 400, 500, 640, 800, 1000,
];

/**
 * ISO range, unrounded.
 *
 * @param exposureScale - log10(H_s / H_t), > 0
 * @returns R, a hundred times the scale
 * @throws OutOfDomainError if `exposureScale` is not above zero
 * @example
 * isoRange(1.05); // => 105
 */
export function isoRange(exposureScale: number): number {
  if (!(exposureScale > 0 && exposureScale < Infinity)) {
    throw new OutOfDomainError('isoRange', 'exposureScale', exposureScale, [0, Infinity]);
  }
  return 100 * exposureScale;
}

/**
 * ISO range as the standard prints it.
 *
 * @param exposureScale - log10(H_s / H_t), > 0
 * @returns R to the nearest 10; a 5 is rounded up
 * @throws OutOfDomainError if `exposureScale` is not above zero
 * @source [ISO6846], rounding from memory
 * @example
 * isoRangeRounded(1.12); // => 110
 */
export function isoRangeRounded(exposureScale: number): number {
  // A billionth first: 100 * 1.15 is 114.99999999999999.
  return 10 * Math.round(Math.round(1e9 * isoRange(exposureScale)) / 1e10);
}

/**
 * ISO paper speed, unrounded.
 *
 * @param exposureLuxSeconds - exposure for net density 0.60, lux-seconds, > 0
 * @returns P = 1000 / H_m
 * @throws OutOfDomainError if the exposure is not above zero
 * @source [ISO6846]
 * @example
 * isoPaperSpeed(10); // => 100
 */
export function isoPaperSpeed(exposureLuxSeconds: number): number {
  if (!(exposureLuxSeconds > 0 && exposureLuxSeconds < Infinity)) {
    throw new OutOfDomainError('isoPaperSpeed', 'exposureLuxSeconds', exposureLuxSeconds, [
      0,
      Infinity,
    ]);
  }
  return 1000 / exposureLuxSeconds;
}

/**
 * ISO paper speed rounded to the series.
 *
 * @param speed - exact P, > 0
 * @returns the nearest member of the series in log10, or null beyond the series' ends (1 to 1000)
 * @throws InvalidArgumentError if `speed` is not a positive number
 * @source [ISO6846], series from memory
 * @example
 * isoPaperSpeedRounded(139.99); // => 125
 */
export function isoPaperSpeedRounded(speed: number): number | null {
  if (!(speed > 0 && speed < Infinity)) {
    throw new InvalidArgumentError('isoPaperSpeedRounded', 'speed', speed, 'a number above zero');
  }
  return ISO_PAPER_SPEEDS[Math.round(10 * Math.log10(speed))] ?? null;
}
