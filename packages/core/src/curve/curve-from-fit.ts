/**
 * A fitted model as a characteristic curve.
 */
import type { ModelFit } from '../fitting/index.ts';
import type { CharacteristicCurve, CurveFamily } from './characteristic-curve.ts';
import type { SortedReadings } from './sort-readings.ts';

/**
 * @param family - name that the curve goes by
 * @param parameterNames - names of the model's parameters
 * @param fit - a fit whose report allows its use
 * @param readings - what was fitted
 * @param knots - of a piecewise family
 * @returns the curve, alone: weight 1, no companions
 */
export function curveFromFit(
  family: CurveFamily,
  parameterNames: readonly string[],
  fit: Pick<
    ModelFit,
    'parameters' | 'covariance' | 'residualStandardDeviation' | 'degreesOfFreedom'
  >,
  readings: SortedReadings,
  knots: readonly number[] = [],
): CharacteristicCurve {
  return {
    family,
    parameters: fit.parameters,
    parameterNames,
    covariance: fit.covariance,
    knots,
    logExposureRange: readings.logExposureRange,
    densityRangeRead: readings.densityRange,
    residualStandardDeviation: fit.residualStandardDeviation,
    degreesOfFreedom: fit.degreesOfFreedom,
    companions: [],
    weight: 1,
  };
}
