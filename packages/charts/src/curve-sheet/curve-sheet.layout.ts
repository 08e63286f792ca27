/**
 * The curve sheet: density over log exposure with readings, confidence bands and the speed point,
 * and beside it, on the same density axis, the negative's range inside the paper's exposure scale
 * before and after the bath. Level leaders carry the shadow and the highlight from the curve to the
 * columns, so that curve and paper are read in one movement.
 */
import { extent, scaleLinear, type ScaleLinear } from 'd3';
import { bottomAxis, leftAxis, type Plot } from '../axes/axes.ts';
import { markers } from '../scene/markers.ts';
import { area, segment, stroke, type Mark, type Scene, type SceneTable } from '../scene/mark.ts';
import { textWidth } from '../text/text-width.ts';
import { paperCaption, words } from '../text/words.ts';
import { columnSize, densityOfRange, fitColumn } from './fit-column.ts';
import { describeSheet, sheetTable } from './curve-sheet.table.ts';
import { DrawnPoints, extentOf, type Pixel } from './drawn-points.ts';
import { order, sheetLabels, speedPixel, type SpotPoint } from './sheet-labels.ts';
import type { CurveSheetInput, PaperScale, SheetPoint, SheetSeries } from './curve-sheet.types.ts';

type Linear = ScaleLinear<number, number>;

const PANEL_GAP = 22;
const WIDE = 520; // below this the columns would squeeze the curves
/** What the ends of the density axis are rounded to. */
const DENSITY_STEP = 0.2;
const MARGIN = { top: 58, right: 14, bottom: 48, left: 40 };

const STYLE = {
  before: { width: 2, dash: undefined, shape: 'ring', radius: 3.2 },
  after: { width: 3, dash: '9 4', shape: 'triangle', radius: 3.4 },
  other: { width: 1.25, dash: '2 3', shape: 'cross', radius: 2.2 },
  paper: { width: 2, dash: undefined, shape: 'square', radius: 2.6 },
} as const;

/** Whether a sheet of this width has room for the companion panel. */
export function sheetHasRoomForPaper(width: number): boolean {
  return width >= WIDE;
}

/**
 * Lays out the curve sheet.
 *
 * @param input - what to draw, in data units, and the size in pixels
 * @returns marks in pixels, with a description and the table of the same figures
 */
export function layoutCurveSheet(input: CurveSheetInput): Scene {
  const { width, height, fit } = input;
  const ranges = fit !== null && sheetHasRoomForPaper(width) ? fit.ranges : [];
  const column = columnSize(width);
  const panelWidth = ranges.length * column.width;
  const panelGap = panelWidth > 0 ? PANEL_GAP : 0;
  const plot: Plot = {
    x: MARGIN.left,
    y: MARGIN.top,
    width: Math.max(40, width - MARGIN.left - MARGIN.right - panelWidth - panelGap),
    height: Math.max(40, height - MARGIN.top - MARGIN.bottom),
  };
  const shown = input.series.filter(({ line, markers: read }) => line.length + read.length > 0);
  const head = { width, height, title: input.title };
  if (shown.length === 0) return { ...head, ...emptySheet(plot), table: sheetTable(input) };
  const { x, y } = scales(input, shown, plot);
  const panelX = plot.x + plot.width + panelGap;
  const drawn = new DrawnPoints(x, y);
  const pixel = (p: SheetPoint) => drawn.pixel(p);
  const spots = spotPoints(input, shown);
  const others = shown.filter(({ role }) => role === 'other');
  const still: Mark[] = [
    ...axes(drawn, plot, width - MARGIN.right - plot.x, words.logExposure[input.exposureKind]),
    ...others.flatMap((series) => seriesMarks(series, drawn)),
  ];
  const marks: Mark[] = [
    ...baseFogLine(input, plot, y),
    ...shown.flatMap((series) => bandMarks(series, drawn)),
    ...leaders(spots, ranges.length > 0 ? panelX + column.ladder + 4 : null, column.width, x, y),
    ...order(shown.filter(({ role }) => role !== 'other')).flatMap((series) =>
      seriesMarks(series, drawn),
    ),
    ...speedPointMarks(input.speedPoint, plot, pixel),
    ...markers('square', spots.filter((s) => s.role === 'before').map(pixel), 'before', 4, 'spots'),
    ...markers('square', spots.filter((s) => s.role === 'after').map(pixel), 'after', 4, 'spots'),
    ...sheetLabels(input, shown, spots, plot, drawn),
  ];
  if (fit !== null) {
    ranges.forEach((range, index) => {
      const columnX = panelX + index * column.width;
      marks.push(
        ...fitColumn({
          range,
          ...fit,
          x: columnX,
          size: column,
          first: index === 0,
          top: MARGIN.top - 40,
          ceiling: MARGIN.top,
          y,
        }),
      );
    });
    if (ranges.length > 0 && fit.paper !== null) {
      marks.push(...frameCaption(fit.paper, panelX, plot.y + plot.height + 19, width));
    }
  }
  let table: SceneTable | undefined;
  return {
    ...head,
    description: describeSheet(input),
    marks: [...still, ...marks],
    still: still.length,
    // Made when it is asked for: the screen shows it unfolded only.
    get table() {
      return (table ??= sheetTable(input));
    },
  };
}

