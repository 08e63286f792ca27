/**
 * The ways out, reckoned side by side for one negative: print on the paper it calls for, split the
 * exposure, tone, bleach and redevelop, both, reduce, or leave it and develop the next roll
 * otherwise.
 *
 *   separation     d D_print / d u = paper gradient × d printing density / d u
 *   exposure       (printing density of the highlight after - before) / log10 2 stops
 *   graininess     d v / d u in the negative; × the paper's gradient in the print, both at the
 *                  middle density, against the first way
 *   next roll      contrast × k, k = target range / range;  n of N+n = 7 - 7 / k
 *
 * The exposure is set so that the highlight just prints (net 0.04). Fluctuations of density grow
 * with the local gain, since a bath works on the grains that are there; longer development makes new
 * and larger ones, so the figure of the next roll is the least it may be.
 *
 * Sources: [ISO6846] the ends of the exposure scale; [GSE1979], [MEES1942] the classes of baths; the
 * gains of the processes come with the defaults. Deviations: papers count as of one speed at the
 * highlight; two baths in turn are taken to multiply.
 */
import { InvalidArgumentError } from '../../errors.ts';
import { exactly } from '../../estimate.ts';
import {
  generatedPaper,
  gradeBand,
  gradeOf,
  isoRangeRounded,
  printTone,
  type GradeTable,
  type PrintPaper,
} from '../../paper/index.ts';
import { LOG_STOP } from '../../readings/index.ts';
import { PROPORTIONAL } from '../gain-law.ts';
import { planTreatment, type TreatmentTarget } from '../plan-treatment.ts';
import type { PrintingOptions, RangeReport } from '../predict-treatment.ts';
import type { TreatmentModel } from '../treatment-model.ts';
import { intensifiers } from './intensifiers.ts';
import { lawChange, rangeOf, type NegativeChange } from './negative-change.ts';
import { reducers } from './reducers.ts';
import type { ProcessDefaults, WayId, WayOut } from './way-out.ts';

export interface WaysInput {
  readonly model: TreatmentModel;
  /** Net densities, diffuse, stain included. */
  readonly negative: { readonly shadow: number; readonly highlight: number };
  /** Where tones should part well; the negative's own ends unless given. */
  readonly separationAt?: { readonly shadow: number; readonly highlight: number };
  readonly target: TreatmentTarget;
  /** The selenium bath that is considered. */
  readonly bath: { readonly partsWater: number; readonly celsius: number };
  readonly options: PrintingOptions;
  readonly defaults: ProcessDefaults;
  /** The user's own paper; it is used wherever a way fits it within 0.05. */
  readonly paper?: PrintPaper;
  /** Shortest and longest exposure scale that split exposures reach. */
  readonly splitScales: readonly [number, number];
}

/** Half the step to which ISO ranges are rounded: a paper this near fits. */
const FITS = 0.05;
const TEXTURAL_STOPS = 7;

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
  const aim = aimedRange(target, gradeTable, callierFactor);
  const middle = 0.5 * (shadow + highlight);
  const frame: Frame = { input, alone, aim, callierFactor, middle };
  const way = (id: WayId, change: NegativeChange, more: Partial<WayOut> = {}): WayOut =>
    wayOf(frame, id, change, more);

  const [hardest, softest] = input.splitScales;
  const splitScale = Math.min(softest, Math.max(hardest, before));
  const untouched = [
    way('print-to-fit', alone),
    way('split-exposure', alone, {
      paper: generatedPaper(splitScale),
      limit: splitScale === before ? null : 'beyond-paper',
    }),
  ];
  // Longer development raises silver and stain alike.
  const k = aim / before;
  const nextRoll = way(
    'next-roll',
    (u) => {
      const { printing, diffuse, slope, diffuseSlope } = alone(u);
      return {
        printing: k * printing,
        diffuse: k * diffuse,
        slope: k * slope,
        diffuseSlope: k * diffuseSlope,
      };
    },
    { gain: k, developmentChange: TEXTURAL_STOPS * (1 - 1 / k) },
  );

  const plan = planTreatment(
    model,
    { densityRange: highlight - shadow, shadowNetDensity: shadow },
    target,
    bath,
    options,
  );
  const baths =
    plan.reason === 'needs-reduction'
      ? reducers(negative, aim, settings, defaults)
      : intensifiers(input, plan.bath, settings);
  return [...untouched, ...baths.map(({ id, change, ...more }) => way(id, change, more)), nextRoll];
}

