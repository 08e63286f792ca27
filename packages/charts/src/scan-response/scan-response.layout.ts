/**
 * How a scanner answered a known tablet: darkness of the file over density, the steps of the tablet,
 * the fitted curve, and where the steps of the strip were read on it.
 */
import { line as lineShape, scaleLinear } from 'd3';
import { bottomAxis, leftAxis, type Plot } from '../axes/axes.ts';
import { markers } from '../scene/markers.ts';
import { segment, stroke, type Mark, type Scene } from '../scene/mark.ts';
import { formatNumber, formatSigned } from '../text/format.ts';
import { words } from '../text/words.ts';

export interface ResponsePoint {
  readonly density: number;
  /** -log10 of the value over the greatest value. */
  readonly darkness: number;
}

export interface TabletStep extends ResponsePoint {
  readonly step: number;
  /** Density by the curve less the known one; null where it took no part. */
  readonly difference: number | null;
}

export interface ScanResponseInput {
  readonly width: number;
  readonly height: number;
  readonly title: string;
  readonly curve: readonly ResponsePoint[];
  readonly tablet: readonly TabletStep[];
  readonly strip: readonly ResponsePoint[];
}

const MARGIN = { top: 52, right: 18, bottom: 48, left: 46 };

/** Lays out the response. */
export function layoutScanResponse(input: ScanResponseInput): Scene {
  const { width, height, curve, tablet, strip } = input;
  const plot: Plot = {
    x: MARGIN.left,
    y: MARGIN.top,
    width: Math.max(40, width - MARGIN.left - MARGIN.right),
    height: Math.max(40, height - MARGIN.top - MARGIN.bottom),
  };
  const all = [...curve, ...tablet, ...strip];
  const span = (pick: (point: ResponsePoint) => number): [number, number] => {
    const values = all.map(pick);
    return values.length === 0 ? [0, 1] : [Math.min(0, ...values), Math.max(0.1, ...values)];
  };
  const x = scaleLinear(
    span((p) => p.density),
    [plot.x, plot.x + plot.width],
  ).nice();
  const y = scaleLinear(
    span((p) => p.darkness),
    [plot.y + plot.height, plot.y],
  ).nice();
  const pixel = (p: ResponsePoint): [number, number] => [x(p.density), y(p.darkness)];
  const path = lineShape<ResponsePoint>(
    (p) => x(p.density),
    (p) => y(p.darkness),
  ).digits(2);
  const bottom = plot.y + plot.height;
  const drops = strip
    .map((p) => segment(x(p.density), bottom, x(p.density), Math.min(bottom, y(p.darkness))))
    .join('');
  const marks: Mark[] = [
    ...leftAxis(y, plot, words.darkness),
    ...bottomAxis(x, plot, words.density),
    ...(drops === '' ? [] : [stroke(drops, 'after', 1, { dash: '2 3', name: 'response-strip' })]),
    stroke(path(curve) ?? '', 'before', 2, { name: 'response-curve' }),
    ...markers('cross', tablet.map(pixel), 'text', 4, 'response-tablet'),
    ...markers('diamond', strip.map(pixel), 'after', 4, 'response-steps'),
    ...legend(),
  ];
  return {
    width,
    height,
    title: input.title,
    marks,
    description: describe(input),
    table: table(input),
  };
}

function legend(): Mark[] {
  const y = 16;
  const entry = (left: number, text: string, ink: 'text' | 'after'): Mark[] => [
    ...markers(ink === 'text' ? 'cross' : 'diamond', [[left + 6, y - 4]], ink, 4, `key-${ink}`),
    { kind: 'text', x: left + 18, y, text, anchor: 'start', size: 12, ink },
  ];
  return [...entry(8, words.tabletSteps, 'text'), ...entry(130, words.stripSteps, 'after')];
}

function describe({ tablet, strip }: ScanResponseInput): string {
  const misses = tablet.flatMap(({ difference }) => (difference === null ? [] : [difference]));
  const worst = Math.max(0, ...misses.map(Math.abs));
  return `${tablet.length} steps of the tablet, the farthest off the curve by ${formatNumber(worst, 3)} of density; ${strip.length} steps of the strip read on it.`;
}

function table({ tablet, title }: ScanResponseInput): Scene['table'] {
  return {
    caption: title,
    columns: [words.step, words.tabletDensity, words.darkness, words.offCurve],
    rows: tablet.map(({ step, density, darkness, difference }) => [
      String(step),
      formatNumber(density, 2),
      formatNumber(darkness, 3),
      difference === null ? words.leftOut : formatSigned(difference, 3),
    ]),
  };
}