/** The paper's name and scale under the panel, on two lines where one has no room for both. */
function frameCaption(paper: PaperScale, x: number, y: number, width: number): Mark[] {
  const [name, length] = paperCaption(paper);
  const one = `${name}, ${length}`;
  const lines = x + textWidth(one, 12) <= width ? [one] : [name, length];
  return lines.map((text, index): Mark => ({
    kind: 'text',
    x,
    y: y + 15 * index,
    text,
    anchor: 'start',
    size: 12,
    ink: 'paper',
    name: 'label-frame',
  }));
}

function emptySheet(plot: Plot): Pick<Scene, 'description' | 'marks'> {
  const marks: Mark[] = [
    {
      kind: 'text',
      x: plot.x + plot.width / 2,
      y: plot.y + plot.height / 2,
      text: words.nothingToDraw,
      anchor: 'middle',
      size: 13,
      ink: 'quiet',
    },
  ];
  return { description: words.nothingToDraw, marks };
}

function scales(
  input: CurveSheetInput,
  shown: readonly SheetSeries[],
  plot: Plot,
): { x: Linear; y: Linear } {
  const reach = reachOf(shown);
  const [x0 = -3, x1 = 0] = extent(reach.flatMap(({ logExposure }) => logExposure));
  const pad = Math.max(0.05, (x1 - x0) * 0.02);
  return {
    x: scaleLinear([x0 - pad, x1 + pad], [plot.x, plot.x + plot.width]),
    y: scaleLinear(input.densities ?? sheetDensities(input), [plot.y + plot.height, plot.y]),
  };
}

/**
 * The ends of the density axis that a sheet needs, whole steps of density.
 *
 * @param input - what to draw
 */
export function sheetDensities({
  series,
  fit,
}: Pick<CurveSheetInput, 'series' | 'fit'>): readonly [number, number] {
  const rims = (fit?.ranges ?? []).map((range) =>
    densityOfRange(range)(Math.max(range.printingRange, fit?.paper?.exposureScale ?? 0)),
  );
  const [y0 = 0, y1 = 2] = extent([
    ...reachOf(series).flatMap(({ density }) => density),
    ...rims,
    0,
    1,
  ]);
  return [
    Math.floor(Math.min(0, y0) / DENSITY_STEP) * DENSITY_STEP,
    Math.ceil((y1 * 1.02) / DENSITY_STEP) * DENSITY_STEP,
  ];
}

function reachOf(series: readonly SheetSeries[]) {
  return series
    .flatMap(({ line, markers: read }) => [extentOf(line), extentOf(read)])
    .filter((each) => each !== null);
}

