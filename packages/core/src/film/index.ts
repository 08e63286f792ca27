export {
  averageGradientBetweenDensities,
  averageGradientBetweenExposures,
  averageGradients,
  chordOver,
  CHORD_LENGTHS,
  type AverageGradient,
} from './average-gradients.ts';
export { CHORD_LIMITS, chordName, chordOf, type Chord } from './chord-of.ts';
export { contrastOf, isContrastMeasure, type ContrastMeasure } from './contrast-of.ts';
export { contrastIndex, type ContrastIndex, type ContrastIndexPoint } from './contrast-index.ts';
export {
  filmMeasures,
  ISO_TRIANGLE_LOG_EXPOSURE,
  ISO_TRIANGLE_RISE,
  SPEED_POINT_DENSITY,
  type FilmMeasureOptions,
  type FilmMeasures,
  type FilmSpeed,
} from './film-measures.ts';
export { deltaXSpeed, type DeltaXSpeed } from './fractional-gradient.ts';
export { isoSpeed, isoSpeedOfDegrees, type IsoSpeed } from './iso-speed.ts';
export { speedPointOf } from './speed-point-of.ts';
export { steepestPart, type SteepestPart } from './steepest-part.ts';
export type { UsefulRange } from './useful-range.ts';
