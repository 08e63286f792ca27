/**
 * Minutes as a clock shows them.
 */
import { InvalidArgumentError } from './errors.ts';

/**
 * Minutes:seconds of a time.
 *
 * @param minutes - zero or more
 * @param stepSeconds - what the seconds are rounded to; 1 unless given
 * @returns such as `6:30`
 * @throws InvalidArgumentError if `minutes` is negative or not finite, or the step no part of a minute
 * @example
 * clockTime(6.5); // => '6:30'
 */
export function clockTime(minutes: number, stepSeconds = 1): string {
  if (!(minutes >= 0 && minutes < 1e6)) {
    throw new InvalidArgumentError('clockTime', 'minutes', minutes, 'zero or more');
  }
  if (!(stepSeconds >= 1 && 60 % stepSeconds === 0)) {
    throw new InvalidArgumentError('clockTime', 'stepSeconds', stepSeconds, 'a part of a minute');
  }
  const seconds = Math.round((60 * minutes) / stepSeconds) * stepSeconds;
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}
