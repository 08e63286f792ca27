/**
 * The ways out, reckoned side by side for one negative: print on the paper it calls for, split the
 * exposure, tone, tone and print harder, bleach and redevelop in part, once or twice, both baths, reduce,
 * or leave it and develop the next roll otherwise.
 *
 *   separation     d D_print / d u = paper gradient × d printing density / d u
 *   exposure       (printing density of the highlight after - before) / log10 2 stops
 *   graininess     d v / d u in the negative; × the paper's gradient in the print, both at the
 *                  middle density, against the first way
 *
 * The exposure is set so that the highlight just prints (net 0.04). Fluctuations of density grow
 * with the local gain, since a bath works on the grains that are there; longer development makes new
 * and larger ones, so the figure of the next roll is the least it may be.
 *
 * Sources: [ISO6846] the ends of the exposure scale; [GSE1979], [MEES1942] the classes of baths; the
 * gains of the processes come with the defaults. Deviations: papers count as of one speed at the
 * highlight; two baths in turn are taken to multiply.
 */
import { InvalidArgumentError } from '../errors.ts';
import { combinedError, type Estimate } from '../estimate.ts';
import { gradeBand, type GradeTable, type PrintPaper } from '../paper/index.ts';
import { PROPORTIONAL } from '../treatment/gain-law.ts';
import {
  planTreatment,
  rangeReport,
  type PrintingOptions,
  type TreatmentModel,
  type TreatmentTarget,
} from '../treatment/index.ts';
import { warning } from '../warning.ts';
import { intensifiers, type BathWay } from './intensifiers.ts';
import {
  lawChange,
  rangeOf,
  type ChangeSettings,
  type NegativeChange,
  type NegativeNets,
} from './negative-change.ts';
import { nextRoll, type KnownDevelopment } from './next-roll.ts';
import { reducers } from './reducers.ts';
import { splitWay } from './split-way.ts';
import { condenserFactor, wayOf, type Frame } from './way-figures.ts';
import type { ProcessDefaults, SplitLights, WayId, WayOut } from './way-out.ts';

export interface WaysInput {
  readonly model: TreatmentModel;
  /** Net densities, diffuse, stain included. */
  readonly negative: NegativeNets;
  /** Where tones should part well; the negative's own ends unless given. */
  readonly separationAt?: NegativeNets;
  readonly target: TreatmentTarget;
  /** The selenium bath that is considered. */
  readonly bath: { readonly partsWater: number; readonly celsius: number };
  readonly options: PrintingOptions;
  readonly defaults: ProcessDefaults;
  /** The user's own paper; it is used wherever a way fits it within 0.05. */
  readonly paper?: PrintPaper;
  /** The variable-contrast paper of split exposures: the user's own where there is one. */
  readonly split: SplitLights;
  /** What is known of how this film develops. */
  readonly development?: KnownDevelopment;
}

/**
 * Reckons the ways out. A negative that is too short gets intensifiers, one that is too long
 * reducers.
 *
 * @param input - negative, target, papers and processes
 * @returns the ways in the order of `WAY_IDS`
 * @throws InvalidArgumentError if the highlight is not denser than the shadow, or a value is out of range
 * @throws OutOfDomainError if the table has no such grade
 */
