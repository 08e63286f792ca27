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
  stepSlip,
  stepSlipBySmooth,
  suspectReadings,
  toeShoulder,
  type CurveForm,
  type FittedCurve,
  type FittedReadings,
  type StepSlip,
  type SuspectReading,
} from '../fitting/index.ts';
import { warning, type Warning } from '../warning.ts';
import type { CharacteristicCurve } from './characteristic-curve.ts';
import { functionOf } from './function-of.ts';
import { modelOf } from './model-of.ts';
import type { CurveReadings } from '../readings/index.ts';
import { slipSearch } from './slip-search.ts';
import { sortReadings, type SortedReadings } from './sort-readings.ts';

/** A search for slips needs no last digits: a fit that takes longer is one that runs off. */
const ENOUGH_ITERATIONS = 40;
const ENOUGH_FOR_WHOLE_FORM = 100;
/** Scatter, in that of the moved readings, at which bad readings are as good an explanation. */
const AS_GOOD = 1.08;

/** What a search for slips found. */
export interface SuspectsFound {
  /** Readings that do not belong to the curve, the farthest out first. */
  readonly suspects: readonly SuspectReading[];
  /** A step skipped or read twice, which moves all readings after it. */
  readonly stepSlip: StepSlip | null;
  /** The same in warnings, with the numbers that would fit and the likely slips. */
  readonly warnings: readonly Warning[];
}

/** A search for slips in the readings of a fitted curve. */
export type FindSuspects = (curve: CharacteristicCurve, readings: SortedReadings) => SuspectsFound;

/**
 * Looks for slips by the family of the drawn curve.
 *
 * @param curve - the curve fitted to all readings
 * @param readings - those readings
 */
export const findSuspects: FindSuspects = (curve, { x, y }) => {
  if (slipSearch(curve, x.length) !== 'done') {
    return { suspects: [], stepSlip: null, warnings: [] };
  }
  const fitted = { model: modelOf(curve) ?? functionOf(curve), fit: curve };
  const asWritten = suspectReadings(x, y, fitterOf(curve), { fitted });
  const found =
    stepSlip(x, y, wholeFormOf(curve), { atHand: fitAtHand(curve, x, y) }) ??
    (curve.family === 'monotone-smooth' ? stepSlipBySmooth(x, y) : null);
  const slip = found && !explained(asWritten, found) ? found : null;
  // Where a step was skipped, readings are judged by the curve through the moved ones.
  const suspects = slip ? suspectReadings(slip.exposures, y, fitterOf(curve)) : asWritten;
  return {
    suspects,
    stepSlip: slip,
    warnings: [...(slip ? [stepSlipWarning(slip)] : []), ...suspects.map(suspectWarning)],
  };
};

/** The slips among the readings of a curve that was fitted before, in warnings. */
export type FindSlips = (curve: CharacteristicCurve, readings: CurveReadings) => readonly Warning[];

/**
 * The same search for whoever fits first and looks for slips when there is time.
 *
 * @param curve - the curve fitted to all readings
 * @param readings - those readings, in any order
 * @throws InvalidArgumentError if the arrays differ in length or hold a value that is not finite
 */
export const slipWarnings: FindSlips = (curve, readings) =>
  findSuspects(curve, sortReadings(readings)).warnings;

/** Whether one bad reading or two explain what looks like a moved part nearly as well. */
function explained(suspects: readonly SuspectReading[], { moved }: StepSlip): boolean {
  return (
    suspects.length > 0 &&
    suspects.length <= 2 &&
    suspects.every(({ standardError }) => standardError <= AS_GOOD * moved)
  );
}

function fitterOf(curve: CharacteristicCurve) {
  const model = modelOf(curve);
  const options = { maxIterations: ENOUGH_ITERATIONS };
  return (x: readonly number[], y: readonly number[]): FittedReadings | null => {
    if (curve.family === 'toe-shoulder') return fitToeShoulder(x, y, options);
    if (model !== null) return { model, fit: fitModel(model, x, y, options) };
    if (new Set(x.filter(Number.isFinite)).size < 4) return null;
    const smooth = monotoneSmooth(x, y);
    return { model: smooth.model, fit: smooth };
  };
}

/**
 * One form for readings as written and as moved: a smooth curve would bend to readings that are
 * moved by a step, and a shoulder that comes and goes would count as theirs.
 */
function wholeFormOf(curve: CharacteristicCurve): CurveForm {
  const own = curve.family === 'toe-shoulder' ? null : modelOf(curve);
  const model = own ?? toeShoulder;
  const options = { maxIterations: ENOUGH_FOR_WHOLE_FORM };
  return { model, fit: (x, y) => fitModel(model, x, y, options) };
}

/** The drawn curve as the fit that it came from; none for a smooth one, which follows any move. */
function fitAtHand(
  curve: CharacteristicCurve,
  x: readonly number[],
  y: readonly number[],
): FittedCurve | undefined {
  const model = modelOf(curve);
  if (model === null) return undefined;
  return { model, fit: fitModel(model, x, y, { start: curve.parameters }) };
}

/** A suspect as a warning, with the number that would fit and the likely slip. */
function suspectWarning(suspect: SuspectReading): Warning {
  const { x, written, expected, slip } = suspect;
  return warning('suspect-reading', {
    density: written,
    ...(Number.isFinite(x) ? { logExposure: x } : {}),
    residual: written - expected,
    expected,
    ...(slip ? { slip: slip.kind, meant: slip.meant } : {}),
  });
}

function stepSlipWarning({ kind, from, density, written, moved }: StepSlip): Warning {
  return warning('step-slip', { kind, logExposure: from, density, written, moved });
}
