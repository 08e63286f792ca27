/**
 * A first curve of a strip: `toe-shoulder` alone, without the test whether it fits and without
 * rivals. What must be shown at once, or needs no more than this curve, does without the rest of the
 * room; `fitCurve` has the last word.
 *
 * Sources: see `fitting/fit-toe-shoulder.ts`. Deviations: none.
 */
import { fitToeShoulder, toeOnly } from '../fitting/index.ts';
import { checkReadings, type CurveReadings } from '../readings/index.ts';
import type { CharacteristicCurve } from './characteristic-curve.ts';
import { curveFromFit } from './curve-from-fit.ts';
import { fitWarnings, unfit, type CurveFit } from './curve-fit.ts';
import { sortReadings, type SortedReadings } from './sort-readings.ts';

/**
 * Fits the `toe-shoulder` family to readings.
 *
 * @param readings - densities by log exposure, any order; replicates repeat the log exposure
 * @returns the curve with warnings about the readings and the fit, or why there is none
 * @throws InvalidArgumentError if the arrays differ in length or hold a value that is not finite
 */
export function firstCurve(readings: CurveReadings): CurveFit {
  const sorted = sortReadings(readings);
  const warnings = checkReadings(readings);
  const reason = unfit(sorted);
  if (reason !== null) return { status: 'not-determined', reason, warnings };
  const curve = toeShoulderCurve(sorted);
  if (curve === null) return { status: 'not-determined', reason: 'fit-failed', warnings };
  const all = [...warnings, ...fitWarnings(curve, sorted)];
  return { status: 'ok', curve, suspects: [], warnings: all };
}

/**
 * Fits the `toe-shoulder` family alone, without its shoulder where that is not determined.
 *
 * @returns the curve, or null where the readings do not determine one
 */
export function toeShoulderCurve(readings: SortedReadings): CharacteristicCurve | null {
  if (readings.x.length < toeOnly.parameterNames.length) return null;
  const { model, fit } = fitToeShoulder(readings.x, readings.y);
  if (!fit.parameters.every(Number.isFinite)) return null;
  return curveFromFit('toe-shoulder', model.parameterNames, fit, readings);
}
