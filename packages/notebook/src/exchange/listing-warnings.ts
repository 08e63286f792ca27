/**
 * What is odd about the way in which a file lists a strip: reversed order, unread steps, the same
 * strip listed again with other steps, unexposed readings denser than exposed ones.
 */
import { warning, type Warning } from '@wedgebook/core';
import { placesOf } from '../wording/places-of.ts';
import type { ReadingsStrip, StepReading } from './readings-strip.ts';

/** An unexposed reading this much above the lightest step is no scatter of the instrument. */
const NOTABLE_EXCESS = 0.1;

export function listingWarnings(strip: Omit<ReadingsStrip, 'warnings'>): Warning[] {
  const { name, readings, unexposedDensities, unread } = strip;
  const warnings: Warning[] = [];
  if (runsBackwards(readings)) warnings.push(warning('readings-reversed', { strip: name }));
  if (unread > 0) {
    const rows = readings.flatMap(({ density, row }) => (density === null ? [row] : []));
    // Rows without step and exposure are counted, but hold no place among the readings.
    const places = rows.length === unread ? placesOf('rows', rows) : {};
    warnings.push(warning('steps-unread', { count: unread, strip: name, ...places }));
  }
  if (stepSetsConflict(readings)) warnings.push(warning('step-sets-conflict', { strip: name }));
  const densest = unexposedDensities.reduce((most, density) => Math.max(most, density), -Infinity);
  const lowest = readings.reduce(
    (least, { density }) => (density === null ? least : Math.min(least, density)),
    Infinity,
  );
  if (Number.isFinite(lowest) && densest > lowest + NOTABLE_EXCESS) {
    warnings.push(warning('unexposed-denser', { density: densest, lowest }));
  }
  return warnings;
}

/** Step numbers count from the first row; without them, log exposures or tablet densities rise. */
function runsBackwards(readings: readonly StepReading[]): boolean {
  const order = (value: (reading: StepReading) => number | null): number => {
    let rises = 0;
    let falls = 0;
    let before: number | null = null;
    for (const reading of readings) {
      const now = value(reading);
      if (now !== null && before !== null && now > before) rises += 1;
      if (now !== null && before !== null && now < before) falls += 1;
      before = now ?? before;
    }
    // Replicates listed as whole strips fall back once at each new start: count, do not insist.
    return Math.sign(rises - falls);
  };
  const bySteps = order(({ step }) => step);
  if (bySteps !== 0) return bySteps < 0;
  const byExposures = order(({ logExposure }) => logExposure);
  if (byExposures !== 0) return byExposures < 0;
  return order(({ tabletDensity }) => tabletDensity) < 0;
}

/**
 * Whether the strip is listed more than once with different steps, or one step number stands for
 * different exposures. A listing ends where a step comes back after others.
 */
function stepSetsConflict(readings: readonly StepReading[]): boolean {
  const exposureOfStep = new Map<number, number>();
  const listings: Set<number>[] = [new Set()];
  let before: number | null = null;
  for (const { step, logExposure, tabletDensity } of readings) {
    const exposure = logExposure ?? (tabletDensity === null ? null : -tabletDensity);
    if (step !== null && exposure !== null) {
      const known = exposureOfStep.get(step);
      if (known !== undefined && Math.abs(known - exposure) > 1e-9) return true;
      exposureOfStep.set(step, exposure);
    }
    const identity: number | null = step ?? exposure;
    if (identity === null) continue;
    const current = listings.at(-1);
    if (identity !== before && current?.has(identity) === true) listings.push(new Set([identity]));
    else current?.add(identity);
    before = identity;
  }
  const [first, ...others] = listings;
  return others.some(
    (listing) => listing.size !== first?.size || [...listing].some((step) => !first.has(step)),
  );
}
