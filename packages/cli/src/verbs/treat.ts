/** `treat`: fits a bath to treated strips, predicts what a bath does, plans one, and weighs the ways out. */
import {
  defaultTreatment,
  fitTreatment,
  nextTrial,
  sensitivityOf,
  toneBaseFog,
  type HeldResponse,
  type NextTrial,
  type TreatmentModel,
  type Warning,
} from '@wedgebook/core';
import { cautionsFor, seleniumDefaults } from '@wedgebook/data';
import { inputFault, stainLossText, untoldText, type WorkingBath } from '@wedgebook/notebook';
import { GRADE_OPTIONS, gradeTableOf } from '../input/grade-table.ts';
import { fileAtMost } from '../input/only-file.ts';
import { givenNegative, givenStain, NEGATIVE_OPTIONS } from '../input/negative.ts';
import { fileName, readingsOf, readSource } from '../input/read-file.ts';
import { requireSource, STRIP_OPTIONS, stripOptions } from '../input/strip-options.ts';
import { unusedOptions } from '../input/unused-options.ts';
import type { Arguments } from '../input/arguments.ts';
import type { CommandIo } from '../io.ts';
import { bathsJson, bathsText, shownBaths } from '../output/baths-output.ts';
import { gradeTableJson } from '../output/provenance-text.ts';
import {
  cautionsJson,
  modelJson,
  nextTrialJson,
  planJson,
  type FogBeforeAfter,
} from '../output/treat-json.ts';
import {
  cautionsText,
  modelText,
  nextTrialText,
  planText,
  sensitivityText,
  toldText,
} from '../output/treat-text.ts';
import { shownWarnings, warningLines, type ShownWarning } from '../output/warnings.ts';
import { waysJson, waysText } from '../output/ways-output.ts';
import { USAGE } from '../text.ts';
import { UNUSED } from '../unused-text.ts';
import { carriedOut, type Planned } from '../treatment/carried-out.ts';
import { HELD_OPTIONS, heldParameters } from '../treatment/held-parameters.ts';
import { developmentFrom } from '../treatment/known-development.ts';
import { planOrder, shadowBelowFog, TARGETS, type PlanOrder } from '../treatment/plan-order.ts';
import { peekedHeader } from '../treatment/steps-alone.ts';
import { treatedStrips } from '../treatment/treated-strips.ts';
import { waysOf, waysOrder, WAYS_OPTIONS, type ShownWays } from '../treatment/ways-of.ts';
import { paperOfStrips } from '../printing/paper-of-strips.ts';
import { UsageError } from '../usage-error.ts';
import { measuredPapers } from './paper.ts';
import type { Verb } from './verb.ts';

/** The bath at which a trial is judged where none is planned: 1+1 at 20 °C unless the strips agree. */
const KNOWN_PROCESSES = ['selenium', 'chromium', 'reducer'];

