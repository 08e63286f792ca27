/** `treat`: fits a bath to treated strips, predicts what a bath does, and plans one. */
import {
  defaultTreatment,
  exactly,
  fitTreatment,
  nextTrial,
  planTreatment,
  predictTreatment,
  sensitivityOf,
  type GradeTable,
  type NegativeToTreat,
  type TreatmentModel,
  type Warning,
} from '@wedgebook/core';
import { cautionsFor, seleniumDefaults } from '@wedgebook/data';
import { GRADE_OPTIONS, gradeTableOf } from '../input/grade-table.ts';
import { fileAtMost } from '../input/only-file.ts';
import {
  givenLight,
  givenNegative,
  NEGATIVE_OPTIONS,
  type GivenNegative,
} from '../input/negative.ts';
import { readReadingsFile } from '../input/read-file.ts';
import { requireSource, STRIP_OPTIONS, stripOptions } from '../input/strip-options.ts';
import type { Arguments } from '../input/arguments.ts';
import type { CommandIo } from '../io.ts';
import { gradeTableJson } from '../output/provenance-text.ts';
import {
  cautionsJson,
  modelJson,
  nextTrialJson,
  planJson,
  type ShownPlan,
  type Sureness,
} from '../output/treat-json.ts';
import { cautionsText, modelText, planText, surenessText } from '../output/treat-text.ts';
import { shownWarnings, warningLines } from '../output/warnings.ts';
import { USAGE } from '../text.ts';
import { peekedHeader } from '../treatment/steps-alone.ts';
import { treatedStrips } from '../treatment/treated-strips.ts';
import { UsageError } from '../usage-error.ts';
import { measuredPapers } from './paper.ts';
import type { Verb } from './verb.ts';

const TARGETS = ['to-grade', 'to-range', 'paper', 'minutes'] as const;

export const treat: Verb = {
  options: {
    ...STRIP_OPTIONS,
    ...GRADE_OPTIONS,
    ...NEGATIVE_OPTIONS,
    'base-fog': { type: 'string' },
    'to-grade': { type: 'string' },
    'to-range': { type: 'string' },
    paper: { type: 'string' },
    'density-basis': { type: 'string' },
    minutes: { type: 'string' },
    dilution: { type: 'string' },
    celsius: { type: 'string' },
    'stain-kept': { type: 'string' },
    law: { type: 'string' },
    response: { type: 'string' },
  },
  run: async (given, io) => {
    const file = fileAtMost(given);
    const negative = givenNegative(given);
    const wantsPlan = negative !== undefined || TARGETS.some((name) => given.has(name));
    if (file === undefined && !wantsPlan) throw new UsageError(USAGE.planOrFile);
    if (file === '-' && given.text('paper') === '-') throw new UsageError(USAGE.stdinTwice);
    const table = gradeTableOf(given);
    // Usage is judged before any file is read.
    const order = wantsPlan ? planOrder(given, negative, table) : null;
    const fitted = file === undefined ? null : await fittedModel(file, given, io);
    const model = fitted?.model ?? defaultTreatment(seleniumDefaults);
    const shown = order === null ? null : await carriedOut(order, model, given, io, table);
    const warnings = shownWarnings(
      fitted?.warnings ?? [],
      shown === null ? model.warnings : shown.warnings,
    );
    const cautions = cautionsFor('selenium');
    return {
      json: {
        ...modelJson(model),
        ...(shown !== null && {
          plan: { ...planJson(shown), sensitivity: shown.sensitivity },
          nextTrial: nextTrialJson(shown.nextTrial),
          gradeTable: gradeTableJson(table),
        }),
        cautions: cautionsJson(cautions),
        warnings,
      },
      text: () =>
        [
          modelText(model),
          shown === null ? '' : planText(shown, table),
          shown === null ? '' : surenessText(shown),
          warningLines(warnings, ''),
          cautionsText(cautions),
        ]
          .filter((part) => part !== '')
          .join('\n'),
    };
  },
};

async function fittedModel(
  file: string,
  given: Arguments,
  io: CommandIo,
): Promise<{ readonly model: TreatmentModel; readonly warnings: readonly Warning[] }> {
  const options = stripOptions(given, file);
  const law = given.choice('law', ['automatic', 'proportional', 'power', 'intensifier-safe']);
  const family = given.choice('response', [
    'automatic',
    'first-order',
    'hill',
    'weibull',
    'parabolic',
  ]);
  const peeked = await peekedHeader(file, io);
  // Trial pieces are paired by the numbers of their spots.
  const stepsSuffice = options.stepsSuffice || peeked.stepsAlone;
  const readings = await readReadingsFile(file, peeked.io, { ...options, stepsSuffice });
  requireSource(readings, options);
  const { strips, warnings } = treatedStrips(readings, options.exposure);
  const model = fitTreatment(strips, seleniumDefaults, {
    ...(law !== undefined && { law }),
    ...(family !== undefined && { family }),
  });
  return { model, warnings };
}