function bandMarks({ band = [], role, id }: SheetSeries, drawn: DrawnPoints): Mark[] {
  return band.length < 2
    ? []
    : [area(drawn.band(band), role, { opacity: 0.16, name: `band-${id}` })];
}

function seriesMarks({ line, markers: read, role, id }: SheetSeries, drawn: DrawnPoints): Mark[] {
  const { width, dash, shape, radius } = STYLE[role];
  const name = `curve-${id}`;
  return [
    ...drawn.markers(read, shape, role, radius, `readings-${id}`),
    ...drawn.line(line, role, width, dash === undefined ? { name } : { dash, name }),
  ];
}

let lastAxes: { readonly key: string; readonly marks: readonly Mark[] } | undefined;

/** Both axes: the same marks as long as the scales stay, so that a screen can leave them alone. */
function axes(drawn: DrawnPoints, plot: Plot, gridTo: number, title: string): readonly Mark[] {
  const key = `${drawn.scales} ${plot.x} ${plot.y} ${plot.width} ${plot.height} ${gridTo} ${title}`;
  if (lastAxes?.key !== key) {
    const marks = [
      ...leftAxis(drawn.y, plot, words.density, gridTo),
      ...bottomAxis(drawn.x, plot, title),
    ];
    lastAxes = { key, marks };
  }
  return lastAxes.marks;
}

function baseFogLine({ baseFog }: CurveSheetInput, plot: Plot, y: Linear): Mark[] {
  if (baseFog === null) return [];
  const at = y(baseFog);
  return [stroke(segment(plot.x, at, plot.x + plot.width, at), 'frame', 1, { dash: '1 4' })];
}

/** Where the shadow and the highlight of the negative lie on the drawn curves. */
function spotPoints({ fit }: CurveSheetInput, shown: readonly SheetSeries[]): SpotPoint[] {
  return (fit?.ranges ?? []).flatMap((range): SpotPoint[] => {
    const series = shown.find(({ role }) => role === range.role);
    if (series === undefined || range.onCurve === false) return [];
    return (
      [
        [words.shadow, range.shadowDensity],
        [words.highlight, range.highlightDensity],
      ] as const
    ).flatMap(([name, density]) => {
      const logExposure = crossing(series.line, density);
      return logExposure === null ? [] : [{ logExposure, density, role: range.role, name }];
    });
  });
}

/** Log exposure at which a drawn line first reaches a density, or null. */
function crossing(line: readonly SheetPoint[], density: number): number | null {
  for (let i = 1; i < line.length; i++) {
    const a = line[i - 1];
    const b = line[i];
    if (a === undefined || b === undefined) continue;
    if (a.density <= density && b.density >= density && b.density > a.density) {
      const part = (density - a.density) / (b.density - a.density);
      return a.logExposure + part * (b.logExposure - a.logExposure);
    }
  }
  return null;
}

function leaders(
  spots: readonly SpotPoint[],
  panelX: number | null,
  columnWidth: number,
  x: Linear,
  y: Linear,
): Mark[] {
  if (panelX === null) return [];
  return (['before', 'after'] as const).flatMap((role) => {
    const to = panelX + (role === 'before' ? 0 : columnWidth);
    const d = spots
      .filter((spot) => spot.role === role)
      .map(({ logExposure, density }) => segment(x(logExposure), y(density), to, y(density)))
      .join('');
    const dash = role === 'before' ? '1 3' : '5 3';
    return d === '' ? [] : [stroke(d, role, 1, { dash, opacity: 0.75, name: `leader-${role}` })];
  });
}

function speedPointMarks(
  point: SheetPoint | null,
  plot: Plot,
  pixel: (p: SheetPoint) => Pixel,
): Mark[] {
  const at = point === null ? null : speedPixel(point, plot, pixel);
  if (at === null) return [];
  return [
    stroke(segment(at[0], at[1], at[0], plot.y + plot.height), 'before', 1, { dash: '3 3' }),
    ...markers('diamond', [at], 'before', 4.5, 'speed-point'),
  ];
}
