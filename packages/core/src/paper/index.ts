export type { GradeBand, GradeTable } from './grade-table.ts';
export { gradeBand, gradeOf, rangeOfGrade, type PaperGrade } from './grade-of.ts';
export { gradesWithin, type GradesWithin } from './grades-within.ts';
export { fitPaperCurve, PAPER_FAMILIES } from './fit-paper-curve.ts';
export { greatestGradient } from './greatest-gradient.ts';
export {
  ISO_PAPER_SPEEDS,
  isoPaperSpeed,
  isoPaperSpeedRounded,
  isoRange,
  isoRangeRounded,
} from './iso-range.ts';
export { greyOfLightness } from './grey-of-lightness.ts';
export { densityFromLightness, lightnessFromDensity, lightnessGradient } from './lightness.ts';
export { paperMeasures, type PaperMeasureOptions, type PaperMeasures } from './paper-measures.ts';
export { PAPER_SPEED_NET_DENSITY, SHADOW_FRACTION, THRESHOLD_NET_DENSITY } from './paper-points.ts';
export { paperFromGrade, paperFromIsoRange, type PaperScale } from './paper-scale.ts';
export { GENERATED_NET_MAXIMUM, generatedPaper, type PrintPaper } from './print-paper.ts';
export {
  exposureForTone,
  paperResponse,
  type PaperResponse,
  type PrintTone,
} from './paper-response.ts';
export { printTone } from './print-tone.ts';
export { settingName, settingPosition } from './setting-position.ts';
export {
  paperMap,
  paperMapFromGrades,
  paperMapFromRanges,
  type MappedSetting,
  type PaperMap,
  type PaperMapResult,
  type SettingStrip,
} from './paper-map.ts';
export {
  paperAtSetting,
  paperForSetting,
  heldToneError,
  toneAtSetting,
  toneDifferenceError,
  type PaperSetting,
  type SettingTone,
} from './paper-at-setting.ts';
export { settingForScale, type NearestSetting, type SettingForScale } from './setting-for-scale.ts';
export {
  densityOfMixedExposure,
  toneOfMixture,
  type MixedExposure,
  type MixtureTone,
  type VariableContrastPaper,
} from './variable-contrast/variable-contrast-paper.ts';
export {
  exposureScaleOfMixture,
  mixturePaper,
  softLogExposureFor,
} from './variable-contrast/mixed-curve.ts';
export {
  fitVariableContrast,
  type LayerCompanion,
  type VariableContrastFit,
  type VariableContrastReading,
} from './variable-contrast/fit-variable-contrast.ts';
export { mixtureDerivatives, type LayerForm } from './variable-contrast/layer-form.ts';
export {
  leaveOneOut,
  type LeftOutError,
  type VariableContrastStrip,
} from './variable-contrast/leave-one-out.ts';
