/**
 * A negative before and after a bath: density range, ISO range and grade.
 *
 *   var range' = k_eff² var range + (range / (1+s))² var k + (silver range')² var Q, the last where the
 *                enlarger sees it
 *
 * Sources: see `treatment-effect.ts`. Deviations: none.
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
import { warning, type Warning } from '../warning.ts';
import type { Bath } from './dose.ts';
import { checkedCallierError, printingRange } from './stain.ts';
import {
  afterWithGain,
  rangeAfter,
  treatmentEffect,
  type TreatmentEffect,
} from './treatment-effect.ts';
import type { TreatmentModel } from './treatment-model.ts';

/** The negative that goes into the bath. */
export interface NegativeToTreat {
  /** Diffuse density range between shadow and highlight, stain included. */
  readonly densityRange: number;
  readonly standardError?: number | null;
  /**
   * Net density of the shadow; counts only for laws that are not proportional. 0.10 unless given,
   * with a warning where it counts.
   */
  readonly shadowNetDensity?: number;
}

export interface PrintingOptions {
  readonly gradeTable: GradeTable;
  /** Q of the enlarger; 1 unless given. */
  readonly callierFactor?: number;
  /** Standard error of Q where it was measured. */
  readonly callierFactorError?: number | null;
  /** Stain density per unit of silver density in the paper's channel; 0 unless given. */
  readonly stain?: number;
  /** Part of the stain that the bath leaves; 1 unless given. */
  readonly stainKept?: number;
}

/** A negative's range and the paper that it calls for. */
export interface RangeReport {
  readonly densityRange: Estimate;
  readonly printingRange: Estimate;
  readonly isoRange: { readonly exact: Estimate; readonly rounded: number } | null;
  readonly paperGrade: PaperGrade;
  /** Softest and hardest grade that the error of the range leaves possible (95 %). */
  readonly gradesWithin: GradesWithin;
}

export interface TreatmentPrediction {
  readonly bath: Bath;
  readonly effect: TreatmentEffect;
  readonly before: RangeReport;
  readonly after: RangeReport;
  /** Density range after at the ends of the plausible interval of the gain. */
  readonly plausibleRange: readonly [number, number];
  readonly warnings: readonly Warning[];
}

/** Shadow assumed where the law needs one: the speed point. */
const ASSUMED_SHADOW = 0.1;

/**
 * Predicts what a bath makes of a negative.
 *
 * @param model - fitted or built-in
 * @param negative - density range, and the shadow's net density where the law needs it
 * @param bath - dilution, minutes, temperature
 * @param options - grade table, Callier factor, stain
 * @returns range, ISO range and grade before and after
 * @throws InvalidArgumentError if the range is not in (0, 6] or an option is out of range
 */
export function predictTreatment(
  model: TreatmentModel,
  negative: NegativeToTreat,
  bath: Bath,
  options: PrintingOptions,
): TreatmentPrediction {
  const { gradeTable, callierFactor = 1, stain = 0, stainKept = 1 } = options;
  const callierFactorError = checkedCallierError(
    'predictTreatment',
    options.callierFactorError ?? null,
  );
  const { shadow, highlight, assumed } = endsOf(negative);
  const effect = treatmentEffect(model, bath, { stain, stainKept });
  const warnings: Warning[] = [...model.warnings, ...effect.warnings];
  if (assumed && effect.law.family !== 'proportional') {
    warnings.push(warning('shadow-density-assumed', { shadow }));
  }
  const rangeError = negative.standardError ?? null;
  const densityRange = { value: negative.densityRange, standardError: rangeError };
  const before = rangeReport(
    densityRange,
    printingRange(densityRange, { callierFactor, callierFactorError, stain }),
    gradeTable,
  );
  const at = (gain: number): number =>
    rangeAfter(shadow, highlight, { ...effect, gain: { value: gain, standardError: null } }).value;
  // A range is silver times Q and the stain that is left, so that silver is its slope by Q.
  const rangeBy = (factor: number): number => rangeAfter(shadow, highlight, effect, factor).value;
  const silverRange = rangeBy(1) - rangeBy(0);
  const rangeAt = (factor: number, factorError: number | null): Estimate => {
    const byGain = rangeAfter(shadow, highlight, effect, factor);
    return {
      value: byGain.value,
      standardError: combinedError(
        byGain.standardError,
        rangeError === null
          ? null
          : rangeError * afterWithGain(highlight, effect, factor).byDensity,
        factorError === null ? null : factorError * silverRange,
      ),
    };
  };
  const after = rangeReport(
    rangeAt(1, null),
    rangeAt(callierFactor, callierFactorError),
    gradeTable,
  );
  for (const [when, grade] of [
    ['before', before.paperGrade],
    ['after', after.paperGrade],
  ] as const) {
    if (grade.outside !== null) {
      warnings.push(warning('range-outside-grades', { when, outside: grade.outside }));
    }
  }
  return {
    bath,
    effect,
    before,
    after,
    plausibleRange: [at(effect.plausibleGain[0]), at(effect.plausibleGain[1])],
    warnings: distinct(warnings),
  };
}

/** Shadow and highlight net densities of a negative. */
export function endsOf(negative: NegativeToTreat): {
  shadow: number;
  highlight: number;
  assumed: boolean;
} {
  const { densityRange, shadowNetDensity } = negative;
  if (!(densityRange > 0 && densityRange <= 6)) {
    throw new InvalidArgumentError('treatment', 'densityRange', densityRange, 'in (0, 6]');
  }
  const shadow = shadowNetDensity ?? ASSUMED_SHADOW;
  if (!(shadow >= 0 && shadow <= 6)) {
    throw new InvalidArgumentError('treatment', 'shadowNetDensity', shadow, 'from 0 to 6');
  }
  return { shadow, highlight: shadow + densityRange, assumed: shadowNetDensity === undefined };
}

/** What the ranges of a negative call for, with the errors that they have. */
export function rangeReport(
  densityRange: Estimate,
  printing: Estimate,
  table: GradeTable,
): RangeReport {
  const { value, standardError } = printing;
  const looked = table.light === 'condenser' ? densityRange : printing;
  return {
    densityRange,
    printingRange: printing,
    isoRange:
      value > 0
        ? {
            exact: {
              value: 100 * value,
              standardError: standardError === null ? null : 100 * standardError,
            },
            rounded: isoRangeRounded(value),
          }
        : null,
    paperGrade: gradeOf(looked.value, table),
    gradesWithin: gradesWithin(looked, table),
  };
}

/** Each warning once. */
export function distinct(warnings: readonly Warning[]): Warning[] {
  const seen = new Set<string>();
  return warnings.filter((item) => {
    const key = JSON.stringify(item);
    return !seen.has(key) && seen.add(key);
  });
}
