/**
 * Numbers as a reader expects them: a fixed count of decimals, a true minus sign, the unit beside.
 */
import { clockTime } from '@wedgebook/core';
import { format } from 'd3';

const cache = new Map<string, (value: number) => string>();

/** Fixed decimals with a true minus sign; never a negative zero. */
export function formatNumber(value: number, decimals: number): string {
  if (!Number.isFinite(value)) return '–';
  const specifier = `.${decimals}f`;
  const formatter = cache.get(specifier) ?? format(specifier);
  cache.set(specifier, formatter);
  const text = formatter(value);
  return /^−0(\.0*)?$/.test(text) ? text.slice(1) : text;
}

/** Fixed decimals with the sign always shown. */
export function formatSigned(value: number, decimals: number): string {
  const text = formatNumber(value, decimals);
  return text.startsWith('−') || Number(text) === 0 ? text : `+${text}`;
}

/** log10 units as camera stops: one stop is log10 2. */
export const STOP = Math.log10(2);

/** A log exposure difference in stops, to one decimal, with the unit. */
export function formatStops(logUnits: number): string {
  const text = formatNumber(logUnits / STOP, 1);
  return `${text} ${text === '1.0' ? 'stop' : 'stops'}`;
}

/** Minutes for a chart or a sentence: at most one decimal under 100. */
export function formatMinutes(minutes: number): string {
  const text = formatNumber(minutes, minutes < 100 ? 1 : 0);
  return `${text.replace(/\.0$/, '')} min`;
}

/**
 * Minutes as a clock has them, such as `6:35 min`, to the nearest five seconds.
 *
 * @param stepSeconds - what the seconds are rounded to
 */
export function formatClock(minutes: number, stepSeconds = 5): string {
  return minutes >= 0 && minutes < 1e6 ? `${clockTime(minutes, stepSeconds)} min` : '–';
}
