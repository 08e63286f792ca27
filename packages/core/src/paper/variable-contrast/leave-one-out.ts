/**
 * How well a variable-contrast paper predicts a strip that it has not seen.
 *
 *   for every strip: fit the others, error = root mean square of (predicted - read)
 *
 * Sources: cross-validation by whole strips, since readings of one strip share its exposure. Deviations:
 * none.
 */
import { densityOfMixedExposure } from './variable-contrast-paper.ts';
import {
  fitVariableContrast,
  type VariableContrastFit,
  type VariableContrastReading,
} from './fit-variable-contrast.ts';

/** A strip with its name. */
export interface VariableContrastStrip {
  readonly name: string;
  readonly readings: readonly VariableContrastReading[];
}

/** The error of one strip left out. */
export interface LeftOutError {
  readonly name: string;
  /** Print density; null where the others cannot be fitted, as when one light is then missing. */
  readonly rootMeanSquare: number | null;
  /** Greatest distance of a reading, print density. */
  readonly greatest: number | null;
  readonly reason: VariableContrastFit['reason'];
}

/**
 * Leaves out one strip after another.
 *
 * @param strips - two or more
 * @returns one error for each strip
 */
export function leaveOneOut(strips: readonly VariableContrastStrip[]): LeftOutError[] {
  return strips.map(({ name, readings }, left) => {
    const others = strips.flatMap((strip, i) => (i === left ? [] : strip.readings));
    const { paper, reason } = fitVariableContrast(others);
    if (paper === null || readings.length === 0) {
      return { name, rootMeanSquare: null, greatest: null, reason };
    }
    const misses = readings.map(
      (reading) => densityOfMixedExposure(paper, reading) - reading.density,
    );
    const squares = misses.reduce((sum, miss) => sum + miss * miss, 0);
    return {
      name,
      rootMeanSquare: Math.sqrt(squares / misses.length),
      greatest: Math.max(...misses.map(Math.abs)),
      reason: null,
    };
  });
}