interface PlanOrder {
  readonly negative: NegativeToTreat;
  readonly bath: { readonly partsWater: number; readonly celsius: number };
  readonly target:
    | { readonly grade: number }
    | { readonly printingRange: number }
    | { readonly paperFile: string }
    | { readonly minutes: number };
}

/** @throws {UsageError} where the negative, the target or the dilution is missing */
function planOrder(
  given: Arguments,
  negative: GivenNegative | undefined,
  table: GradeTable,
): PlanOrder {
  if (negative === undefined) throw new UsageError(USAGE.rangeNeeded);
  const targets = TARGETS.filter((name) => given.has(name));
  if (targets.length === 0) throw new UsageError(USAGE.targetNeeded);
  if (targets.length > 1) throw new UsageError(USAGE.targetsClash);
  const dilution = given.text('dilution');
  if (dilution === undefined) {
    throw new UsageError(USAGE.needs('dilution', '1+n, such as 1+3'));
  }
  return {
    negative: negativeToTreat(negative, given.number('base-fog', -0.5, 6)),
    bath: {
      partsWater: partsOf(dilution),
      celsius: given.number('celsius', 0, 60) ?? 20,
    },
    target: targetOf(given, table),
  };
}

function targetOf(given: Arguments, table: GradeTable): PlanOrder['target'] {
  const minutes = given.number('minutes', 0, 10_000);
  if (minutes !== undefined) return { minutes };
  const printingRange = given.number('to-range', 0.01, 6);
  if (printingRange !== undefined) return { printingRange };
  const paperFile = given.text('paper');
  if (paperFile !== undefined) return { paperFile };
  const grades = table.bands.map((band) => band.grade);
  const grade = given.number('to-grade', -10, 10) ?? NaN;
  if (!grades.includes(grade)) throw new UsageError(USAGE.gradeOutside(grade, grades));
  return { grade };
}

function negativeToTreat(negative: GivenNegative, baseFog: number | undefined): NegativeToTreat {
  if ('densityRange' in negative) return negative;
  const { shadowDensity, highlightDensity } = negative;
  const thinner = Math.min(shadowDensity, highlightDensity);
  return {
    densityRange: Math.abs(highlightDensity - shadowDensity),
    ...(baseFog !== undefined && { shadowNetDensity: Math.max(0, thinner - baseFog) }),
  };
}

function partsOf(dilution: string): number {
  const parts = /^1\s*\+\s*(\d+(?:\.\d+)?)$/.exec(dilution.trim())?.[1];
  const value = Number(parts ?? NaN);
  if (!(value <= 1000)) throw new UsageError(USAGE.dilution(dilution));
  return value;
}

async function carriedOut(
  order: PlanOrder,
  model: TreatmentModel,
  given: Arguments,
  io: CommandIo,
  gradeTable: GradeTable,
): Promise<ShownPlan & Sureness> {
  const shown = await plannedOrPredicted(order, model, given, io, gradeTable);
  // Where nothing is to be done in the bath, trials are judged by the whole of its effect.
  const { bath } = shown.prediction;
  const minutes = bath.minutes > 0 ? bath.minutes : model.doseResponse.completion95Minutes.value;
  return {
    ...shown,
    sensitivity: sensitivityOf(model, bath),
    nextTrial: nextTrial(model, seleniumDefaults, { ...bath, minutes }),
  };
}

async function plannedOrPredicted(
  { negative, bath, target }: PlanOrder,
  model: TreatmentModel,
  given: Arguments,
  io: CommandIo,
  gradeTable: GradeTable,
): Promise<ShownPlan> {
  const light = givenLight(given);
  const options = {
    gradeTable,
    callierFactor: light.callierFactor,
    stain: given.number('stain', 0, 5) ?? 0,
    stainKept: given.number('stain-kept', 0, 1) ?? 1,
  };
  if ('minutes' in target) {
    const prediction = predictTreatment(model, negative, { ...bath, ...target }, options);
    const { effect } = prediction;
    return {
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
  }
  const { range, warnings } = await rangeOf(target, given, io, gradeTable);
  const plan = planTreatment(model, negative, range, bath, options);
  return {
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
}

/** A grade and a range as they are; a paper as its exposure scale. */
async function rangeOf(
  target: Exclude<PlanOrder['target'], { readonly minutes: number }>,
  given: Arguments,
  io: CommandIo,
  gradeTable: GradeTable,
): Promise<{
  readonly range: { readonly grade: number } | { readonly printingRange: number };
  readonly warnings: readonly Warning[];
}> {
  if (!('paperFile' in target)) return { range: target, warnings: [] };
  const { papers, warnings } = await measuredPapers(target.paperFile, given, io, gradeTable);
  const scales = papers.flatMap(({ measures }) => measures?.exposureScale ?? []);
  const [scale] = scales;
  if (scale === undefined || scales.length > 1) {
    throw new UsageError(USAGE.onePaper(scales.length));
  }
  return { range: { printingRange: scale.value }, warnings };
}