export const treat: Verb = {
  options: {
    ...STRIP_OPTIONS,
    ...GRADE_OPTIONS,
    ...NEGATIVE_OPTIONS,
    ...HELD_OPTIONS,
    ...WAYS_OPTIONS,
    'base-fog': { type: 'string' },
    'clear-base': { type: 'string' },
    'to-grade': { type: 'string' },
    'to-scale': { type: 'string' },
    'to-range': { type: 'string' },
    paper: { type: 'string' },
    'density-basis': { type: 'string' },
    minutes: { type: 'string' },
    dilution: { type: 'string' },
    celsius: { type: 'string' },
    'stain-kept': { type: 'string' },
    development: { type: 'string' },
    law: { type: 'string' },
    response: { type: 'string' },
  },
  run: async (given, io) => {
    const file = fileAtMost(given);
    const negative = givenNegative(given);
    const wantsPlan = negative !== undefined || TARGETS.some((name) => given.has(name));
    if (file === undefined && !wantsPlan) throw new UsageError(USAGE.planOrFile);
    const sources = ['paper', 'development', 'split-paper'].map((name) => given.text(name));
    sources.push(file);
    if (sources.filter((source) => source === '-').length > 1) {
      throw new UsageError(USAGE.stdinTwice);
    }
    const table = gradeTableOf(given);
    // Usage is judged before any file is read.
    givenStain(given);
    const paperFiles = ['paper', 'split-paper'].some((name) => given.has(name));
    const anyFile = file !== undefined || paperFiles || given.has('development');
    const unused = unusedOptions(given, [
      { names: FIT_ONLY, used: file !== undefined, remedy: UNUSED.treated },
      { names: PLAN_ONLY, used: wantsPlan, remedy: UNUSED.negative },
      { names: ['density-basis'], used: paperFiles, remedy: UNUSED.paper },
      { names: Object.keys(STRIP_OPTIONS), used: anyFile, remedy: UNUSED.file },
    ]);
    const order = wantsPlan ? planOrder(given, negative, table) : null;
    const below = shadowBelowFog(negative, order?.negative.baseFog ?? null);
    const asked = waysOrder(given);
    if (asked !== null && (order === null || 'minutes' in order.target)) {
      throw new UsageError(USAGE.waysNeedTarget);
    }
    if (asked === null && given.has('development')) {
      throw new UsageError(USAGE.onlyWithWays('development'));
    }
    const clearBase = clearBaseOf(given, order);
    const held = heldParameters(given);
    const source = file === undefined ? null : await fittedModel(file, held, given, io);
    const model = source?.model ?? defaultTreatment(seleniumDefaults, held);
    const planned = order === null ? null : await carriedOut(order, model, given, io, table);
    const development =
      asked === null || !given.has('development')
        ? null
        : await developmentOf(given.text('development') ?? '', given, io);
    const splitFile = asked === null ? undefined : given.text('split-paper');
    const own = splitFile === undefined ? null : await splitOf(splitFile, given, io);
    const ways =
      asked === null || order === null || planned === null || planned.target === null
        ? null
        : waysOf(asked, {
            model,
            negative: order.negative,
            target: planned.target,
            bath: order.bath,
            options: planned.options,
            development: development?.known ?? null,
            split: own?.lights ?? null,
          });
    const told = [...(development?.warnings ?? []), ...(own?.warnings ?? [])];
    return shown({
      model,
      source,
      planned,
      ways,
      clearBase,
      order,
      told,
      also: [...unused, ...below],
      table,
    });
  },
};

/** Options that mean nothing where no bath is fitted, and where none is planned. */
const FIT_ONLY = ['law', 'response'] as const;
const PLAN_ONLY = ['dilution', 'celsius', 'light', 'callier', 'stain', 'base-fog'] as const;

interface Result {
  readonly model: TreatmentModel;
  readonly source: FittedSource | null;
  readonly planned: Planned | null;
  readonly ways: ShownWays | null;
  readonly clearBase: number | undefined;
  readonly order: PlanOrder | null;
  /** What the other files had to say. */
  readonly told: readonly Warning[];
  /** Of the options themselves. */
  readonly also: readonly ShownWarning[];
  readonly table: ReturnType<typeof gradeTableOf>;
}

function shown({ model, source, planned, ways, clearBase, order, told, also, table }: Result) {
  const plan = planned?.shown ?? null;
  const warnings = [
    ...shownWarnings(
      source?.warnings ?? [],
      plan === null ? model.warnings : plan.warnings,
      told,
      ways?.warnings ?? [],
    ),
    ...also,
  ];
  const process = source?.process ?? 'selenium';
  const cautions =
    ways?.cautions ??
    cautionsFor(...(KNOWN_PROCESSES.includes(process) ? [process] : KNOWN_PROCESSES));
  const baths = shownBaths(source?.baths ?? [], model.doseResponse.concentrationExponent.value);
  const trial = nextTrialOf(model, planned);
  const fog = fogOf(planned, order, clearBase);
  const stain = planned?.options.stain ?? 0;
  const stainSays =
    plan !== null && stain > 0 ? stainLossText(plan.prediction.effect.gain.value, stain) : null;
  const untold = model.origin === 'fitted' ? untoldText(model) : null;
  return {
    json: {
      ...modelJson(model),
      ...(untold !== null && { untold }),
      ...(plan !== null && {
        plan: {
          ...planJson(plan, fog),
          sensitivity: sensitivityOf(model, plan.prediction.bath),
          ...(stainSays !== null && { stainLoss: stainSays }),
        },
        gradeTable: gradeTableJson(table),
      }),
      nextTrial: nextTrialJson(trial),
      ...(ways !== null && { waysOut: waysJson(ways) }),
      ...(baths.length > 0 && { baths: bathsJson(baths) }),
      cautions: cautionsJson(cautions),
      warnings,
    },
    text: () =>
      [
        modelText(model),
        toldText(untold, model),
        plan === null ? '' : planText(plan, table, fog, stainSays),
        plan === null ? '' : sensitivityText(sensitivityOf(model, plan.prediction.bath)),
        nextTrialText(trial),
        ways === null ? '' : waysText(ways),
        bathsText(baths),
        warningLines(warnings, ''),
        cautionsText(cautions),
      ]
        .filter((part) => part !== '')
        .join('\n'),
  };
}

