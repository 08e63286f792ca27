export type { GradeBand, GradeTable } from './grade-table.ts';
export { gradeBand, gradeOf, rangeOfGrade, type PaperGrade } from './grade-of.ts';
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
export { densityFromLightness, lightnessFromDensity } from './lightness.ts';
export {
  PAPER_SPEED_NET_DENSITY,
  SHADOW_FRACTION,
  THRESHOLD_NET_DENSITY,
  paperMeasures,
  type PaperMeasureOptions,
  type PaperMeasures,
} from './paper-measures.ts';
export { paperFromGrade, paperFromIsoRange, type PaperScale } from './paper-scale.ts';
export {
  GENERATED_NET_MAXIMUM,
  generatedPaper,
  printTone,
  type PrintPaper,
  type PrintTone,
} from './print-paper.ts';
