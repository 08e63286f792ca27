/** Treatment models and plans for JSON, in the contract's keys. */
import type {
  Estimate,
  NextTrial,
  NotReachable,
  PlanAim,
  RangeReport,
  TreatmentModel,
  TreatmentPrediction,
  Warning,
} from '@wedgebook/core';
import type { Caution } from '@wedgebook/data';
import { seleniumDefaults } from '@wedgebook/data';
import type { GivenLight } from '../input/negative.ts';

/** A plan or a prediction, ready to be shown. */
export interface ShownPlan {
  readonly kind: 'plan' | 'prediction';
  readonly reachable: boolean;
  readonly reason: NotReachable | null;
  readonly aim: PlanAim | 'predicted';
  readonly gainNeeded: Estimate;
  readonly maximumGain: Estimate;
  readonly minutes: Estimate;
  /** Least and greatest minutes that may well be needed; null where nothing is planned. */
  readonly plausibleMinutes: readonly [number, number | null] | null;
  readonly completion: Estimate;
  readonly prediction: TreatmentPrediction;
  readonly light: GivenLight;
  readonly warnings: readonly Warning[];
}

/** Base + fog where the bath tones it. */
export interface FogBeforeAfter {
  readonly before: number;
  readonly after: number;
}

export function modelJson(model: TreatmentModel): object {
  const { law, doseResponse, treated, baseFogChange, origin, process } = model;
  const { parameters } = seleniumDefaults;
  return {
    process,
    origin,
    law: {
      family: law.family,
      exponent: law.exponent,
      referenceDensity: law.referenceDensity,
      reason: law.reason,
      comparison: law.comparison,
    },
    doseResponse: {
      family: doseResponse.family,
      maximumGain: doseResponse.maximumGain,
      halfDose: doseResponse.halfDose,
      completion95Minutes: doseResponse.completion95Minutes,
      steepness: doseResponse.steepness,
      concentrationExponent: doseResponse.concentrationExponent,
      temperatureCoefficient: doseResponse.temperatureCoefficient,
      origin: doseResponse.origin,
      plausible: doseResponse.plausible,
      sources: Object.fromEntries(
        Object.entries(parameters)
          .filter(([name]) => doseResponse.origin[name as keyof typeof parameters] === 'default')
          .map(([name, { provenance }]) => [
            name,
            {
              source: provenance.source,
              known: provenance.known,
              verified: provenance.verified,
            },
          ]),
      ),
      comparison: doseResponse.comparison,
    },
    treated,
    baseFogChange,
  };
}

export function planJson(shown: ShownPlan, fog: FogBeforeAfter | null): object {
  const { prediction, light } = shown;
  return {
    reachable: shown.reachable,
    ...(shown.reason !== null && { reason: shown.reason }),
    aim: shown.aim,
    gainNeeded: shown.gainNeeded,
    maximumGain: shown.maximumGain,
    minutes: shown.minutes,
    ...(shown.plausibleMinutes !== null && { plausibleMinutes: shown.plausibleMinutes }),
    completion: shown.completion,
    partsWater: prediction.bath.partsWater,
    celsius: prediction.bath.celsius,
    callierFactor: light.callierFactor,
    callierFactorError: light.callierFactorError,
    gain: prediction.effect.gain,
    before: rangeJson(prediction.before),
    after: rangeJson(prediction.after),
    plausibleDensityRangeAfter: prediction.plausibleRange,
    ...(fog !== null && { baseFog: fog }),
  };
}

/** The most telling trials, best first. */
export function nextTrialJson({ errorNow, trials }: NextTrial): object {
  return {
    errorNow,
    trials: trials.slice(0, SHOWN_TRIALS).map(({ bath, expectedGain, errorAfter }) => ({
      partsWater: bath.partsWater,
      minutes: bath.minutes,
      celsius: bath.celsius,
      expectedGain,
      errorAfter,
    })),
  };
}

const SHOWN_TRIALS = 3;

function rangeJson(report: RangeReport): object {
  const { densityRange, printingRange, isoRange, paperGrade, gradesWithin } = report;
  return {
    densityRange,
    printingRange,
    isoRange: isoRange && { ...isoRange.exact, rounded: isoRange.rounded },
    paperGrade,
    gradesWithin,
  };
}

export function cautionsJson(cautions: readonly Caution[]): object[] {
  return cautions.map(({ id, step, severity, text, provenance }) => ({
    text,
    source: provenance.source,
    known: provenance.known,
    verified: provenance.verified,
    id,
    step,
    severity,
  }));
}
