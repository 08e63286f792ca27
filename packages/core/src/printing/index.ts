export {
  matchNegative,
  type MatchOptions,
  type NegativeMatch,
  type NegativeRange,
  type PaperFit,
} from './match-negative.ts';
export {
  highlightExposureChange,
  stopsBetween,
  testStrip,
  timeForDensity,
  timeForMagnification,
  timeInStops,
  type TestStripPatch,
} from './exposure-arithmetic.ts';
export { exposureScaleWithFlash, flareGradient, flareOfFactor, withFlare } from './flare.ts';
export {
  densityOfMixedExposure,
  type MixedExposure,
  type VariableContrastPaper,
} from './variable-contrast/variable-contrast-paper.ts';
export { exposureScaleOfMixture, softLogExposureFor } from './variable-contrast/mixed-curve.ts';
export {
  fitVariableContrast,
  type VariableContrastFit,
  type VariableContrastReading,
} from './variable-contrast/fit-variable-contrast.ts';
export {
  splitExposure,
  type SplitAims,
  type SplitExposure,
  type ToneAim,
} from './variable-contrast/split-exposure.ts';
