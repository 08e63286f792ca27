export {
  CURVE_FAMILIES,
  type CharacteristicCurve,
  type CurveCompanion,
  type CurveFamily,
} from './characteristic-curve.ts';
export {
  compareFamilies,
  type FamiliesCompared,
  type FamilyComparison,
  type FamilyVerdict,
} from './compare-families.ts';
export { densityBand, type BandPoint } from './density-band.ts';
export {
  constant,
  derivedBaseFog,
  derivedDensity,
  derivedLogExposure,
  derivedNetPoint,
  plus,
  quotient,
  scaled,
  shifted,
  through,
} from './derived.ts';
export { densityAt, gradientAt } from './evaluate.ts';
export { FEWEST_STEPS, type CurveFit } from './curve-fit.ts';
export { firstCurve } from './first-curve.ts';
export { fitCurve, type FitCurveOptions } from './fit-curve.ts';
export { logExposureAt } from './log-exposure-at.ts';
export { estimateOn, requiredEstimate, type CurveMeasure, type Derived } from './measure.ts';
export { placeOfMaximum } from './place-of-maximum.ts';
export { functionOf, type NamedFunction } from './function-of.ts';
export { modelOf } from './model-of.ts';
export { FEWEST_FOR_SLIPS, slipSearch, type SlipSearch } from './slip-search.ts';
export { findSuspects, type FindSuspects, type SuspectsFound } from './suspects-of.ts';
