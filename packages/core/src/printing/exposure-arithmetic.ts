/**
 * Exposure arithmetic at the enlarger.
 *
 *   same print density under another negative density   t2 = t1 10^(D2 - D1)
 *   stops                                               t2 = t1 2^s
 *   magnification m (image over negative)               t2 = t1 ((m2 + 1) / (m1 + 1))²
 *   test strip in equal stops                           t_i = t_0 2^(i s)
 *
 * Sources: [CLERC] for the first; the others follow from the inverse-square law and from what a
 * stop is (derived). Deviations: reciprocity failure of paper is left out.
 */
import { InvalidArgumentError } from '../errors.ts';
import { LOG_STOP } from '../readings/index.ts';

/**
 * Time that gives the same print density where the negative is denser.
 *
 * @param seconds - time that serves the first density, seconds, > 0
 * @param fromDensity - printing density that it serves
 * @param toDensity - printing density to be served
 * @returns seconds
 * @throws InvalidArgumentError if a value is not finite or the time not positive
 * @source [CLERC]
 * @example
 * timeForDensity(10, 1, 2); // => 100
 */
export function timeForDensity(seconds: number, fromDensity: number, toDensity: number): number {
  positive('timeForDensity', 'seconds', seconds);
  finite('timeForDensity', 'fromDensity', fromDensity);
  finite('timeForDensity', 'toDensity', toDensity);
  return seconds * 10 ** (toDensity - fromDensity);
}

/**
 * Time after a change in stops.
 *
 * @param seconds - seconds, > 0
 * @param stops - more (+) or less (-) light, stops
 * @returns seconds
 * @throws InvalidArgumentError if a value is not finite or the time not positive
 * @example
 * timeInStops(10, 1); // => 20
 */
export function timeInStops(seconds: number, stops: number): number {
  positive('timeInStops', 'seconds', seconds);
  return seconds * 2 ** finite('timeInStops', 'stops', stops);
}

/**
 * Difference of two times in stops.
 *
 * @param fromSeconds - seconds, > 0
 * @param toSeconds - seconds, > 0
 * @returns stops, positive where the second is longer
 * @throws InvalidArgumentError if a time is not positive
 * @example
 * stopsBetween(10, 40); // => 2
 */
export function stopsBetween(fromSeconds: number, toSeconds: number): number {
  positive('stopsBetween', 'fromSeconds', fromSeconds);
  positive('stopsBetween', 'toSeconds', toSeconds);
  return Math.log2(toSeconds / fromSeconds);
}

/**
 * Time after a change of magnification at the same aperture.
 *
 * @param seconds - seconds at the first magnification, > 0
 * @param from - first magnification, image length over negative length, > 0
 * @param to - second magnification, > 0
 * @returns seconds
 * @throws InvalidArgumentError if a value is not positive
 * @example
 * timeForMagnification(9, 2, 5); // => 36
 */
export function timeForMagnification(seconds: number, from: number, to: number): number {
  positive('timeForMagnification', 'seconds', seconds);
  positive('timeForMagnification', 'from', from);
  positive('timeForMagnification', 'to', to);
  return seconds * ((to + 1) / (from + 1)) ** 2;
}

/** One patch of a test strip. */
export interface TestStripPatch {
  /** Whole exposure of the patch, seconds. */
  readonly totalSeconds: number;
  /** Time to add after the patch before it was covered, seconds. */
  readonly additionalSeconds: number;
}

/**
 * Times of a test strip in equal stops: every patch differs from the next by the same factor.
 *
 * @param firstSeconds - exposure of the lightest patch, seconds, > 0
 * @param stops - stops from patch to patch, > 0
 * @param patches - how many, an integer from 2 to 30
 * @returns patches from the lightest to the darkest
 * @throws InvalidArgumentError if an argument is out of range
 */
export function testStrip(firstSeconds: number, stops: number, patches: number): TestStripPatch[] {
  positive('testStrip', 'firstSeconds', firstSeconds);
  positive('testStrip', 'stops', stops);
  if (!(Number.isInteger(patches) && patches >= 2 && patches <= 30)) {
    throw new InvalidArgumentError('testStrip', 'patches', patches, 'an integer from 2 to 30');
  }
  let before = 0;
  return Array.from({ length: patches }, (_, i) => {
    const totalSeconds = firstSeconds * 2 ** (i * stops);
    const patch = { totalSeconds, additionalSeconds: totalSeconds - before };
    before = totalSeconds;
    return patch;
  });
}

/**
 * Change of printing exposure that keeps the highlight of a negative where it was after a bath has
 * made it denser.
 *
 * @param before - printing density of the highlight before, above base + fog
 * @param after - printing density after
 * @returns stops, positive for more exposure
 * @throws InvalidArgumentError if a density is not finite
 * @example
 * highlightExposureChange(1, 1.30103); // => 1.0000000000000002
 */
export function highlightExposureChange(before: number, after: number): number {
  finite('highlightExposureChange', 'before', before);
  finite('highlightExposureChange', 'after', after);
  return (after - before) / LOG_STOP;
}

function positive(functionName: string, argument: string, value: number): number {
  if (!(value > 0 && value < Infinity)) {
    throw new InvalidArgumentError(functionName, argument, value, 'a number above zero');
  }
  return value;
}

function finite(functionName: string, argument: string, value: number): number {
  if (!Number.isFinite(value)) {
    throw new InvalidArgumentError(functionName, argument, value, 'a finite number');
  }
  return value;
}
