/** Numbers as a reader wants them: with their error, to the decimals that mean something. */
import { clockTime, NORMAL_95, roundedToError, type Estimate } from '@wedgebook/core';

/** @returns such as `0.612 ± 0.008`; without an error the number alone */
export function estimateText(estimate: Estimate | null | undefined, decimals = 3): string {
  if (estimate === null || estimate === undefined) return '-';
  const { value, standardError } = estimate;
  const text = fixed(value, decimals);
  if (standardError === null) return text;
  const least = 10 ** -decimals;
  const error =
    standardError < least / 2 ? `<${least.toFixed(decimals)}` : fixed(standardError, decimals);
  return `${text} ± ${error}`;
}

/**
 * A speed, which may have five digits before the point: to those that its error leaves a meaning
 * in, with at most one decimal.
 */
export function speedText(estimate: Estimate | null | undefined): string {
  if (estimate === null || estimate === undefined) return '-';
  const { decimals, ...rounded } = roundedToError(estimate, 1);
  return estimateText(rounded, decimals);
}

/** Fixed decimals, never `-0.00`; a dash for nothing. */
export function fixed(value: number | null | undefined, decimals: number): string {
  if (value === null || value === undefined) return '-';
  const text = value.toFixed(decimals);
  return text.startsWith('-') && Number(text) === 0 ? text.slice(1) : text;
}

/** To so many significant digits, without an exponent where it can be helped. */
export function significant(value: number | null, digits = 6): string {
  return value === null ? '-' : String(Number(value.toPrecision(digits)));
}

/** Minutes as on a timer: `6.5 min (6:30)`. */
export function minutesText(minutes: number): string {
  return `${fixed(minutes, 2)} min (${clockTime(minutes)})`;
}

/** The 95 % interval of a time, never below zero; null without an error. */
export function intervalOf({ value, standardError }: Estimate): readonly [number, number] | null {
  if (standardError === null) return null;
  const half = NORMAL_95 * standardError;
  return [Math.max(0, value - half), value + half];
}

/** Such as `1.25` or `1.25 ± 0.03`. */
export function callierText(light: {
  readonly callierFactor: number;
  readonly callierFactorError: number | null;
}): string {
  const { callierFactor, callierFactorError } = light;
  return callierFactorError === null
    ? String(callierFactor)
    : `${callierFactor} ± ${callierFactorError}`;
}
