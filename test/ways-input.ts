/** A flat negative and everything its ways out are reckoned from, for the tests of the ways. */
import { defaultTreatment, type WayId, type WayOut, type WaysInput } from '@wedgebook/core';
import {
  ansiGradeTable,
  builtInSplit,
  processDefaults,
  seleniumDefaults,
} from './selenium-bath.ts';

/** Printing range 0.74, two grades too short for the grade 3 that is wanted. */
export const WAYS_INPUT: WaysInput = {
  model: defaultTreatment(seleniumDefaults),
  negative: { shadow: 0.15, highlight: 0.89 },
  target: { grade: 3 },
  bath: { partsWater: 1, celsius: 20 },
  options: { gradeTable: ansiGradeTable },
  defaults: processDefaults,
  split: builtInSplit,
};

/** The way of an id, which must be there. */
export function wayFrom(ways: readonly WayOut[], id: WayId): WayOut {
  const found = ways.find((each) => each.id === id);
  if (found === undefined) throw new Error(`no way ${id}`);
  return found;
}