/** What every way is reckoned against. */
interface Frame {
  readonly input: WaysInput;
  readonly alone: NegativeChange;
  readonly aim: number;
  readonly callierFactor: number;
  readonly middle: number;
}

function wayOf(
  { input, alone, aim, callierFactor, middle }: Frame,
  id: WayId,
  change: NegativeChange,
  more: Partial<WayOut>,
): WayOut {
  const { negative, separationAt = negative, options, paper: own } = input;
  const { gradeTable } = options;
  const range = rangeOf(change, negative);
  const report = reportOf(change, negative, gradeTable);
  const paper = more.paper ?? paperFor(range, report, own, gradeTable, callierFactor);
  const top = change(negative.highlight).printing;
  const toneAt = (u: number): number =>
    printTone(paper, top - change(u).printing).gradient * change(u).slope;
  // The first way on its own paper is the measure of grain in the print.
  const plainReport = reportOf(alone, negative, gradeTable);
  const plain = paperFor(rangeOf(alone, negative), plainReport, own, gradeTable, callierFactor);
  const plainTop = alone(negative.highlight).printing;
  const plainGrain =
    printTone(plain, plainTop - alone(middle).printing).gradient * alone(middle).slope;
  const grade = gradeOf(lookedUp(paper.exposureScale, gradeTable, callierFactor), gradeTable);
  const limit = Math.abs(range - aim) <= FITS ? null : range < aim ? 'falls-short' : 'overshoots';
  const touched = id !== 'print-to-fit' && id !== 'split-exposure';
  return {
    id,
    negative: report,
    plausibleRange: null,
    gain: 1,
    minutes: null,
    taken: null,
    developmentChange: null,
    paperGrade: grade.band,
    misfit: range - paper.exposureScale,
    shadowSeparation: toneAt(separationAt.shadow),
    highlightSeparation: toneAt(separationAt.highlight),
    exposureStops: (top - plainTop) / LOG_STOP,
    graininess: {
      negative: change(middle).slope / alone(middle).slope,
      print: toneAt(middle) / plainGrain,
    },
    limit: touched ? limit : null,
    fromTarget: range - aim,
    ...more,
    paper,
  };
}

/** The user's own paper where it fits, else the generated one of the grade that is called for. */
function paperFor(
  range: number,
  { paperGrade }: RangeReport,
  own: PrintPaper | undefined,
  table: GradeTable,
  callierFactor: number,
): PrintPaper {
  if (own !== undefined && Math.abs(range - own.exposureScale) <= FITS) return own;
  const ends = [table.bands[0], table.bands.at(-1)];
  const outside = paperGrade.outside === 'softer' ? ends[0] : ends[1];
  const band = paperGrade.band === null ? outside : gradeBand(paperGrade.band, table);
  if (band === undefined) return generatedPaper(range);
  return generatedPaper(0.5 * (band.lower + band.upper) * condenserFactor(table, callierFactor));
}

/** A table for condenser light lists diffuse ranges; papers are reckoned by what they see. */
function condenserFactor(table: GradeTable, callierFactor: number): number {
  return table.light === 'condenser' ? callierFactor : 1;
}

function lookedUp(range: number, table: GradeTable, callierFactor: number): number {
  return range / condenserFactor(table, callierFactor);
}

function aimedRange(target: TreatmentTarget, table: GradeTable, callierFactor: number): number {
  if ('printingRange' in target) return target.printingRange;
  const { lower, upper } = gradeBand(target.grade, table);
  return 0.5 * (lower + upper) * condenserFactor(table, callierFactor);
}

function reportOf(
  change: NegativeChange,
  { shadow, highlight }: WaysInput['negative'],
  table: GradeTable,
): RangeReport {
  const diffuse = change(highlight).diffuse - change(shadow).diffuse;
  const printing = change(highlight).printing - change(shadow).printing;
  return {
    densityRange: exactly(diffuse),
    printingRange: exactly(printing),
    isoRange:
      printing > 0 ? { exact: exactly(100 * printing), rounded: isoRangeRounded(printing) } : null,
    paperGrade: gradeOf(table.light === 'condenser' ? diffuse : printing, table),
  };
}
