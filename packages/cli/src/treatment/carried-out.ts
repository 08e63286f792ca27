/** A plan or a prediction, carried out with a model. */
import {
  exactly,
  planTreatment,
  predictTreatment,
  type GradeTable,
  type PrintingOptions,
  type TreatmentModel,
  type TreatmentTarget,
  type Warning,
} from '@wedgebook/core';
import type { Arguments } from '../input/arguments.ts';
import { givenLight, givenStain } from '../input/negative.ts';
import type { CommandIo } from '../io.ts';
import type { ShownPlan } from '../output/treat-json.ts';
import { USAGE } from '../text.ts';
import { UsageError } from '../usage-error.ts';
import { measuredPapers } from '../verbs/paper.ts';
import type { PlanOrder } from './plan-order.ts';

export interface Planned {
  readonly shown: ShownPlan;
  /** Null where minutes were given and nothing was aimed at. */
  readonly target: TreatmentTarget | null;
  readonly options: PrintingOptions;
}

export async function carriedOut(
  { negative, bath, target }: PlanOrder,
  model: TreatmentModel,
  given: Arguments,
  io: CommandIo,
  gradeTable: GradeTable,
): Promise<Planned> {
  const light = givenLight(given);
  const options: PrintingOptions = {
    gradeTable,
    callierFactor: light.callierFactor,
    callierFactorError: light.callierFactorError,
    ...givenStain(given),
  };
  if ('minutes' in target) {
    const prediction = predictTreatment(model, negative, { ...bath, ...target }, options);
    const { effect } = prediction;
    const shown: ShownPlan = {
      kind: 'prediction',
      reachable: true,
      reason: null,
      aim: 'predicted',
      gainNeeded: effect.gain,
      maximumGain: model.doseResponse.maximumGain,
      minutes: exactly(target.minutes),
      plausibleMinutes: null,
      completion: effect.completion,
      prediction,
      light,
      warnings: prediction.warnings,
    };
    return { shown, target: null, options };
  }
  const { aim, warnings } = await targetFrom(target, given, io, gradeTable);
  const plan = planTreatment(model, negative, aim, bath, options);
  const shown: ShownPlan = {
    kind: 'plan',
    reachable: plan.reachable,
    reason: plan.reason,
    aim: plan.aim,
    gainNeeded: exactly(plan.gainNeeded),
    maximumGain: plan.maximumGain,
    minutes: {
      value: plan.minutes,
      standardError: plan.minutesError?.standardError ?? null,
    },
    plausibleMinutes: plan.minutesError?.plausible ?? null,
    completion: plan.prediction.effect.completion,
    prediction: plan.prediction,
    light,
    warnings: [...warnings, ...plan.warnings],
  };
  return { shown, target: aim, options };
}

/** A grade and a range as they are; a paper as its exposure scale, with its error. */
async function targetFrom(
  target: Exclude<PlanOrder['target'], { readonly minutes: number }>,
  given: Arguments,
  io: CommandIo,
  gradeTable: GradeTable,
): Promise<{ readonly aim: TreatmentTarget; readonly warnings: readonly Warning[] }> {
  if (!('paperFile' in target)) return { aim: target, warnings: [] };
  const { papers, warnings } = await measuredPapers(target.paperFile, given, io, gradeTable);
  const scales = papers.flatMap(({ measures }) => measures?.exposureScale ?? []);
  const [scale] = scales;
  if (scale === undefined || scales.length > 1) {
    throw new UsageError(USAGE.onePaper(scales.length));
  }
  const { value, standardError } = scale;
  return { aim: { printingRange: value, standardError }, warnings };
}
