/**
 * Control charts of one process, one measure under another: each control strip in the order of its
 * days, the centre and limits that the first strips set, and the strips that signal a change.
 */
import { line as lineShape, scaleLinear, scalePoint } from 'd3';
import { leftAxis, type Plot } from '../axes/axes.ts';
import { markers } from '../scene/markers.ts';
import { segment, stroke, type Mark, type Scene } from '../scene/mark.ts';
import { formatNumber } from '../text/format.ts';
import { spread } from '../text/place-labels.ts';
import { textWidth } from '../text/text-width.ts';
import { words } from '../text/words.ts';

interface DriftChartPoint {
  readonly value: number;
  /** True for the strips that set the limits. */
  readonly setsLimits: boolean;
  /** What the strip signals, in words; empty where it signals nothing. */
  readonly signals: readonly string[];
}

export interface DriftPanel {
  readonly id: string;
  /** The measure with its unit. */
  readonly measure: string;
  readonly decimals: number;
  /** One for each day; null where the strip does not give the measure. */
  readonly points: readonly (DriftChartPoint | null)[];
  /** Null where too few strips set limits. */
  readonly limits: {
    readonly centre: number;
    readonly warning: readonly [number, number];
    readonly action: readonly [number, number];
  } | null;
}

export interface DriftChartInput {
  readonly width: number;
  readonly title: string;
  /** Name of each strip, such as its day, in order. */
  readonly days: readonly string[];
  readonly panels: readonly DriftPanel[];
}

const MARGIN = { top: 34, right: 62, bottom: 34, left: 48 };
const PANEL = 118;
const GAP = 42;
const LABEL = 12;

/** Lays out the control charts; the height follows from their number. */
export function layoutDriftChart(input: DriftChartInput): Scene {
  const { width, panels, days } = input;
  const height = MARGIN.top + panels.length * (PANEL + GAP) - GAP + MARGIN.bottom;
  const x = scalePoint(
    days.map((_, i) => i),
    [MARGIN.left, Math.max(MARGIN.left + 40, width - MARGIN.right)],
  ).padding(0.5);
  const at = (i: number): number => x(i) ?? MARGIN.left;
  const marks = panels.flatMap((panel, index) => {
    const plot: Plot = {
      x: MARGIN.left,
      y: MARGIN.top + index * (PANEL + GAP),
      width: Math.max(40, width - MARGIN.left - MARGIN.right),
      height: PANEL,
    };
    return panelMarks(panel, plot, at);
  });
  return {
    width,
    height,
    title: input.title,
    description: describe(input),
    marks: [...marks, ...dayMarks(days, at, height - MARGIN.bottom + 18, width)],
    table: {
      caption: input.title,
      columns: [words.controlStrip, ...panels.flatMap(({ measure }) => [measure, words.signals])],
      rows: days.map((day, i) => [
        day,
        ...panels.flatMap(({ points, decimals }) => {
          const point = points[i] ?? null;
          if (point === null) return ['–', ''];
          return [
            formatNumber(point.value, decimals),
            point.signals.join(', ') || (point.setsLimits ? words.setsLimits : ''),
          ];
        }),
      ]),
    },
  };
}

