/** Turns of phrase that several stations share. */
import { formatMinutes, formatNumber } from '@wedgebook/charts';
import type { GradesWithin, PaperGrade } from '@wedgebook/core';
import { MODELLED_PROCESS, type Treatment } from '@wedgebook/notebook';

export function plural(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** One decimal at most. */
export function trimmed(value: number): string {
  return formatNumber(value, 1).replace(/\.0$/, '');
}

export function capital(sentence: string): string {
  return sentence.charAt(0).toUpperCase() + sentence.slice(1);
}

export function gradeShort({ band, outside }: PaperGrade): string {
  if (band !== null) return `grade ${band}`;
  return outside === 'softer' ? 'softer than any' : 'harder than any';
}

export function gradeDetail({ continuous, outside }: PaperGrade, within: GradesWithin): string {
  if (continuous !== null) {
    const error = within === null ? '' : `; its error allows ${gradesBetween(within)} (95 %)`;
    return `${formatNumber(continuous, 1)} on the table’s scale${error}`;
  }
  return outside === 'softer'
    ? 'the range is longer than any grade of the table'
    : 'the range is shorter than any grade of the table';
}

/** Such as `1.6 to 2.1`. */
export function gradesBetween(within: NonNullable<GradesWithin>): string {
  const [softest, hardest] = within.map(({ continuous, outside }) => {
    if (continuous !== null) return formatNumber(continuous, 1);
    return outside === 'softer' ? 'softer than any' : 'harder than any';
  });
  return softest === hardest ? (softest ?? '') : `${softest ?? ''} to ${hardest ?? ''}`;
}

export function gradeLong(grade: PaperGrade): string {
  return grade.continuous === null
    ? gradeShort(grade)
    : `${gradeShort(grade)} (${formatNumber(grade.continuous, 1)})`;
}

/** Dilution, minutes and temperature, as far as they are known. */
export function bath(partsWater: number | null, minutes: number | null, celsius: number): string {
  return [
    ...(partsWater === null ? [] : [`1+${trimmed(partsWater)}`]),
    ...(minutes === null ? [] : [formatMinutes(minutes)]),
    `${trimmed(celsius)} °C`,
  ].join(', ');
}

/** What was done to a treated strip. */
export function treated({ process, partsWater, minutes, celsius }: Treatment): string {
  const what = process === MODELLED_PROCESS ? 'toned' : process.trim() || 'treated';
  return `${what} ${bath(partsWater, minutes, celsius)}`;
}
