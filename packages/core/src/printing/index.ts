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
  splitExposure,
  type SplitAims,
  type SplitExposure,
  type ToneAim,
} from './variable-contrast/split-exposure.ts';
export {
  negativePrinter,
  printLogExposureFor,
  printNegative,
  USUAL_PAPER_WHITE,
  type NegativePrinting,
  type NegativeTone,
} from './print-negative.ts';
export {
  followTone,
  tonePrinter,
  zoneTones,
  type SubjectTone,
  type ToneChain,
  type ZoneTone,
} from './tone-chain.ts';
export { displayGrey, type DisplayOptions } from './display-grey.ts';
export {
  indexByCode,
  negativeTable,
  subjectTable,
  USUAL_SPAN,
  type CodeEncoding,
  type PreviewTable,
  type TableSpan,
} from './preview-table.ts';
