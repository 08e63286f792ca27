/**
 * @wedgebook/charts: data -> scales -> marks as plain data, and one renderer to SVG text.
 */
export { greyColour } from './scene/mark.ts';
export type { Ink, Mark, PathMark, Scene, SceneTable, TextMark } from './scene/mark.ts';
export { printPalette, type Palette } from './scene/palette.ts';
export { renderSvg } from './scene/render-svg.ts';
export {
  layoutCurveSheet,
  sheetDensities,
  sheetHasRoomForPaper,
} from './curve-sheet/curve-sheet.layout.ts';
export type {
  CurveSheetInput,
  GradeBand,
  PaperScale,
  RangeOnPaper,
  SheetBand,
  SheetPaperFit,
  SheetPoint,
  SheetSeries,
} from './curve-sheet/curve-sheet.types.ts';
export {
  layoutRangeRuler,
  rangeRulerHeight,
  type RangeRulerInput,
} from './range-ruler/range-ruler.layout.ts';
export {
  layoutCompletionChart,
  type CompletionChartInput,
  type CompletionCurve,
  type CompletionPoint,
} from './completion-chart/completion-chart.layout.ts';
export {
  formatClock,
  formatMinutes,
  formatNumber,
  formatSigned,
  formatStops,
  STOP,
} from './text/format.ts';
export { FONT_FAMILY, textWidth } from './text/text-width.ts';
export { FILLS_WITHIN, fitSentence, fitState, formatScale, type FitState } from './text/words.ts';
export {
  layoutWaysChart,
  type WayRow,
  type WaysChartInput,
} from './ways-chart/ways-chart.layout.ts';
export {
  layoutContrastChart,
  type ContrastChartInput,
  type ContrastLaw,
} from './contrast-chart/contrast-chart.layout.ts';
export {
  layoutZoneLadder,
  type LadderRow,
  type ZoneLadderInput,
} from './zone-ladder/zone-ladder.layout.ts';
export {
  layoutDriftChart,
  type DriftChartInput,
  type DriftPanel,
} from './drift-chart/drift-chart.layout.ts';
export {
  layoutPrintHistogram,
  type HistogramPrint,
  type PrintHistogramInput,
} from './print-histogram/print-histogram.layout.ts';
export {
  layoutScanResponse,
  type ResponsePoint,
  type ScanResponseInput,
  type TabletStep,
} from './scan-response/scan-response.layout.ts';
export {
  layoutFourQuadrants,
  type FourQuadrantsInput,
  type QuadrantSeries,
  type QuadrantTone,
} from './four-quadrants/four-quadrants.layout.ts';
