/** Generated strips of an invented variable-contrast paper: what a printer would read. */
import type { VariableContrastReading } from '@wedgebook/core';
import { deviates } from '../deviates.ts';
import type { MixtureTruth } from './mixture-truths.ts';

/** Log exposures of the steps. */
export const STEPS: readonly number[] = Array.from({ length: 21 }, (_, i) => -2 + 0.15 * i);
const NOISE = 0.01;
/** log10 of hard over soft exposure of the mixed strip. */
const MIXED = -0.6;

/** log10 of hard over soft exposure of two or three strips; infinite where one light was off. */
export const ratiosOf = (strips: 2 | 3): readonly number[] =>
  strips === 3 ? [-Infinity, MIXED, Infinity] : [-Infinity, Infinity];

/** A density as it is read: with a normal error, to 0.01. */
export function readerOf(
  truth: MixtureTruth,
  seed: number,
): (hardLogExposure: number, softLogExposure: number) => number {
  const normal = deviates(seed);
  return (hard, soft) => Math.round(100 * (truth.density(hard, soft) + NOISE * normal())) / 100;
}

/** One draw of the strips after another. */
export function stripsOfTruth(
  truth: MixtureTruth,
  strips: 2 | 3,
  seed: number,
  read = readerOf(truth, seed),
): () => readonly (readonly VariableContrastReading[])[] {
  return () =>
    ratiosOf(strips).map((ratio) =>
      STEPS.map((x) => {
        const hardLogExposure =
          ratio === -Infinity ? -Infinity : ratio === Infinity ? x : x + ratio;
        const softLogExposure = ratio === Infinity ? -Infinity : x;
        return {
          hardLogExposure,
          softLogExposure,
          density: read(hardLogExposure, softLogExposure),
        };
      }),
    );
}
