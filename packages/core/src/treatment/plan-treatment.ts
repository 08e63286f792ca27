/**
 * Planning backwards: from the grade or range that is wanted to the minutes in the bath.
 *
 *   target grade -> printing range -> gain -> response -> dose -> minutes
 *   var k = k² ((s_target / target)² + (s_range / range)² + (s_Q / Q)²), added to what is not sure of the bath
 *
 * A grade is reached anywhere in its band. The plan aims at the middle of the band; where the bath
 * cannot carry the negative so far, it aims as far into the band as the practical end of the bath
 * (95 % of the change) goes. A negative that is in the band already is left alone.
 *
 * Sources: see the modules of law, dose and response. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';
import { gradeBand, gradeOf, type GradeTable } from '../paper/index.ts';
import { warning, type Warning } from '../warning.ts';
import { COMPLETE } from './default-model.ts';
import { minutesForDose, type Bath } from './dose.ts';
import { minutesError, type MinutesError } from './plan-minutes.ts';
import {
  distinct,
  endsOf,
  predictTreatment,
  type NegativeToTreat,
  type PrintingOptions,
  type TreatmentPrediction,
} from './predict-treatment.ts';
import { doseForResponse } from './response.ts';
import { rangeAfter, treatmentEffect } from './treatment-effect.ts';
import type { TreatmentModel } from './treatment-model.ts';

/**
 * What the treatment is to reach: a grade of the table; a range as the enlarger sees it, which is the
 * exposure scale of a paper; or a density range, diffuse. The error of a scale that was measured
 * widens the interval of the minutes.
 */
export type TreatmentTarget =
  | { readonly grade: number }
  | { readonly printingRange: number; readonly standardError?: number | null }
  | { readonly densityRange: number };

/** Where the plan aims. */
export type PlanAim =
  /** The middle of the grade's band. */
  | 'band-middle'
  /** In the band, as far towards its middle as the bath goes. */
  | 'in-band'
  /** The range that was asked for. */
  | 'range'
  /** Nothing to do: the negative is there already. */
  | 'already-there'
  /** Out of reach; the prediction shows the most that is. */
  | 'most-reachable';

/** Why a target is out of reach. */
export type NotReachable = 'needs-more-gain' | 'needs-reduction';

export interface TreatmentPlan {
  readonly reachable: boolean;
  readonly reason: NotReachable | null;
  readonly aim: PlanAim;
  /** Printing range that the plan aims at; density range where that is the target. */
  readonly targetRange: number;
  /** Gain of the silver that the aim needs at the law's reference density. */
  readonly gainNeeded: number;
  /** The most that the bath gives, k_max. */
  readonly maximumGain: Estimate;
  /** Minutes in the bath; 0 where nothing is to be done. */
  readonly minutes: number;
  /** How sure the minutes are; null where nothing is to be done or the target is out of reach. */
  readonly minutesError: MinutesError | null;
  /** Part of the whole change that is done by then. */
  readonly completion: number;
  readonly bath: Bath;
  /** What these minutes make of the negative. */
  readonly prediction: TreatmentPrediction;
  readonly warnings: readonly Warning[];
}

/**
 * Plans a bath for a target.
 *
 * @param model - fitted or built-in
 * @param negative - density range, and the shadow's net density where the law needs it
 * @param target - grade of the table, printing range, or density range
 * @param bath - dilution and temperature
 * @param options - grade table, Callier factor, stain
 * @returns minutes and prediction; where the target is out of reach, the most that the bath gives
 * @throws InvalidArgumentError if a value is out of range
 * @throws OutOfDomainError if the table has no such grade
 */
