/**
 * Density by a light meter in place of a densitometer: one reading of the open light and one through
 * the sample, and the error that the meter's step leaves.
 *
 *   exposure values (stops of a spot meter)   D = log10(2) (base - reading)
 *   illuminance, lux on a light table         D = log10(base / reading)
 *   matching times of an enlarger meter, s    D = log10(reading / base)
 *   error   each reading lies anywhere within half a step: variance step^2 / 12, by the delta method
 *
 * Sources: [ISO5] part 1 for the definition of density; the variance of a rounded number is derived.
 * Deviations: the meter is taken as linear, and flare round the sample is left out.
 */
import { InvalidArgumentError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';
import { LOG_STOP } from './units.ts';

/** What a meter shows. */
export type MeterScale = 'exposure-value' | 'lux' | 'seconds';

/** The open light, and how finely the meter shows. */
export interface MeterBase {
  /** Reading without the sample, in the unit of the scale. */
  readonly base: number;
  /** Least change that the meter shows, in the unit of the scale; 0 where it is not known. */
  readonly step: number;
}

/**
 * Density of a sample from a meter's reading through it.
 *
 * @param reading - with the sample: exposure value, lux or seconds; above 0 for the last two
 * @returns density; its standard error is that of rounding to the meter's step, null where the step
 *   is 0
 * @throws InvalidArgumentError if a number is not finite, or lux or seconds are not above 0
 * @source [ISO5] part 1
 * @example
 * meteredDensity('lux', 100, { base: 1000, step: 0 }).value; // => 1
 */
export function meteredDensity(
  scale: MeterScale,
  reading: number,
  { base, step }: MeterBase,
): Estimate {
  const name = 'meteredDensity';
  const good = (value: number): boolean =>
    Number.isFinite(value) && (scale === 'exposure-value' || value > 0);
  if (!good(reading)) throw new InvalidArgumentError(name, 'reading', reading, expected(scale));
  if (!good(base)) throw new InvalidArgumentError(name, 'base', base, expected(scale));
  if (!(step >= 0 && step < Infinity)) {
    throw new InvalidArgumentError(name, 'step', step, 'zero or more');
  }
  // A number rounded to a step is off by an even chance within half a step either way.
  const rounding = step / Math.sqrt(12);
  if (scale === 'exposure-value') {
    return withError(LOG_STOP * (base - reading), LOG_STOP * Math.SQRT2 * rounding);
  }
  const ratio = Math.log10(base / reading);
  return withError(
    (scale === 'lux' ? ratio : -ratio) || 0,
    (rounding / Math.LN10) * Math.hypot(1 / reading, 1 / base),
  );
}

/**
 * What a meter shows through a sample of a density: the inverse of `meteredDensity`.
 *
 * @throws InvalidArgumentError if a number is not finite, or a base of lux or seconds not above 0
 * @example
 * meterReadingOf('seconds', 1, 10); // => 100
 */
export function meterReadingOf(scale: MeterScale, density: number, base: number): number {
  if (!Number.isFinite(density)) {
    throw new InvalidArgumentError('meterReadingOf', 'density', density, 'a finite number');
  }
  if (!(Number.isFinite(base) && (scale === 'exposure-value' || base > 0))) {
    throw new InvalidArgumentError('meterReadingOf', 'base', base, expected(scale));
  }
  if (scale === 'exposure-value') return base - density / LOG_STOP;
  return base * 10 ** (scale === 'lux' ? -density : density);
}

function expected(scale: MeterScale): string {
  return scale === 'exposure-value' ? 'a finite number' : 'a finite number above 0';
}

function withError(value: number, error: number): Estimate {
  return { value, standardError: error > 0 ? error : null };
}
