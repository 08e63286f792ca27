/**
 * Contrast against development time: the strips with their errors, the law with its band, the rival
 * law, the contrasts that a plan asks for, and the limit that the film tends to.
 */
import { area as areaShape, line as lineShape, scaleLinear, type ScaleLinear } from 'd3';
import { bottomAxis, leftAxis, type Plot } from '../axes/axes.ts';
import { hatch } from '../scene/hatch.ts';
import { markers } from '../scene/markers.ts';
import { area, segment, stroke, type Mark, type Scene } from '../scene/mark.ts';
import { formatClock, formatNumber } from '../text/format.ts';
import { around, placeLabels, spread, type LabelRequest } from '../text/place-labels.ts';
import { textWidth } from '../text/text-width.ts';
import { words } from '../text/words.ts';

interface ContrastPointOfLaw {
  /** Minutes at the temperature of the chart. */
  readonly minutes: number;
  readonly contrast: number;
  /** Null where nothing tells an error. */
  readonly standardError: number | null;
}

export interface ContrastLaw {
  readonly label: string;
  readonly points: readonly ContrastPointOfLaw[];
}

/** One strip at its development. */
interface ContrastStrip {
  readonly name: string;
  /** Minutes at the temperature of the chart, which may differ from those of the strip. */
  readonly minutes: number;
  readonly contrast: number;
  readonly standardError: number | null;
}

/** A contrast that the plan asks for. */
interface ContrastTarget {
  /** e.g. `N+1`. */
  readonly label: string;
  readonly contrast: number;
  /** Minutes that it takes; null where it is out of reach. */
  readonly minutes: number | null;
}

export interface ContrastChartInput {
  readonly width: number;
  readonly height: number;
  readonly title: string;
  /** The measure of contrast, with its end points. */
  readonly measure: string;
  readonly celsius: number;
  readonly strips: readonly ContrastStrip[];
  readonly law: ContrastLaw | null;
  readonly rival: ContrastLaw | null;
  readonly targets: readonly ContrastTarget[];
  /** Contrast that the film tends to, and the part of it that is usable; null where unknown. */
  readonly limit: { readonly contrast: number; readonly usable: number } | null;
}

type Linear = ScaleLinear<number, number>;

const MARGIN = { top: 34, bottom: 48, left: 44 };
const LABEL = 12;
/** Standard errors to either side of the law that its band spans. */
const BAND_ERRORS = 2;
/** Limits farther above the strips than this would press everything else flat. */
const ROOM_FOR_LIMIT = 1.6;

/** Lays out the chart of contrast against development time. */
export function layoutContrastChart(input: ContrastChartInput): Scene {
  const { width, height, law, rival, limit, strips, targets } = input;
  const right = 14 + Math.max(0, ...targets.map((target) => textWidth(nameOf(target), LABEL)));
  const plot: Plot = {
    x: MARGIN.left,
    y: MARGIN.top,
    width: Math.max(40, width - MARGIN.left - right),
    height: Math.max(40, height - MARGIN.top - MARGIN.bottom),
  };
  const { x, y } = scalesOf(input, plot);
  const top = y.domain()[1] ?? 1;
  const usable = limit !== null && limit.usable < top ? limit : null;
  const pixel = (p: { minutes: number; contrast: number }): [number, number] => [
    x(p.minutes),
    y(p.contrast),
  ];
  const marks: Mark[] = [
    ...leftAxis(y, plot, input.measure),
    ...bottomAxis(x, plot, words.developmentMinutes(formatNumber(input.celsius, 1))),
    ...(usable === null ? [] : limitMarks(usable, plot, y)),
    ...(law === null ? [] : bandMarks(law, x, y)),
    ...targetMarks(targets, plot, x, y),
    ...(rival === null
      ? []
      : [stroke(pathOf(rival, pixel), 'other', 1.5, { dash: '6 4', name: 'contrast-rival' })]),
    ...(law === null ? [] : [stroke(pathOf(law, pixel), 'before', 2.25, { name: 'contrast-law' })]),
    ...strips.flatMap((strip) => errorBar(strip, x, y)),
    ...markers('disc', strips.map(pixel), 'before', 4, 'contrast-strips'),
    ...labels(input, usable, plot, pixel),
  ];
  return {
    width,
    height,
    title: input.title,
    description: describe(input),
    marks,
    table: tableOf(input),
  };
}