export function waysOut(input: WaysInput): WayOut[] {
  const { negative, options, defaults, model, bath, target } = input;
  const { shadow, highlight } = negative;
  if (!(shadow >= 0 && highlight > shadow && highlight <= 6)) {
    throw new InvalidArgumentError(
      'waysOut',
      'negative',
      highlight,
      'a highlight above the shadow',
    );
  }
  const { callierFactor = 1, stain = 0, gradeTable } = options;
  const settings = { callierFactor, stain, stainKept: 1 };
  const alone = lawChange(1, PROPORTIONAL, settings);
  const before = rangeOf(alone, negative);
  const aim = aimedRange(target, gradeTable, settings);
  const middle = 0.5 * (shadow + highlight);
  const frame: Frame = { input, alone, aim, callierFactor, middle };
  const way = (id: WayId, change: NegativeChange, more: Partial<WayOut> = {}): WayOut =>
    wayOf(frame, id, change, more);

  const split = splitWay(input.split, before);
  const untouched = [
    way('print-to-fit', alone),
    way('split-exposure', alone, {
      paper: split.paper,
      split: split.split,
      exposureStops: split.exposureStops,
      limit: split.reachable ? null : 'beyond-paper',
    }),
  ];

  const toTreat = { densityRange: highlight - shadow, shadowNetDensity: shadow };
  const full = planTreatment(model, toTreat, target, bath, options);
  let baths: BathWay[];
  if (full.reason === 'needs-reduction') baths = reducers(negative, aim, settings, defaults);
  else {
    const halfWay = { printingRange: Math.sqrt(before * Math.max(before, aim)) };
    const half =
      full.aim === 'already-there' ? full : planTreatment(model, toTreat, halfWay, bath, options);
    baths = intensifiers(input, { full, half }, aim, settings);
  }
  return [
    ...untouched,
    ...baths.map((one) => bathWay(frame, one)),
    nextRollWay(frame, aim / before),
  ];
}

/** Longer development raises silver and stain alike. */
function nextRollWay(frame: Frame, factor: number): WayOut {
  const { alone, input } = frame;
  const next = nextRoll(factor, input.development, input.defaults);
  const change: NegativeChange = (u) => {
    const { printing, diffuse, silver, slope, diffuseSlope } = alone(u);
    return {
      printing: factor * printing,
      diffuse: factor * diffuse,
      silver: factor * silver,
      slope: factor * slope,
      diffuseSlope: factor * diffuseSlope,
    };
  };
  return wayOf(frame, 'next-roll', change, {
    gain: factor,
    nextRoll: next,
    limit: next.timeFactor === null ? 'beyond-film' : null,
    warnings: next.warnings,
  });
}

function bathWay(frame: Frame, { id, change, changeAtError, ...more }: BathWay): WayOut {
  const { negative, defaults } = frame.input;
  const marks = (BUILT_IN[id] ?? []).map((name) => {
    const { known } = defaults[name].provenance;
    return warning('value-unverified', { what: NAMED[name], source: known });
  });
  const way = wayOf(frame, id, change, { ...more, warnings: [...(more.warnings ?? []), ...marks] });
  if (changeAtError === undefined) return way;
  const byError = (of: 'printing' | 'diffuse'): number => {
    const range = (at: NegativeChange): number =>
      at(negative.highlight)[of] - at(negative.shadow)[of];
    return Math.abs(range(changeAtError) - range(change));
  };
  const { densityRange, printingRange } = way.negative;
  const widened = ({ value, standardError }: Estimate, error: number): Estimate => ({
    value,
    standardError: combinedError(standardError, error),
  });
  return {
    ...way,
    negative: rangeReport(
      widened(densityRange, byError('diffuse')),
      widened(printingRange, byError('printing')),
      frame.input.options.gradeTable,
    ),
  };
}

/** Built-in numbers that a way rests on. */
const BUILT_IN: Partial<Record<WayId, readonly (keyof typeof NAMED)[]>> = {
  'chromium-partial': ['chromiumGain', 'redevelopedPart'],
  chromium: ['chromiumGain'],
  'chromium-twice': ['chromiumGain'],
  'chromium-then-selenium': ['chromiumGain'],
  'reduce-superproportional': ['superproportionalExponent'],
};
const NAMED = {
  chromiumGain: 'gain of a chromium pass',
  redevelopedPart: 'part that redevelopment brings back',
  superproportionalExponent: 'exponent of the superproportional reducer',
} as const;

function aimedRange(
  target: TreatmentTarget,
  table: GradeTable,
  { callierFactor, stain }: ChangeSettings,
): number {
  if ('printingRange' in target) return target.printingRange;
  if ('densityRange' in target) {
    // Diffuse density as the enlarger sees it, stain as it is now.
    return (target.densityRange * (callierFactor + stain)) / (1 + stain);
  }
  const { lower, upper } = gradeBand(target.grade, table);
  return 0.5 * (lower + upper) * condenserFactor(table, callierFactor);
}
