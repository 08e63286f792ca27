/**
 * How far the development that a strip had differs from the one that was written down.
 *
 *   δ ~ N(0, ω²) on ln time;   s_total² = s² + (d y / d ln t · ω)²   for what is read at a stated time
 *
 * ω stands for clock, thermometer, agitation, filling and draining together, all of which act as if
 * the time had been a little longer or shorter.
 *
 * Sources: the propagation is the delta method [Seber2003] section 5.1; 1.5 % is the project's own
 * assumption, as for the surface of a film, which learns ω from whole strips. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';

/** ω where nothing better is known. */
export const ASSUMED_TIMING_DEVIATION = 0.015;

/**
 * Error of something read on a strip, its timing included.
 *
 * @param error - of the reading alone
 * @param byLogMinutes - slope of what was read by ln time
 * @param timingDeviation - ω
 */
export function withTiming(error: number, byLogMinutes: number, timingDeviation: number): number {
  return Math.hypot(error, byLogMinutes * timingDeviation);
}

/** @throws InvalidArgumentError if a deviation is not from 0 to 0.5 */
export function checkedTiming(functionName: string, timingDeviation: number): number {
  if (!(timingDeviation >= 0 && timingDeviation <= 0.5)) {
    throw new InvalidArgumentError(
      functionName,
      'timingDeviation',
      timingDeviation,
      'from 0 to 0.5',
    );
  }
  return timingDeviation;
}