function panelMarks(panel: DriftPanel, plot: Plot, at: (i: number) => number): Mark[] {
  const { points, limits, id } = panel;
  const read = points.flatMap((point, i) => (point === null ? [] : [{ ...point, i }]));
  const values = read.map(({ value }) => value);
  const ends = [...values, ...(limits === null ? [] : limits.action)];
  const [low, high] = ends.length === 0 ? [0, 1] : [Math.min(...ends), Math.max(...ends)];
  const pad = Math.max(0.08 * (high - low), 10 ** -panel.decimals);
  const y = scaleLinear([low - pad, high + pad], [plot.y + plot.height, plot.y]);
  const pixel = ({ i, value }: { i: number; value: number }): [number, number] => [at(i), y(value)];
  const own = read.filter(({ setsLimits, signals }) => setsLimits && signals.length === 0);
  const later = read.filter(({ setsLimits, signals }) => !setsLimits && signals.length === 0);
  const telling = read.filter(({ signals }) => signals.length > 0);
  const path = lineShape<(typeof read)[number]>(
    (p) => pixel(p)[0],
    (p) => pixel(p)[1],
  ).digits(2);
  const right = plot.x + plot.width;
  return [
    ...leftAxis(y, plot, panel.measure),
    stroke(segment(plot.x, plot.y + plot.height, right, plot.y + plot.height), 'frame', 1),
    ...(limits === null ? [] : limitMarks(limits, plot, y)),
    ...(read.length > 1
      ? [stroke(path(read) ?? '', 'other', 1, { name: `drift-line-${id}` })]
      : []),
    ...markers('ring', own.map(pixel), 'before', 4, `drift-first-${id}`),
    ...markers('disc', later.map(pixel), 'before', 3.5, `drift-later-${id}`),
    ...markers('diamond', telling.map(pixel), 'after', 5.5, `drift-signal-${id}`),
  ];
}

function limitMarks(
  { centre, warning, action }: NonNullable<DriftPanel['limits']>,
  plot: Plot,
  y: (value: number) => number,
): Mark[] {
  const right = plot.x + plot.width;
  const lines = [
    { value: centre, label: words.centre, dash: undefined },
    ...warning.map((value, side) => ({ value, label: words.sigmas(2, side === 1), dash: '2 4' })),
    ...action.map((value, side) => ({ value, label: words.sigmas(3, side === 1), dash: '9 3' })),
  ];
  const levels = spread(
    lines.map(({ value }) => y(value)),
    LABEL + 3,
    plot.y,
    plot.y + plot.height,
  );
  return lines.flatMap(({ value, label, dash }, i): Mark[] => [
    stroke(segment(plot.x, y(value), right, y(value)), dash === undefined ? 'frame' : 'other', 1, {
      ...(dash !== undefined && { dash }),
      name: 'drift-limit',
    }),
    {
      kind: 'text',
      x: right + 8,
      y: (levels[i] ?? 0) + LABEL * 0.35,
      text: label,
      anchor: 'start',
      size: LABEL,
      ink: 'quiet',
    },
  ]);
}

/** As many days as fit, the first and the last before the others. */
function dayMarks(
  days: readonly string[],
  at: (i: number) => number,
  y: number,
  width: number,
): Mark[] {
  const placed: { x: number; half: number; i: number }[] = [];
  const last = days.length - 1;
  const order = [0, last, ...days.map((_, i) => i).slice(1, -1)];
  for (const i of new Set(order.filter((each) => each >= 0))) {
    const half = textWidth(days[i] ?? '', LABEL) / 2;
    const x = Math.min(width - half - 2, Math.max(half + 2, at(i)));
    if (placed.some((each) => Math.abs(each.x - x) < each.half + half + 8)) continue;
    placed.push({ x, half, i });
  }
  return placed.map(({ x, i }): Mark => ({
    kind: 'text',
    x,
    y,
    text: days[i] ?? '',
    anchor: 'middle',
    size: LABEL,
    ink: 'quiet',
  }));
}

function describe({ panels, days }: DriftChartInput): string {
  const of = panels.map(({ measure, limits, points, decimals }) => {
    const telling = points.filter((point) => point !== null && point.signals.length > 0).length;
    const band =
      limits === null
        ? 'no limits yet'
        : `limits ${formatNumber(limits.action[0], decimals)} to ${formatNumber(limits.action[1], decimals)}`;
    return `${measure}: ${band}, ${telling === 0 ? 'no' : telling} signalling ${telling === 1 ? 'strip' : 'strips'}`;
  });
  return `${days.length} control strips in the order of their days. ${of.join('; ')}.`;
}
