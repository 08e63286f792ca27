/**
 * Readings of a strip that do not belong to its curve. They stay in the fit: only the user can say
 * what was read.
 *
 * Sources: see `fitting/suspect-readings.ts`. Deviations: none.
 */
import {
  fitModel,
  fitToeShoulder,
  monotoneSmooth,
  suspectReadings,
  type FittedReadings,
  type SuspectReading,
} from '../fitting/index.ts';
import { warning, type Warning } from '../warning.ts';
import type { CharacteristicCurve } from './characteristic-curve.ts';
import { modelOf } from './model-of.ts';
import type { SortedReadings } from './sort-readings.ts';

/** A search for slips needs no last digits: a fit that takes longer is one that runs off. */
const ENOUGH_ITERATIONS = 40;
/** Fewest readings among which one can stand out. */
const FEWEST_READINGS = 8;

/**
 * Suspect readings by the family of the drawn curve, the farthest out first.
 *
 * @param curve - the curve fitted to all readings
 * @param readings - those readings
 */
export function suspectsOf(
  curve: CharacteristicCurve,
  readings: SortedReadings,
): readonly SuspectReading[] {
  if (curve.family === 'as-drawn' || readings.x.length < FEWEST_READINGS) return [];
  const first: FittedReadings = { model: modelOf(curve), fit: curve };
  return suspectReadings(readings.x, readings.y, fitterOf(curve), { fitted: first });
}

function fitterOf(curve: CharacteristicCurve) {
  return (x: readonly number[], y: readonly number[]): FittedReadings | null => {
    if (curve.family === 'toe-shoulder') {
      return fitToeShoulder(x, y, { maxIterations: ENOUGH_ITERATIONS });
    }
    if (curve.family === 'monotone-smooth') {
      if (new Set(x.filter(Number.isFinite)).size < 4) return null;
      const smooth = monotoneSmooth(x, y);
      return { model: smooth.model, fit: smooth };
    }
    const model = modelOf(curve);
    return { model, fit: fitModel(model, x, y, { maxIterations: ENOUGH_ITERATIONS }) };
  };
}

/** A suspect as a warning, with the number that would fit and the likely slip. */
export function suspectWarning(suspect: SuspectReading): Warning {
  const { x, written, expected, slip } = suspect;
  return warning('suspect-reading', {
    density: written,
    ...(Number.isFinite(x) ? { logExposure: x } : {}),
    residual: written - expected,
    expected,
    ...(slip ? { slip: slip.kind, meant: slip.meant } : {}),
  });
}
