/**
 * The words that drawings carry, in one place for the screen, the command and the export.
 */
import { formatNumber, formatStops } from './format.ts';

/** Ranges within this of the paper's scale count as filling it: a sixth of a stop. */
export const FILLS_WITHIN = 0.05;

export const words = {
  density: 'density',
  logExposure: {
    absolute: 'log exposure (log₁₀ lx·s)',
    relative: 'relative log exposure (log₁₀)',
  },
  baseFog: 'base + fog',
  speedPoint: 'speed point',
  grade: 'grade',
  shadow: 'shadow',
  highlight: 'highlight',
  printingRange: 'printing density above the shadow (log₁₀ units)',
  printingRangeShort: 'printing range (log₁₀ units)',
  stops: 'stops',
  minutes: 'minutes in the bath',
  completion: 'completion (%)',
  gain: 'gain (×)',
  developmentMinutes: (celsius: string) => `development at ${celsius.replace(/\.0$/, '')} °C (min)`,
  filmLimit: (contrast: string) => `the film tends to ${contrast}`,
  stripOrLaw: 'strip or law',
  standardError: 'standard error',
  development: 'development',
  zone: 'zone',
  printDensity: 'print density',
  netPrintDensity: 'print density above paper white',
  darkness: 'darkness of the file (−log₁₀ of its value)',
  tabletSteps: 'tablet, known',
  stripSteps: 'strip, read',
  step: 'step',
  tabletDensity: 'tablet density',
  offCurve: 'off the curve',
  leftOut: 'left out',
  shareOfPicture: 'share of the picture (%)',
  lightness: 'lightness L*',
  filmExposure: {
    absolute: 'log exposure of the film (log₁₀ lx·s)',
    relative: 'relative log exposure of the film (log₁₀)',
  },
  negativeDensity: 'negative density to the paper',
  subjectZones: 'subject, zones',
  quadrants: { paper: 'paper', whole: 'subject to print', film: 'film', camera: 'camera' },
  controlStrip: 'control strip',
  signals: 'signals',
  setsLimits: 'sets the limits',
  centre: 'mean',
  sigmas: (count: number, above: boolean) => `${above ? '+' : '−'}${count} sigma`,
  nothingToDraw: 'No curve yet: enter at least four readings.',
} as const;

/** An exposure scale with its unit, such as `0.90 log₁₀`: the range of log10 exposure of a paper. */
export function formatScale(exposureScale: number): string {
  return `${formatNumber(exposureScale, 2)} log₁₀`;
}

/** The frame of the companion panel and of the ruler: its name, and its length. */
export function paperCaption({
  label,
  exposureScale,
}: {
  readonly label: string;
  readonly exposureScale: number;
}): readonly [name: string, length: string] {
  return [`frame: ${label}`, `scale ${formatScale(exposureScale)}`];
}

export type FitState = 'fills' | 'short' | 'over';

/** How a printing range stands to a paper's exposure scale. */
export function fitState(printingRange: number, exposureScale: number): FitState {
  const surplus = printingRange - exposureScale;
  if (Math.abs(surplus) <= FILLS_WITHIN + 1e-9) return 'fills';
  return surplus > 0 ? 'over' : 'short';
}

/** Two short lines for a dimension: the difference in log units, then in stops. */
export function fitLines(printingRange: number, exposureScale: number): readonly string[] {
  const difference = Math.abs(printingRange - exposureScale);
  switch (fitState(printingRange, exposureScale)) {
    case 'fills':
      return ['fills it'];
    case 'short':
      return [`${formatNumber(difference, 2)} short`, formatStops(difference)];
    case 'over':
      return [`${formatNumber(difference, 2)} over`, formatStops(difference)];
  }
}

/** One sentence for the reader who cannot see the drawing. */
export function fitSentence(
  label: string,
  printingRange: number,
  paper: { readonly label: string; readonly exposureScale: number },
): string {
  const range = formatNumber(printingRange, 2);
  const scale = formatScale(paper.exposureScale);
  const difference = Math.abs(printingRange - paper.exposureScale);
  const by = `${formatNumber(difference, 2)} (${formatStops(difference)})`;
  const what = `${label}: the negative's printing range of ${range}`;
  const scaleText = `the exposure scale of ${scale} of ${paper.label}`;
  switch (fitState(printingRange, paper.exposureScale)) {
    case 'fills':
      return `${what} fills ${scaleText}.`;
    case 'short':
      return `${what} falls short of ${scaleText} by ${by}.`;
    case 'over':
      return `${what} overshoots ${scaleText} by ${by}.`;
  }
}
