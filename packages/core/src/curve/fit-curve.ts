/**
 * From the readings of a strip to its characteristic curve.
 *
 * Sources: `docs/` holds the study behind the default family. Deviations: none.
 */
import {
  asDrawn,
  fitModel,
  hurterDriffield,
  logistic4,
  logistic5,
  monotoneSmooth,
  type CurveModel,
} from '../fitting/index.ts';
import { checkReadings, type CurveReadings } from '../readings/index.ts';
import { warning, type Warning } from '../warning.ts';
import type { CharacteristicCurve, CurveFamily } from './characteristic-curve.ts';
import { curveFromFit } from './curve-from-fit.ts';
import { fitWarnings, unfit, type CurveFit } from './curve-fit.ts';
import { defaultCurve } from './default-curve.ts';
import { toeShoulderCurve } from './first-curve.ts';
import type { FindSuspects } from './suspects-of.ts';
import { sortReadings, type SortedReadings } from './sort-readings.ts';

export interface FitCurveOptions {
  /**
   * Family to fit. By default `toe-shoulder`, or `monotone-smooth` where a lack-of-fit test says
   * that it misses the readings, the other widening the errors.
   */
  readonly family?: CurveFamily | undefined;
  /**
   * Looks for readings that do not belong to the curve: `findSuspects`, given by whoever shows them,
   * as the search takes longer than the fit. Without it no reading is suspected.
   */
  readonly suspects?: FindSuspects | undefined;
}

/**
 * Fits a characteristic curve.
 *
 * @param readings - densities by log exposure, any order; replicates repeat the log exposure
 * @param options - the family
 * @returns the curve with warnings about the readings and the fit, or why there is none
 * @throws InvalidArgumentError if the arrays differ in length or hold a value that is not finite
 */
export function fitCurve(readings: CurveReadings, options: FitCurveOptions = {}): CurveFit {
  const { family, suspects } = options;
  const sorted = sortReadings(readings);
  const warnings = checkReadings(readings);
  const reason = unfit(sorted);
  if (reason !== null) return { status: 'not-determined', reason, warnings };
  if (family === undefined) {
    const chosen = defaultCurve(sorted);
    if (chosen === null) return { status: 'not-determined', reason: 'fit-failed', warnings };
    const { curve, lackOfFit } = chosen;
    if (chosen.reason !== 'family-fits') {
      warnings.push(
        warning('lack-of-fit', { pValue: lackOfFit.probability ?? 0, family: curve.family }),
      );
    }
    return fitted(curve, sorted, warnings, suspects);
  }
  const curve = fitFamily(sorted, family);
  if (curve === null) return { status: 'not-determined', reason: 'fit-failed', warnings };
  return fitted(curve, sorted, warnings, suspects);
}

function fitted(
  curve: CharacteristicCurve,
  sorted: SortedReadings,
  warnings: readonly Warning[],
  findSuspects: FindSuspects | undefined,
): CurveFit {
  const found = findSuspects?.(curve, sorted);
  return {
    status: 'ok',
    curve,
    suspects: found?.suspects ?? [],
    warnings: [...warnings, ...fitWarnings(curve, sorted), ...(found?.warnings ?? [])],
  };
}

/**
 * The curve of one family, without warnings.
 *
 * @param sorted - readings in order
 * @param family - the family
 * @returns the curve, or null where the readings do not determine it
 */
export function fitFamily(sorted: SortedReadings, family: CurveFamily): CharacteristicCurve | null {
  if (unfit(sorted) !== null) return null;
  switch (family) {
    case 'toe-shoulder':
      return toeShoulderCurve(sorted);
    case 'logistic-4':
      return parametricCurve(family, logistic4, sorted);
    case 'logistic-5':
      return parametricCurve(family, logistic5, sorted);
    case 'hurter-driffield':
      return parametricCurve(family, hurterDriffield, sorted);
    case 'monotone-smooth': {
      const smooth = monotoneSmooth(sorted.x, sorted.y);
      return curveFromFit(family, smooth.model.parameterNames, smooth, sorted, smooth.knots);
    }
    case 'as-drawn': {
      const drawn = asDrawn(sorted.x, sorted.y);
      const exact = { ...drawn, residualStandardDeviation: null, degreesOfFreedom: 0 };
      return curveFromFit(family, drawn.model.parameterNames, exact, sorted, drawn.knots);
    }
  }
}

function parametricCurve(
  family: CurveFamily,
  model: CurveModel,
  sorted: SortedReadings,
): CharacteristicCurve | null {
  if (sorted.x.length < model.parameterNames.length) return null;
  const fit = fitModel(model, sorted.x, sorted.y);
  if (fit.report.status === 'too-few-data' || !fit.parameters.every(Number.isFinite)) return null;
  return curveFromFit(family, model.parameterNames, fit, sorted);
}