function scalesOf(
  { strips, law, targets, limit }: ContrastChartInput,
  plot: Plot,
): { x: Linear; y: Linear } {
  const reached = targets.flatMap(({ minutes }) => (minutes === null ? [] : [minutes]));
  const longest = Math.max(
    5,
    ...strips.map(({ minutes }) => minutes),
    ...reached,
    ...(law === null ? [] : law.points.map(({ minutes }) => minutes)),
  );
  const contrasts = [
    ...strips.map(({ contrast, standardError }) => contrast + (standardError ?? 0)),
    ...targets.map(({ contrast }) => contrast),
    ...(law === null ? [] : law.points.map(({ contrast }) => contrast)),
  ];
  const highest = Math.max(0.5, ...contrasts);
  const ceiling =
    limit !== null && limit.contrast < ROOM_FOR_LIMIT * highest
      ? Math.max(highest, limit.contrast)
      : highest;
  return {
    x: scaleLinear([0, longest * 1.02], [plot.x, plot.x + plot.width]),
    y: scaleLinear([0, ceiling * 1.06], [plot.y + plot.height, plot.y]),
  };
}

function pathOf({ points }: ContrastLaw, pixel: (p: ContrastPointOfLaw) => [number, number]) {
  // Before development begins the law runs below zero, where there is no contrast to draw.
  return (
    lineShape<ContrastPointOfLaw>(
      (p) => pixel(p)[0],
      (p) => pixel(p)[1],
    )
      .defined((p) => p.contrast >= 0)
      .digits(2)(points) ?? ''
  );
}

function bandMarks({ points }: ContrastLaw, x: Linear, y: Linear): Mark[] {
  const [low = 0, high = 1] = y.domain();
  const inside = (contrast: number) => y(Math.min(high, Math.max(low, contrast)));
  const shape = areaShape<ContrastPointOfLaw>()
    .defined((p) => p.standardError !== null && p.contrast >= 0)
    .x((p) => x(p.minutes))
    .y0((p) => inside(p.contrast - BAND_ERRORS * (p.standardError ?? 0)))
    .y1((p) => inside(p.contrast + BAND_ERRORS * (p.standardError ?? 0)))
    .digits(2);
  const d = shape(points) ?? '';
  return d === '' ? [] : [area(d, 'before', { opacity: 0.16, name: 'contrast-band' })];
}

/** Hatched above what is usable, a line at the limit itself. */
function limitMarks(
  { contrast, usable }: { contrast: number; usable: number },
  plot: Plot,
  y: Linear,
): Mark[] {
  const [, top = 1] = y.domain();
  const upper = y(Math.min(top, contrast));
  const lines = hatch(plot.x, upper, plot.width, y(usable) - upper, 9);
  const marks: Mark[] = [stroke(lines, 'rule', 1, { name: 'contrast-near-limit' })];
  if (contrast <= top) {
    marks.push(
      stroke(segment(plot.x, upper, plot.x + plot.width, upper), 'frame', 1.5, {
        dash: '10 3',
        name: 'contrast-limit',
      }),
    );
  }
  return marks;
}

/** A line at each wanted contrast, from its time to the name at the right. */
function targetMarks(targets: readonly ContrastTarget[], plot: Plot, x: Linear, y: Linear): Mark[] {
  const end = plot.x + plot.width;
  const levels = spread(
    targets.map(({ contrast }) => y(contrast)),
    LABEL + 3,
    plot.y,
    plot.y + plot.height,
  );
  return targets.flatMap((target, i): Mark[] => {
    const at = y(target.contrast);
    const level = levels[i] ?? at;
    const from = target.minutes === null ? plot.x : x(target.minutes);
    return [
      stroke(
        `${segment(from, at, end, at)}L${end + 8},${Math.round(level * 100) / 100}`,
        'paper',
        1,
        { dash: target.minutes === null ? '1 4' : '4 3', name: `contrast-target-${target.label}` },
      ),
      ...(target.minutes === null
        ? []
        : [
            stroke(segment(from, at, from, plot.y + plot.height), 'paper', 1, { dash: '1 3' }),
            ...markers('diamond', [[from, at]], 'paper', 3.5),
          ]),
      {
        kind: 'text',
        x: end + 11,
        y: level + LABEL * 0.35,
        text: nameOf(target),
        anchor: 'start',
        size: LABEL,
        ink: 'paper',
        bold: target.label === 'N',
        name: `label-${target.label}`,
      },
    ];
  });
}

function nameOf({ label, contrast }: ContrastTarget): string {
  return `${label.replace('-', '−')} ${formatNumber(contrast, 2)}`;
}

function errorBar({ minutes, contrast, standardError }: ContrastStrip, x: Linear, y: Linear) {
  if (standardError === null) return [];
  const [at, low, high] = [x(minutes), y(contrast - standardError), y(contrast + standardError)];
  const tick = (level: number) => segment(at - 4, level, at + 4, level);
  return [
    stroke(`${segment(at, low, at, high)}${tick(low)}${tick(high)}`, 'before', 1.25, {
      name: 'contrast-error',
    }),
  ];
}

