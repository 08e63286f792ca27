/**
 * How far the bath has gone after so many minutes: completion of the toning over time at the
 * planned dilution and temperature, other dilutions drawn back, the plan marked, and the gain that
 * goes with it on the right.
 */
import { line as lineShape, range, scaleLinear } from 'd3';
import { bottomAxis, leftAxis, rightAxis, type Plot } from '../axes/axes.ts';
import { markers } from '../scene/markers.ts';
import { segment, stroke, type Mark, type Scene } from '../scene/mark.ts';
import {
  around,
  placeLabels,
  textBox,
  type Box,
  type LabelCandidate,
  type LabelObstacle,
  type LabelRequest,
} from '../text/place-labels.ts';
import { formatMinutes, formatNumber } from '../text/format.ts';
import { words } from '../text/words.ts';

export interface CompletionPoint {
  readonly minutes: number;
  /** Part of the full effect, 0 to 1. */
  readonly completion: number;
}

export interface CompletionCurve {
  readonly id: string;
  /** e.g. `1+2, 20 °C`. */
  readonly label: string;
  readonly planned: boolean;
  readonly points: readonly CompletionPoint[];
}

export interface CompletionChartInput {
  readonly width: number;
  readonly height: number;
  readonly title: string;
  readonly curves: readonly CompletionCurve[];
  readonly plan: CompletionPoint;
  /** Minutes that a target would take, or null. */
  readonly target: (CompletionPoint & { readonly label: string }) | null;
  /** Trial pieces: completion found, by minutes of the planned bath. */
  readonly trials: readonly CompletionPoint[];
  /** Gain at full completion. */
  readonly maximumGain: number;
}

/** Rather four dotted curves under a label than the planned one. */
const PLANNED_WEIGHT = 4;
/** A place far from its marker is for where every near one would hide the planned curve. */
const FAR = 30;
/** Beside the dashed line down from the plan a label belongs to it still: cost of each step down. */
const STEP_DOWN = { pixels: 12, cost: 4 };
/** Distance of the points that stand for a line among the obstacles. */
const GRAIN = 5;
/** Between the plan and its label above: the grid of the lines is coarse, and less would touch the curve. */
const PLAN_GAP = 11;
/** Half the side of what a marker keeps free. */
const MARKER = 6;
const MARGIN = { top: 34, right: 58, bottom: 48, left: 44 };

