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
export { placedSubject, type ShadowPlacement } from './placed-chain.ts';
export {
  toneErrorsOf,
  type HeldTones,
  type MeasuredPaper,
  type ToneErrors,
} from './tone-errors.ts';
export {
  negativePrinter,
  printDensityOf,
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
export { bounded, secondsFromLog, type Bounded, type Limits } from './interval-of.ts';
export {
  matchTones,
  type ToneMatch,
  type ToneRefusal,
  type ToneSetting,
  type WantedTone,
  type WantedTones,
} from './match-tones.ts';
export { logSecondsOfUnit, type ReferencePrint } from './reference-print.ts';
export {
  callierFromPapers,
  callierFromPrints,
  callierFromTimes,
  type GreyPatch,
  type PrintedPair,
} from './callier-factor.ts';
export { sameGrade, type SameGrade, type ToneBeforeAfter } from './same-grade.ts';
export {
  logSecondsOfLight,
  splitForPrint,
  type SplitForPrint,
  type SplitForPrintOptions,
} from './split-for-print.ts';
export {
  nearestSplit,
  splitTones,
  type NearestSplit,
  type LightExposures,
  type SplitTone,
} from './variable-contrast/split-tones.ts';
export {
  burnIn,
  type AreaStops,
  type BurntArea,
  type BurntTone,
} from './variable-contrast/burn-in.ts';
export { startingSplit, type StartingSplit } from './variable-contrast/starting-split.ts';
export { splitTestPlan, type SplitTestPlan } from './split-test-plan.ts';
export {
  darkroomTable,
  type AreaChange,
  type DarkroomStep,
  type WholeExposure,
} from './darkroom-table.ts';
export {
  distanceForMagnification,
  dryDown,
  dryDownPercent,
  magnificationAtDistance,
  timeForAperture,
  type DryDown,
} from './enlarger.ts';
export {
  PRE_EXPOSED_NET,
  safelightTest,
  type SafelightOptions,
  type SafelightReading,
  type SafelightResult,
} from './safelight-test.ts';
export {
  usefulSubjectRange,
  type LosingStage,
  type RangeEnd,
  type SubjectRangeOptions,
  type UsefulSubjectRange,
} from './useful-range.ts';
export { fourQuadrants, type FourQuadrants, type QuadrantPoint } from './four-quadrants.ts';
