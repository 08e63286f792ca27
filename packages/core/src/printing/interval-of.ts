/**
 * Intervals of estimates, and seconds from the logarithm of seconds.
 *
 *   value ± z s,  z = 1.96 for 95 %
 *   t = 10^x,  s_t = ln 10 t s_x,  interval 10^(x ± z s_x)
 *
 * Sources: [Seber2003] section 5.1, the delta method. Deviations: the normal quantile, since several
 * sets of readings with degrees of freedom of their own come together.
 */
import { NORMAL_95, type Estimate } from '../estimate.ts';

/** Limits of 95 %; null without a standard error. */
export type Limits = readonly [number, number] | null;

/** An estimate with its interval of 95 %. */
export interface Bounded extends Estimate {
  readonly interval: Limits;
}

/**
 * An estimate with its interval of 95 %.
 *
 * @example
 * bounded({ value: 2, standardError: null }).interval; // => null
 */
export function bounded({ value, standardError }: Estimate): Bounded {
  return {
    value,
    standardError,
    interval:
      standardError === null
        ? null
        : [value - NORMAL_95 * standardError, value + NORMAL_95 * standardError],
  };
}

/**
 * Seconds from log10 seconds.
 *
 * @param logSeconds - log10 of seconds with its error
 * @returns seconds; the interval is even in stops, not in seconds
 * @example
 * secondsFromLog({ value: 1, standardError: null }).value; // => 10
 */
export function secondsFromLog(logSeconds: Estimate): Bounded {
  const { value, interval } = bounded(logSeconds);
  const seconds = 10 ** value;
  const { standardError } = logSeconds;
  return {
    value: seconds,
    standardError: standardError === null ? null : Math.LN10 * seconds * standardError,
    interval: interval && [10 ** interval[0], 10 ** interval[1]],
  };
}