/** Where nothing is to be done in a bath, trials are judged by the whole of its effect. */
function nextTrialOf(model: TreatmentModel, planned: Planned | null): NextTrial {
  const { value, partsWater, celsius } = model.doseResponse.completion95Minutes;
  const bath = planned?.shown.prediction.bath ?? { partsWater, celsius, minutes: 0 };
  const minutes = bath.minutes > 0 ? bath.minutes : value;
  return nextTrial(model, seleniumDefaults, { ...bath, minutes });
}

function fogOf(
  planned: Planned | null,
  order: PlanOrder | null,
  clearBase: number | undefined,
): FogBeforeAfter | null {
  const before = order?.negative.baseFog ?? null;
  if (planned === null || before === null || clearBase === undefined) return null;
  return { before, after: toneBaseFog(before, planned.shown.prediction.effect, clearBase) };
}

/** @throws {UsageError} where the clear base lies above base + fog */
function clearBaseOf(given: Arguments, order: PlanOrder | null): number | undefined {
  const clearBase = given.number('clear-base', 0, 3);
  const baseFog = order?.negative.baseFog ?? null;
  if (clearBase !== undefined && (baseFog === null || clearBase > baseFog)) {
    throw new UsageError(USAGE.clearAbove);
  }
  return clearBase;
}

async function developmentOf(file: string, given: Arguments, io: CommandIo) {
  return developmentFrom(file, io, stripOptions(given, file));
}

/** @throws {UsageError} where the file does not tell both lights of a paper */
async function splitOf(file: string, given: Arguments, io: CommandIo) {
  const { papers, warnings } = await measuredPapers(file, given, io, gradeTableOf(given));
  const layers = paperOfStrips(papers, fileName(file)).layers?.paper ?? null;
  if (layers === null) throw new UsageError(USAGE.noLights);
  const lights = { paper: layers, origin: 'own', softFactor: null, hardFactor: null } as const;
  return { lights, warnings };
}

interface FittedSource {
  readonly model: TreatmentModel;
  readonly process: string;
  /** Working baths, where the file is a notebook. */
  readonly baths: readonly WorkingBath[];
  readonly warnings: readonly Warning[];
}

/**
 * A bath fitted to the treated strips of a file.
 *
 * @throws {InputError} where none can be fitted
 */
export async function fittedModel(
  file: string,
  held: HeldResponse,
  given: Arguments,
  io: CommandIo,
): Promise<FittedSource> {
  const options = stripOptions(given, file);
  const law = given.choice('law', [
    'automatic',
    'proportional',
    'power',
    'intensifier-safe',
    'shift',
  ]);
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
  const source = await readSource(file, peeked.io, { ...options, stepsSuffice });
  const readings = readingsOf(source, file);
  requireSource(readings, options);
  const { strips, warnings, process, firstRow } = treatedStrips(readings, options.exposure);
  const model = fitTreatment(strips, seleniumDefaults, {
    held,
    ...(law !== undefined && { law }),
    ...(family !== undefined && { family }),
  });
  // Built-in numbers in place of a fit that was asked for would pass for one.
  if (model.treated.length === 0) {
    throw inputFault.nothingPaired({ file: fileName(file), row: firstRow });
  }
  const baths = source.kind === 'notebook' ? source.document.baths : [];
  return { model, process, baths, warnings };
}
