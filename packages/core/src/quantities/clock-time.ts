/**
 * Minutes as a clock shows them.
 */
import { InvalidArgumentError } from '../errors.ts';

/**
 * Minutes:seconds of a time, to the nearest second.
 *
 * @param minutes - zero or more
 * @returns such as `6:30`
 * @throws InvalidArgumentError if `minutes` is negative or not finite
 * @example
 * clockTime(6.5); // => '6:30'
 */
export function clockTime(minutes: number): string {
  if (!(minutes >= 0 && minutes < 1e6)) {
    throw new InvalidArgumentError('clockTime', 'minutes', minutes, 'zero or more');
  }
  const seconds = Math.round(60 * minutes);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}
