/**
 * What paper a negative asks for, and how a given paper serves it.
 *
 *   printing range  = Q (silver range) + stain range
 *                   = DR (Q + s) / (1 + s),  s stain density per unit of silver density
 *   exposure scale wanted = printing range;  R = 100 times it
 *   errors: see `printingRange`; var (range - scale) = var range + var scale
 *
 * Sources: [ISO6846] introduction: prints are generally excellent when the paper's log exposure
 * range equals the negative's effective density range; the errors are derived (delta method). Deviations:
 * the factor and the paper's scale count as independent, also where the one was measured by the other.
 */
import { InvalidArgumentError } from '../errors.ts';
import { combinedError, type Estimate } from '../estimate.ts';
import {
  gradeOf,
  gradesWithin,
  isoRangeRounded,
  type GradesWithin,
  type GradeTable,
  type PaperGrade,
} from '../paper/index.ts';
import { LOG_STOP } from '../readings/index.ts';
import { printingRange as printingRangeOf } from '../treatment/index.ts';
import { warning, type Warning } from '../warning.ts';
import { bounded } from './interval-of.ts';

/** The negative, by its range or by the two densities that it lies between. */
export type NegativeRange =
  | { readonly densityRange: number; readonly standardError?: number | null }
  | {
      /** Density of the thinnest part that must show detail. */
      readonly shadowDensity: number;
      /** Density of the densest part that must show detail. */
      readonly highlightDensity: number;
      readonly standardError?: number | null;
    };

export interface MatchOptions {
  /** Q, how much more density the enlarger's light sees than a diffuse reading; 1 unless given. */
  readonly callierFactor?: number;
  /** Standard error of Q where it was measured; it counts in every figure that Q is in. */
  readonly callierFactorError?: number | null;
  /** Stain density per unit of silver density in the paper's channel; 0 unless given. */
  readonly stain?: number;
  readonly gradeTable: GradeTable;
  /** A second table; a warning says when it gives another grade. */
  readonly rivalTable?: GradeTable;
  /** Exposure scale of the user's own paper. */
  readonly paper?: Estimate;
}

/** Within 0.05 log, half the step to which ISO ranges are rounded, a negative fits. */
type FitVerdict = 'falls-short' | 'fits' | 'overshoots';

/** How a paper of known exposure scale serves the negative. */
export interface PaperFit {
  readonly exposureScale: Estimate;
  /** Printing range less exposure scale, log10; negative where the negative falls short. */
  readonly difference: Estimate;
  readonly differenceStops: number;
  readonly verdict: FitVerdict;
  /**
   * Verdicts that the error of the difference leaves possible (95 %), from falling short to
   * overshooting; the one verdict where no error is known.
   */
  readonly verdictsWithin: readonly FitVerdict[];
}

export interface NegativeMatch {
  readonly densityRange: Estimate;
  readonly printingRange: Estimate;
  /** The exposure scale that the paper should have: the printing range. */
  readonly exposureScale: Estimate;
  readonly isoRange: { readonly exact: Estimate; readonly rounded: number } | null;
  readonly paperGrade: PaperGrade;
  /** Softest and hardest grade that the errors of range and factor leave possible (95 %). */
  readonly gradesWithin: GradesWithin;
  readonly paper: PaperFit | null;
  readonly warnings: readonly Warning[];
}

/** Half the step of 10 to which ISO ranges are rounded, as log exposure. */
const FIT_TOLERANCE = 0.05;

/**
 * Matches a negative to a paper.
 *
 * @param negative - density range, or shadow and highlight densities, diffuse readings
 * @param options - Callier factor, stain, grade table, and the user's own paper
 * @returns range as the paper sees it, scale, ISO range and grade that it calls for
 * @throws InvalidArgumentError if a density is not finite, the Callier factor not in [1, 2] or its
 *   error below zero
 * @source [ISO6846] introduction
 */
export function matchNegative(negative: NegativeRange, options: MatchOptions): NegativeMatch {
  const { callierFactor = 1, callierFactorError = null, stain = 0 } = options;
  const { gradeTable, rivalTable, paper } = options;
  if (!(callierFactor >= 1 && callierFactor <= 2)) {
    throw new InvalidArgumentError('matchNegative', 'callierFactor', callierFactor, 'in [1, 2]');
  }
  const warnings: Warning[] = [];
  const signed =
    'densityRange' in negative
      ? negative.densityRange
      : negative.highlightDensity - negative.shadowDensity;
  if (!(Number.isFinite(signed) && Math.abs(signed) <= 6)) {
    throw new InvalidArgumentError('matchNegative', 'densityRange', signed, 'from 0 to 6');
  }
  if (signed < 0) warnings.push(warning('highlight-thinner-than-shadow', { range: signed }));
  const densityRange = {
    value: Math.abs(signed),
    standardError: negative.standardError ?? null,
  };
  const printingRange = printingRangeOf(densityRange, {
    callierFactor,
    callierFactorError,
    stain,
  });
  const looked = gradeTable.light === 'condenser' ? densityRange : printingRange;
  const paperGrade = gradeOf(looked.value, gradeTable);
  if (paperGrade.outside !== null) {
    warnings.push(warning('range-outside-grades', { outside: paperGrade.outside }));
  }
  if (!gradeTable.provenance.verified) {
    warnings.push(warning('value-unverified', { what: gradeTable.name }));
  }
  if (rivalTable) {
    const rival = gradeOf(printingRange.value, rivalTable);
    if (rival.band !== paperGrade.band) {
      warnings.push(
        warning('grade-tables-disagree', {
          grade: paperGrade.band ?? 'none',
          rivalGrade: rival.band ?? 'none',
          rivalTable: rivalTable.name,
        }),
      );
    }
  }
  return {
    densityRange,
    printingRange,
    exposureScale: printingRange,
    isoRange:
      printingRange.value > 0
        ? { exact: times100(printingRange), rounded: isoRangeRounded(printingRange.value) }
        : null,
    paperGrade,
    gradesWithin: gradesWithin(looked, gradeTable),
    paper: paper === undefined ? null : paperFit(printingRange, paper),
    warnings,
  };
}

function paperFit(printingRange: Estimate, exposureScale: Estimate): PaperFit {
  const value = printingRange.value - exposureScale.value;
  const standardError = combinedError(printingRange.standardError, exposureScale.standardError);
  const difference = { value, standardError };
  const verdict = verdictOf(value);
  const { interval } = bounded(difference);
  const [first, last] = (interval ?? [value, value]).map((end) => VERDICTS.indexOf(verdictOf(end)));
  return {
    exposureScale,
    difference,
    differenceStops: value / LOG_STOP,
    verdict,
    verdictsWithin: VERDICTS.slice(first, (last ?? 0) + 1),
  };
}

const VERDICTS = ['falls-short', 'fits', 'overshoots'] as const;

function verdictOf(difference: number): FitVerdict {
  // Rounded to a billionth, so that a paper of exactly the negative's range ± 0.05 fits.
  const distance = Math.round(Math.abs(difference) * 1e9) / 1e9;
  if (distance <= FIT_TOLERANCE) return 'fits';
  return difference < 0 ? 'falls-short' : 'overshoots';
}

function times100({ value, standardError }: Estimate): Estimate {
  return {
    value: 100 * value,
    standardError: standardError === null ? null : 100 * standardError,
  };
}