/** Lays out the completion chart. */
export function layoutCompletionChart(input: CompletionChartInput): Scene {
  const { width, height, curves, plan, target, maximumGain } = input;
  const plot: Plot = {
    x: MARGIN.left,
    y: MARGIN.top,
    width: Math.max(40, width - MARGIN.left - MARGIN.right),
    height: Math.max(40, height - MARGIN.top - MARGIN.bottom),
  };
  const longest = Math.max(1, ...curves.flatMap(({ points }) => points.map((p) => p.minutes)));
  const x = scaleLinear([0, longest], [plot.x, plot.x + plot.width]);
  const y = scaleLinear([0, 100], [plot.y + plot.height, plot.y]);
  const gain = scaleLinear([1, maximumGain], y.range());
  const pixel = (p: CompletionPoint): [number, number] => [x(p.minutes), y(100 * p.completion)];
  const path = lineShape<CompletionPoint>(
    (p) => pixel(p)[0],
    (p) => pixel(p)[1],
  ).digits(2);
  const at = pixel(plan);
  const axes = [
    ...leftAxis(y, plot, words.completion),
    ...bottomAxis(x, plot, words.minutes),
    ...rightAxis(gain, plot, words.gain, (value) => formatNumber(value, 2)),
  ];
  const marks: Mark[] = [
    ...axes,
    ...curves
      .toSorted((a, b) => Number(a.planned) - Number(b.planned))
      .map(({ id, planned, points }) =>
        planned
          ? stroke(path(points) ?? '', 'after', 3, { name: 'completion-planned' })
          : stroke(path(points) ?? '', 'other', 1.25, { dash: '2 3', name: `completion-${id}` }),
      ),
    ...markers('cross', input.trials.map(pixel), 'text', 4, 'completion-trials'),
    stroke(`${segment(at[0], plot.y + plot.height, at[0], at[1])}L${plot.x},${at[1]}`, 'after', 1, {
      dash: '3 3',
    }),
    ...(target === null
      ? []
      : markers('diamond', [pixel(target)], 'paper', 5, 'completion-target')),
    ...markers('square', [at], 'after', 5, 'completion-plan'),
    ...labels(input, plot, pixel, axes),
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

/** Places around a marker, those below first: a completion rises from the left, and ends on top. */
function below(x: number, y: number, gap?: number): LabelCandidate[] {
  const places = around(x, y, gap);
  const near = places.slice(0, 8).toSorted((a, b) => Number(b.y > y) - Number(a.y > y));
  return [...near, ...places.slice(8).map((place) => ({ ...place, cost: FAR }))];
}

/** Places along the dashed line from the plan to the axis. */
function downFrom(x: number, y: number, foot: number): LabelCandidate[] {
  const steps = Math.max(0, Math.floor((foot - y) / STEP_DOWN.pixels) - 2);
  return Array.from({ length: steps }, (_, index) => index + 2).flatMap((step) =>
    (['start', 'end'] as const).map((anchor) => ({
      x: anchor === 'start' ? x + 8 : x - 8,
      y: y + step * STEP_DOWN.pixels,
      anchor,
      cost: step * STEP_DOWN.cost,
    })),
  );
}

function labels(
  { curves, plan, target, trials }: CompletionChartInput,
  plot: Plot,
  pixel: (p: CompletionPoint) => [number, number],
  axes: readonly Mark[],
): Mark[] {
  const foot = plot.y + plot.height;
  const [planX, planY] = pixel(plan);
  const lines: LabelObstacle[] = curves.map(({ id, planned, points }) => ({
    id,
    points: points.map(pixel),
    weight: planned ? PLANNED_WEIGHT : 1,
  }));
  // The dashed lines to the axes.
  lines.push(
    { id: 'down', points: range(planY, foot, GRAIN).map((y) => [planX, y] as const) },
    { id: 'across', points: range(plot.x, planX, GRAIN).map((x) => [x, planY] as const) },
  );
  const planText = `${formatMinutes(plan.minutes)}: ${formatNumber(100 * plan.completion, 0)} %`;
  const requests: LabelRequest[] = [
    {
      id: 'plan',
      text: planText,
      size: 13,
      bold: true,
      candidates: [...below(planX, planY, PLAN_GAP).slice(0, 8), ...downFrom(planX, planY, foot)],
    },
  ];
  if (target !== null) {
    const candidates = below(...pixel(target));
    requests.push({ id: 'target', text: target.label, size: 12, candidates });
  }
  for (const { id, label, planned, points } of curves) {
    const places = [0.16, 0.22, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9].flatMap((part) => {
      const point = points[Math.round(part * (points.length - 1))];
      return point === undefined ? [] : [pixel(point)];
    });
    const on = places.map(([x, y]) => ({ x, y: y + 4, anchor: 'middle' as const }));
    // The planned curve is thick: its name stands above it, and on it only for want of room.
    const above = places.map(([x, y]) => ({ x: x - 4, y: y - 7, anchor: 'end' as const }));
    const end = places.map(([x, y]) => ({ x, y: y - 10, anchor: 'middle' as const })).toReversed();
    const candidates = planned
      ? [...above, ...end, ...on.map((place) => ({ ...place, cost: FAR }))]
      : on;
    requests.push({
      id: `curve-${id}`,
      text: label,
      size: 12,
      bold: planned,
      candidates,
      ...(planned ? {} : { ownLine: id }),
    });
  }
  const bounds = {
    x0: plot.x + 2,
    y0: plot.y - 20,
    x1: plot.x + plot.width,
    y1: plot.y + plot.height - 2,
  };
  const planned = curves.find((curve) => curve.planned)?.id;
  const marked = [plan, ...(target === null ? [] : [target]), ...trials].map(pixel);
  const taken = marked.map(([x, y]): Box => ({
    x0: x - MARKER,
    y0: y - MARKER,
    x1: x + MARKER,
    y1: y + MARKER,
  }));
  for (const mark of axes) {
    if (mark.kind === 'text') taken.push(textBox(mark.text, mark.size, mark));
  }
  return placeLabels(requests, bounds, lines, taken).map(({ id, text, x, y, anchor }): Mark => ({
    kind: 'text',
    x,
    y,
    text,
    anchor,
    size: id === 'plan' ? 13 : 12,
    ink:
      id === 'plan' || id === `curve-${planned ?? ''}`
        ? 'after'
        : id === 'target'
          ? 'paper'
          : 'quiet',
    bold: id === 'plan' || id === `curve-${planned ?? ''}`,
    halo: true,
    name: `label-${id}`,
  }));
}

function describe({ curves, plan, target }: CompletionChartInput): string {
  const planned = curves.find((curve) => curve.planned);
  const first = `Completion of the bath over minutes at ${planned?.label ?? 'the plan'}: ${formatNumber(100 * plan.completion, 0)} % after ${formatMinutes(plan.minutes)}.`;
  return target === null ? first : `${first} ${target.label}.`;
}

function table({ curves, maximumGain }: CompletionChartInput): Scene['table'] {
  const planned = curves.find((curve) => curve.planned);
  const rows = (planned?.points ?? [])
    .filter((_, index) => index % 5 === 0)
    .map((p) => [
      formatNumber(p.minutes, 1),
      formatNumber(100 * p.completion, 0),
      formatNumber(1 + (maximumGain - 1) * p.completion, 3),
    ]);
  return {
    caption: `Completion at ${planned?.label ?? 'the plan'}`,
    columns: [words.minutes, words.completion, words.gain],
    rows,
  };
}