export function planTreatment(
  model: TreatmentModel,
  negative: NegativeToTreat,
  target: TreatmentTarget,
  bath: { readonly partsWater: number; readonly celsius: number },
  options: PrintingOptions,
): TreatmentPlan {
  const { gradeTable, callierFactor = 1, stain = 0, stainKept = 1 } = options;
  const { doseResponse } = model;
  const { shadow, highlight } = endsOf(negative);
  const usesDiffuse =
    'densityRange' in target || (gradeTable.light === 'condenser' && 'grade' in target);
  const factor = usesDiffuse ? 1 : callierFactor;
  // A diffuse target does not know the enlarger's light.
  const factorError = usesDiffuse ? 0 : (options.callierFactorError ?? 0) / callierFactor;

  const idle = treatmentEffect(model, { ...bath, minutes: 0 }, { stain, stainKept: 1 });
  const before = rangeAfter(shadow, highlight, idle, factor).value;
  // The exponent may fade with the gain, so the range is taken through the effect of each bath.
  const minutesAt = (part: number): number => minutesForResponse(model, part, bath);
  const rangeAtPart = (part: number): number =>
    rangeAfter(
      shadow,
      highlight,
      treatmentEffect(model, { ...bath, minutes: minutesAt(part) }, { stain, stainKept }),
      factor,
    ).value;
  const most = rangeAtPart(COMPLETE);
  const { aim, range, reason } = chooseAim(target, gradeTable, before, most);

  const part = reason === null && aim !== 'already-there' ? partForRange(range, rangeAtPart) : null;
  const completion = part ?? (reason === 'needs-more-gain' ? COMPLETE : 0);
  const minutes = minutesAt(completion);
  const prediction = predictTreatment(model, negative, { ...bath, minutes }, options);
  const maximumGain = doseResponse.maximumGain;
  const gainNeeded =
    reason === null
      ? prediction.effect.gain.value
      : silverGainFor(range, before, { callierFactor: factor, stain, stainKept });
  const warnings = [...prediction.warnings];
  if (reason !== null) {
    warnings.push(
      warning('target-not-reachable', { reason, gainNeeded, maximumGain: maximumGain.value }),
    );
  }
  return {
    reachable: reason === null,
    reason,
    aim,
    targetRange: range,
    gainNeeded,
    maximumGain,
    minutes,
    minutesError:
      reason !== null || !(minutes > 0)
        ? null
        : minutesError(
            doseResponse,
            minutes,
            bath,
            aim === 'in-band' ? { completion } : { gain: prediction.effect.gain.value },
            aim === 'in-band'
              ? 0
              : gainNeeded * Math.hypot(factorError, ...relativeErrors(target, negative)),
          ),
    completion,
    bath: { ...bath, minutes },
    prediction,
    warnings: distinct(warnings),
  };
}

/** Minutes at a dilution and temperature for a part of the change. */
export function minutesForResponse(
  model: TreatmentModel,
  part: number,
  bath: { readonly partsWater: number; readonly celsius: number },
): number {
  const { family, halfDose, steepness, concentrationExponent, temperatureCoefficient } =
    model.doseResponse;
  const dose = doseForResponse(part, {
    family,
    halfDose: halfDose.value,
    steepness: steepness.value,
  });
  return minutesForDose(dose, bath, {
    concentrationExponent: concentrationExponent.value,
    temperatureCoefficient: temperatureCoefficient.value,
  });
}

interface Aim {
  readonly aim: PlanAim;
  readonly range: number;
  readonly reason: NotReachable | null;
}

function chooseAim(target: TreatmentTarget, table: GradeTable, before: number, most: number): Aim {
  if (!('grade' in target)) {
    const range = 'printingRange' in target ? target.printingRange : target.densityRange;
    if (!(range > 0 && range <= 6)) {
      throw new InvalidArgumentError('planTreatment', 'target range', range, 'in (0, 6]');
    }
    // A thousandth of density is below any reading.
    if (Math.abs(range - before) < 1e-3) return { aim: 'already-there', range, reason: null };
    if (range < before) return { aim: 'most-reachable', range, reason: 'needs-reduction' };
    if (range > most) return { aim: 'most-reachable', range, reason: 'needs-more-gain' };
    return { aim: 'range', range, reason: null };
  }
  const band = gradeBand(target.grade, table);
  const middle = (band.lower + band.upper) / 2;
  if (gradeOf(before, table).band === target.grade) {
    return { aim: 'already-there', range: before, reason: null };
  }
  if (before > band.lower) {
    return { aim: 'most-reachable', range: middle, reason: 'needs-reduction' };
  }
  if (most >= middle) return { aim: 'band-middle', range: middle, reason: null };
  if (gradeOf(most, table).band === target.grade) {
    return { aim: 'in-band', range: most, reason: null };
  }
  return { aim: 'most-reachable', range: band.lower, reason: 'needs-more-gain' };
}

/** Standard errors of target and negative as parts of themselves; none where they were not measured. */
function relativeErrors(target: TreatmentTarget, negative: NegativeToTreat): number[] {
  const ofTarget =
    'printingRange' in target ? (target.standardError ?? 0) / target.printingRange : 0;
  return [ofTarget, (negative.standardError ?? 0) / negative.densityRange];
}

/** Part of the change at which the range is reached, by bisection; the range grows with the part. */
function partForRange(range: number, rangeAtPart: (part: number) => number): number {
  let low = 0;
  let high = COMPLETE;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (rangeAtPart(middle) < range) low = middle;
    else high = middle;
  }
  return high;
}

/** Gain of the silver for a printing range, were the law proportional. */
function silverGainFor(
  range: number,
  before: number,
  options: { callierFactor: number; stain: number; stainKept: number },
): number {
  const { callierFactor: q, stain, stainKept } = options;
  return ((range / before) * (q + stain) - stain * stainKept) / q;
}
