/** What is left in the working baths of a notebook. */
import { bathCapacity, InvalidArgumentError, type BathCapacity } from '@wedgebook/core';
import type { WorkingBath } from '@wedgebook/notebook';
import { fixed } from './figures.ts';
import { BATHS } from './treat-words.ts';
import { wrapped } from './wrapped.ts';

export interface ShownBath {
  readonly bath: WorkingBath;
  /** Null where a figure of the log is senseless. */
  readonly capacity: BathCapacity | null;
}

/** @param exponent - n of c^n t, by the model in use */
export function shownBaths(baths: readonly WorkingBath[], exponent: number): ShownBath[] {
  return baths.map((bath) => ({ bath, capacity: capacityOf(bath, exponent) }));
}

function capacityOf(bath: WorkingBath, exponent: number): BathCapacity | null {
  try {
    return bathCapacity(bath, exponent);
  } catch (error) {
    if (error instanceof InvalidArgumentError) return null;
    throw error;
  }
}

const ends = ([low, usual, high]: readonly [number, number, number]) => ({
  value: usual,
  range: [Math.min(low, high), Math.max(low, high)].map(finite),
});
/** JSON has no Infinity: a bath with nothing left takes no number of minutes. */
const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);

export function bathsJson(baths: readonly ShownBath[]): object[] {
  return baths.map(({ bath, capacity }) => ({
    name: bath.name,
    mixedOn: bath.mixedOn,
    volumeMillilitres: bath.volumeMillilitres,
    partsWater: bath.partsWater,
    films: bath.films.length,
    seleniumTakenGrams: capacity === null ? null : ends(capacity.used.seleniumGrams),
    seleniumMixedGrams: capacity?.mixedGrams ?? null,
    left: capacity?.left ? ends(capacity.left) : null,
    minutesFactor:
      capacity?.slower && Number.isFinite(capacity.slower[1]) ? ends(capacity.slower) : null,
  }));
}

export function bathsText(baths: readonly ShownBath[]): string {
  if (baths.length === 0) return '';
  const lines = baths.map(({ bath, capacity }) => `  ${bath.name}: ${saying(capacity)}\n`);
  return `${BATHS.title}\n${lines.join('')}${wrapped(BATHS.assumptions, 96, '  ')}`;
}

function saying(capacity: BathCapacity | null): string {
  if (capacity === null) return BATHS.senseless;
  const { used, left, mixedGrams, slower } = capacity;
  const taken = BATHS.taken(fixed(used.seleniumGrams[1], 3));
  if (left === null || mixedGrams === null || slower === null) return `${taken}; ${BATHS.unknown}`;
  const percent = (part: number): string => fixed(100 * part, 1);
  const rest = BATHS.left(percent(left[1]), percent(left[2]), percent(left[0]));
  return Number.isFinite(slower[1])
    ? `${taken}; ${rest}, ${BATHS.slower(fixed(slower[1], 2))}`
    : `${taken}; ${BATHS.spent}`;
}
