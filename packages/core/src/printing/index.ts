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
