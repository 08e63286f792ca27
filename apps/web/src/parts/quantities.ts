/**
 * Quantities as people type them, with units. The part of core that knows units is large and is
 * loaded only when somebody types one.
 */
import type { MixingSheet } from '@wedgebook/core/quantities';
import { text } from '../text.ts';

/** What reads units could not be fetched: no word on the entry itself. */
export class ReaderMissingError extends Error {
  override readonly name = 'ReaderMissingError';
}

const quantities = () =>
  import('@wedgebook/core/quantities').catch((cause: unknown) => {
    throw new ReaderMissingError('what reads units could not be fetched', { cause });
  });

/** What a field of some unit takes besides a plain number. */
export interface QuantityReader {
  /** @returns the number in the field's unit; rejects what is no such quantity */
  readonly read: (typed: string) => Promise<number>;
  /** What may be typed, in a sentence. */
  readonly hint: string;
}

const READERS: Readonly<Record<string, QuantityReader>> = {
  '°C': {
    read: async (typed) => (await quantities()).parseTemperature(typed, 'degC'),
    hint: text.field.hints.celsius,
  },
  min: {
    read: async (typed) => (await quantities()).parseTime(typed, 'min') / 60,
    hint: text.field.hints.minutes,
  },
  s: {
    read: async (typed) => (await quantities()).parseTime(typed, 's'),
    hint: text.field.hints.seconds,
  },
  ml: {
    read: async (typed) => (await quantities()).parseVolume(typed, 'ml'),
    hint: text.field.hints.millilitres,
  },
  '1+': {
    read: async (typed) => (await quantities()).parseDilution(typed),
    hint: text.field.hints.dilution,
  },
  stops: {
    read: (typed) => Promise.resolve().then(() => stopsFrom(typed)),
    hint: text.field.hints.stops,
  },
};

/** By the unit after the field, or what leads it; null where a plain number is all there is. */
export function readerOf(unit: string, lead: string): QuantityReader | null {
  // A unit may go on with a remark: "min at 20 °C".
  const [name = ''] = unit.split(/[\s,(]/);
  return READERS[lead] ?? READERS[name] ?? null;
}

/** Stops as photographers write them: `1/3`, `-2/3`, `1 1/3`. */
function stopsFrom(typed: string): number {
  const parts = /^([+\-−]?)(?:(\d+)\s+)?(\d+)\/(\d+)$/.exec(typed.trim());
  if (parts === null || Number(parts[4]) === 0) throw new RangeError(text.field.hints.stops);
  const [, sign = '', whole = '0', above, below] = parts;
  const size = Number(whole) + Number(above) / Number(below);
  return sign === '' || sign === '+' ? size : -size;
}

/** Mixing sheet for a volume such as `1 l`, `250 ml`, `16 floz`. */
export async function mixingFromTyped(typed: string, partsWater: number): Promise<MixingSheet> {
  const { mixingSheet, parseVolume } = await quantities();
  return mixingSheet(parseVolume(typed, 'ml'), partsWater);
}
