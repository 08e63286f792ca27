/**
 * A number that comes from readings, with its standard error.
 */

/** A measured number. `standardError` is null where it is exact or cannot be known. */
export interface Estimate {
  readonly value: number;
  readonly standardError: number | null;
}

/** An exact or unattended number as an estimate. */
export function exactly(value: number): Estimate {
  return { value, standardError: null };
}

/** Normal quantile of a two-sided interval of 95 %. */
export const NORMAL_95 = 1.959964;

/**
 * Root of the sum of squares of the errors that are known; null where none is.
 *
 * @example
 * combinedError(0.03, null, 0.04); // => 0.05
 */
export function combinedError(...errors: readonly (number | null)[]): number | null {
  const known = errors.filter((error) => error !== null);
  return known.length === 0 ? null : Math.hypot(...known);
}
