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
