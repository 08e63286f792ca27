/**
 * The figures of one way: range and grade after, the paper that it is printed on, separations,
 * exposure and grain.
 *
 * Sources: see `ways-out.ts`. Deviations: none.
 */
import { exactly } from '../estimate.ts';
import {
  generatedPaper,
  gradeBand,
  gradeOf,
  printTone,
  type GradeTable,
  type PrintPaper,
} from '../paper/index.ts';
import { LOG_STOP } from '../readings/index.ts';
import { rangeReport, type PrintingOptions, type RangeReport } from '../treatment/index.ts';
import { rangeOf, type NegativeChange, type NegativeNets } from './negative-change.ts';
import type { WayId, WayOut } from './way-out.ts';
import type { WaysInput } from './ways-out.ts';

/** Half the step to which ISO ranges are rounded: a paper this near fits. */
const FITS = 0.05;

/** What every way is reckoned against. */
export interface Frame {
  readonly input: WaysInput;
  readonly alone: NegativeChange;
  readonly aim: number;
  readonly callierFactor: number;
  readonly middle: number;
}

/** A way with its figures; `more` stands before what is reckoned here. */
export function wayOf(
  { input, alone, aim, callierFactor, middle }: Frame,
  id: WayId,
  change: NegativeChange,
  more: Partial<WayOut>,
): WayOut {
  const { negative, separationAt = negative, options, paper: own } = input;
  const { gradeTable } = options;
  const range = rangeOf(change, negative);
  const report = reportOf(change, negative, options);
  const paper = more.paper ?? paperFor(range, report, own, gradeTable, callierFactor);
  const top = change(negative.highlight).printing;
  const toneAt = (u: number): number =>
    printTone(paper, top - change(u).printing).gradient * change(u).slope;
  // The first way on its own paper is the measure of grain in the print.
  const plainReport = reportOf(alone, negative, options);
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
    redevelopedPart: null,
    nextRoll: null,
    split: null,
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
    warnings: [],
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
export function condenserFactor(table: GradeTable, callierFactor: number): number {
  return table.light === 'condenser' ? callierFactor : 1;
}

function lookedUp(range: number, table: GradeTable, callierFactor: number): number {
  return range / condenserFactor(table, callierFactor);
}

function reportOf(
  change: NegativeChange,
  { shadow, highlight }: NegativeNets,
  { gradeTable, callierFactorError = null }: PrintingOptions,
): RangeReport {
  const [high, low] = [change(highlight), change(shadow)];
  return rangeReport(
    exactly(high.diffuse - low.diffuse),
    {
      value: high.printing - low.printing,
      standardError:
        callierFactorError === null ? null : (high.silver - low.silver) * callierFactorError,
    },
    gradeTable,
  );
}