function labels(
  { law, rival, strips, targets }: ContrastChartInput,
  limit: { contrast: number; usable: number } | null,
  plot: Plot,
  pixel: (p: { minutes: number; contrast: number }) => [number, number],
): Mark[] {
  const bottom = plot.y + plot.height;
  const requests: LabelRequest[] = [];
  const inks = new Map<string, 'before' | 'quiet' | 'paper'>();
  if (limit !== null) {
    const [, y] = pixel({ minutes: 0, contrast: limit.contrast });
    const [, usable] = pixel({ minutes: 0, contrast: limit.usable });
    inks.set('limit', 'quiet');
    requests.push({
      id: 'limit',
      text: words.filmLimit(formatNumber(limit.contrast, 2)),
      size: LABEL,
      candidates: [
        { x: plot.x + 6, y: y - 5, anchor: 'start' },
        { x: plot.x + 6, y: y + 14, anchor: 'start' },
        { x: plot.x + 6, y: usable - 5, anchor: 'start' },
      ],
    });
  }
  for (const [id, drawn, ink] of [
    ['law', law, 'before'],
    ['rival', rival, 'quiet'],
  ] as const) {
    if (drawn === null) continue;
    inks.set(id, ink);
    const candidates = [0.97, 0.85, 0.72, 0.6, 0.48, 0.36, 0.25].flatMap((part) => {
      const point = drawn.points[Math.round(part * (drawn.points.length - 1))];
      return point === undefined ? [] : around(...pixel(point), 9).slice(0, 8);
    });
    requests.push({ id, text: drawn.label, size: LABEL, bold: id === 'law', candidates });
  }
  for (const { label, minutes, contrast } of targets) {
    if (minutes === null || label !== 'N') continue;
    const [x] = pixel({ minutes, contrast });
    inks.set('normal', 'paper');
    requests.push({
      id: 'normal',
      text: formatClock(minutes),
      size: LABEL,
      bold: true,
      candidates: [
        { x: x + 5, y: bottom - 6, anchor: 'start' },
        { x: x - 5, y: bottom - 6, anchor: 'end' },
      ],
    });
  }
  const lines = [law, rival].flatMap((drawn, i) =>
    drawn === null ? [] : [{ id: String(i), points: drawn.points.map(pixel) }],
  );
  const end = plot.x + plot.width;
  targets.forEach((target, i) => {
    const [from, y] = pixel({ minutes: target.minutes ?? 0, contrast: target.contrast });
    const count = Math.max(1, Math.ceil((end - from) / 6));
    const points = Array.from({ length: count }, (_, k): [number, number] => [from + 6 * k, y]);
    lines.push({ id: `target-${i}`, points });
  });
  const taken = strips.map((strip) => {
    const [x, y] = pixel(strip);
    return { x0: x - 5, y0: y - 5, x1: x + 5, y1: y + 5 };
  });
  const bounds = { x0: plot.x + 2, y0: plot.y - 6, x1: plot.x + plot.width, y1: bottom - 2 };
  return placeLabels(requests, bounds, lines, taken).map(({ id, text, x, y, anchor }): Mark => ({
    kind: 'text',
    x,
    y,
    text,
    anchor,
    size: LABEL,
    ink: inks.get(id) ?? 'quiet',
    bold: id === 'law' || id === 'normal',
    halo: true,
    name: `label-${id}`,
  }));
}

function describe({ measure, law, rival, strips, targets, limit }: ContrastChartInput): string {
  const parts = [
    `${measure} of ${strips.length} ${strips.length === 1 ? 'strip' : 'strips'} against development time, bars of one standard error`,
    ...(law === null ? [] : [`${law.label}, with a band of two standard errors`]),
    ...(rival === null ? [] : [`rival law: ${rival.label}`]),
    ...(limit === null ? [] : [words.filmLimit(formatNumber(limit.contrast, 2))]),
    ...targets.map((target) =>
      target.minutes === null
        ? `${nameOf(target)} out of reach`
        : `${nameOf(target)} at ${formatClock(target.minutes)}`,
    ),
  ];
  return `${parts.join('; ')}.`;
}

function tableOf({ title, celsius, measure, law, rival, strips }: ContrastChartInput) {
  const error = (value: number | null) => (value === null ? '–' : formatNumber(value, 3));
  const read = strips.map(({ name, minutes, contrast, standardError }) => [
    name,
    formatNumber(minutes, 1),
    formatNumber(contrast, 3),
    error(standardError),
  ]);
  const drawn = [law, rival].flatMap((each) =>
    each === null
      ? []
      : each.points
          .filter(({ contrast }, i) => i % 4 === 0 && contrast >= 0)
          .map(({ minutes, contrast, standardError }) => [
            each.label,
            formatNumber(minutes, 1),
            formatNumber(contrast, 3),
            error(standardError),
          ]),
  );
  return {
    caption: title,
    columns: [
      words.stripOrLaw,
      words.developmentMinutes(formatNumber(celsius, 1)),
      measure,
      words.standardError,
    ],
    rows: [...read, ...drawn],
  };
}
