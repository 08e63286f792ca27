/**
 * Reads what a person types into a cell: decimal point or comma, a typographic minus, a unit sign
 * where the unit allows it. What cannot be read is told in one sentence and left as typed.
 */
import {
  DENSITY_LIMITS,
  densityFromStops,
  densityFromTransmittance,
  meteredDensity,
  meterReadingOf,
  stopsFromDensity,
  transmittanceFromDensity,
  type MeterScale,
} from '@wedgebook/core';
import type { ReadingUnit, Session } from '../state/app.ts';
import { text } from '../text.ts';

export type CellReading =
  | { readonly status: 'empty' }
  | { readonly status: 'read'; readonly value: number }
  | { readonly status: 'wrong'; readonly sentence: string };

/** Marks that stand for "not read" in many tables. */
const BLANKS = new Set(['', '-', '–', '—', '.', '*', 'n/a', 'na', 'nan', 'x']);
const NUMBER = /^[+-]?(\d+([.,]\d*)?|[.,]\d+)(e[+-]?\d+)?$/i;

/** A plain number with decimal point or comma. */
export function parseNumber(typed: string): CellReading {
  const trimmed = typed
    .trim()
    .replace(/[−‒–](?=[\d.,])/u, '-')
    .replace(/\s/gu, '');
  if (BLANKS.has(trimmed.toLowerCase())) return { status: 'empty' };
  const value = NUMBER.test(trimmed) ? Number(trimmed.replace(',', '.')) : Number.NaN;
  // 1e999 has the form of a number and is none.
  return Number.isFinite(value)
    ? { status: 'read', value }
    : { status: 'wrong', sentence: text.wrong.notANumber(typed.trim()) };
}

/**
 * A reading in the worksheet's unit, as a density.
 *
 * @param typed - what stands in the cell
 * @param unit - unit of the worksheet; transmittance takes 0.5 and 50 %
 * @param base - a meter's reading of the open light; of use for the units of meters alone
 */
export function parseReading(
  typed: string,
  unit: ReadingUnit,
  base: number | null = null,
): CellReading {
  const percent = unit === 'transmittance' && /%\s*$/.test(typed);
  const number = parseNumber(percent ? typed.replace(/%\s*$/, '') : typed);
  if (number.status !== 'read') return number;
  const value = percent ? number.value / 100 : number.value;
  if (unit === 'transmittance' && !(value > 0 && value <= 10 ** -DENSITY_LIMITS.lowest)) {
    return { status: 'wrong', sentence: text.wrong.transmittance(typed.trim()) };
  }
  if (isMeterScale(unit)) {
    if (base === null) return { status: 'wrong', sentence: text.wrong.meterBase };
    if (unit !== 'exposure-value' && !(value > 0)) {
      return { status: 'wrong', sentence: text.wrong.meterReading(typed.trim()) };
    }
  }
  const density = densityOf(value, unit, base);
  if (!(density >= DENSITY_LIMITS.lowest && density <= DENSITY_LIMITS.highest)) {
    return { status: 'wrong', sentence: text.wrong.density(typed.trim(), DENSITY_LIMITS) };
  }
  return { status: 'read', value: density };
}

/** Whether a unit is what a light meter shows, which needs a reading of the open light. */
export function isMeterScale(unit: ReadingUnit): unit is MeterScale {
  return unit === 'exposure-value' || unit === 'lux' || unit === 'seconds';
}

/** The open light of the meter in use; null where no meter is, or it was not read. */
export function baseOf({ unit, meters }: Pick<Session, 'unit' | 'meters'>): number | null {
  return isMeterScale(unit) ? meters[unit].base : null;
}

function densityOf(value: number, unit: ReadingUnit, base: number | null): number {
  if (unit === 'density') return value;
  if (unit === 'transmittance') return densityOfTransmittance(value);
  if (unit === 'stops' || base === null) return densityFromStops(value);
  return meteredDensity(unit, value, { base, step: 0 }).value;
}

/** A little more light than the empty path, within the limits, is a slightly negative density. */
function densityOfTransmittance(transmittance: number): number {
  return transmittance > 1 ? -Math.log10(transmittance) : densityFromTransmittance(transmittance);
}

/** A density as the worksheet shows it in a unit. */
export function formatReading(
  density: number,
  unit: ReadingUnit,
  base: number | null = null,
): string {
  if (isMeterScale(unit)) {
    if (base === null) return '';
    const reading = meterReadingOf(unit, density, base);
    return unit === 'exposure-value'
      ? shortest(reading, 1, 3)
      : String(Number(reading.toPrecision(5)));
  }
  if (unit === 'density') return shortest(density, 2, 4);
  if (unit === 'transmittance')
    return String(Number(transmittanceFromDensity(density).toPrecision(5)));
  return shortest(stopsFromDensity(density), 2, 3);
}

/** A number with at least `least` and at most `most` decimals, with a true minus sign. */
export function shortest(value: number, least: number, most: number): string {
  let digits = value.toFixed(most);
  while (decimals(digits) > least && digits.endsWith('0')) digits = digits.slice(0, -1);
  return (digits.endsWith('.') ? digits.slice(0, -1) : digits).replace('-', '−');
}

const decimals = (digits: string): number =>
  digits.includes('.') ? digits.length - 1 - digits.indexOf('.') : 0;
