/**
 * A measured number to the digits that its standard error leaves a meaning in.
 *
 *   place of the last digit p = 10^(floor(log10 u) - 1),  u the error to two significant digits
 *
 * Sources: [JCGM100] section 7.2.6, at most two significant digits of an uncertainty and the number
 * to the same place. Deviations: never more decimals than the caller wants; without an error three
 * significant digits.
 */
import { InvalidArgumentError } from './errors.ts';
import type { Estimate } from './estimate.ts';

/** A number and its error, rounded, with the decimals to write both with. */
export interface RoundedToError extends Estimate {
  readonly decimals: number;
}

/**
 * Rounds a number and its standard error to the last digit that means something.
 *
 * @param estimate - the number, finite, with its error, zero or more, or null
 * @param mostDecimals - decimals that are never exceeded, 0 to 15
 * @returns both rounded, and the decimals to write them with, zero where tens or more are rounded
 * @throws InvalidArgumentError if the number or the error is not finite
 * @example
 * roundedToError({ value: 3618.9, standardError: 240.8 }, 1); // => { value: 3620, standardError: 240, decimals: 0 }
 * roundedToError({ value: 43.36, standardError: 2.207 }, 1); // => { value: 43.4, standardError: 2.2, decimals: 1 }
 */
export function roundedToError(
  { value, standardError }: Estimate,
  mostDecimals: number,
): RoundedToError {
  const error = standardError ?? 0;
  if (!Number.isFinite(value) || !(error >= 0 && error < Infinity)) {
    const received = [value, standardError];
    throw new InvalidArgumentError('roundedToError', 'estimate', received, 'finite numbers');
  }
  const digits = standardError === null ? lastDigit(value, 3) : lastDigit(error, 2);
  const decimals = Math.min(digits, mostDecimals);
  return {
    value: roundedAt(value, decimals),
    standardError: standardError === null ? null : roundedAt(error, decimals),
    decimals: Math.max(0, decimals),
  };
}

/** Decimal place of the last of so many significant digits; negative left of the point. */
function lastDigit(value: number, digits: number): number {
  if (value === 0) return Infinity;
  const exponent = Number(value.toExponential(digits - 1).split('e')[1]);
  return digits - 1 - exponent;
}

/** By the decimal digits, as the last binary digits of a product with a power of ten would tell. */
function roundedAt(value: number, decimals: number): number {
  if (decimals >= 0) return Number(value.toFixed(Math.min(decimals, 100)));
  const unit = 10 ** -decimals;
  return Math.round(value / unit) * unit;
}
