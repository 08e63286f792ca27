export { bathCapacity, type BathCapacity, type SeleniumBath } from './bath-capacity.ts';
export { bathForGain, type BathForGain } from './bath-for-gain.ts';
export {
  completionCurve,
  sensitivityOf,
  type CompletionPoint,
  type Sensitivity,
} from './completion-curve.ts';
export { rateTimesTime, type RateLaw } from './conversion.ts';
export { COMPLETE, NAMED_BATH, defaultTreatment } from './default-model.ts';
export {
  concentrationOf,
  dose,
  doseRate,
  minutesForDose,
  REFERENCE_CELSIUS,
  type Bath,
  type DoseExponents,
} from './dose.ts';
export { fitDoseResponse, type DoseResponseFit, type GainsAtBaths } from './fit-dose-response.ts';
export { fitGainLaw, type GainLawFit } from './fit-gain-law.ts';
export type { StripPairs } from './pair-blocks.ts';
export { fitTreatment, type FitTreatmentOptions, type TreatedStrip } from './fit-treatment.ts';
export { gainAtBath, type BathGain } from './gain-at-dose.ts';
export {
  GAIN_LAWS,
  PROPORTIONAL,
  REFERENCE_NET_DENSITY,
  treatedNetDensity,
  type GainLaw,
  type GainLawFamily,
} from './gain-law.ts';
export {
  pairStrips,
  type BaseFog,
  type BaseFogSource,
  type DensityPair,
  type PairedReadings,
  type PairOptions,
} from './pair-strips.ts';
export {
  minutesForResponse,
  planTreatment,
  type NotReachable,
  type PlanAim,
  type TreatmentPlan,
  type TreatmentTarget,
} from './plan-treatment.ts';
export {
  predictTreatment,
  rangeReport,
  type NegativeToTreat,
  type PrintingOptions,
  type RangeReport,
  type TreatmentPrediction,
} from './predict-treatment.ts';
export {
  doseForResponse,
  RESPONSE_FAMILIES,
  responseAt,
  type Response,
  type ResponseFamily,
} from './response.ts';
export { effectiveGain, printingRange, type StainOptions } from './stain.ts';
export {
  toneBaseFog,
  treatedCurve,
  treatedReadings,
  type TreatedCurveOptions,
  type TreatedCurvePoint,
} from './treated-curve.ts';
export {
  densityAfter,
  densityAfterWithSlope,
  rangeAfter,
  treatmentEffect,
  type EffectOptions,
  type TreatmentEffect,
} from './treatment-effect.ts';
export { RESPONSE_BOUNDS } from './held-response.ts';
export {
  lawOf,
  RESPONSE_PARAMETERS,
  type ComparedModel,
  type DefaultParameter,
  type DoseResponse,
  type HeldResponse,
  type FittedLaw,
  type LawReason,
  type ParameterOrigin,
  type ResponseParameter,
  type RivalResponse,
  type SeleniumDefaults,
  type TreatedGain,
  type TreatmentModel,
  type UsualRange,
} from './treatment-model.ts';
export { nextTrial, type NextTrial, type NextTrialOptions, type TrialValue } from './next-trial.ts';
export { minutesError, type BathAim, type MinutesError } from './plan-minutes.ts';
export {
  SELENIUM_PER_SILVER,
  seleniumUsed,
  SILVER_PER_DENSITY,
  type SeleniumUsed,
  type TonedFilm,
} from './selenium-budget.ts';
export { KEEPING_LIMIT, WASH_HALVING_MINUTES, washingMinutes } from './washing.ts';
