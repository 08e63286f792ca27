/**
 * The ways out for one negative, one under another: how long a printing range each leads to, how
 * far that is in doubt, and the range that is aimed at, over the bands of the paper grades.
 */
import { scaleLinear } from 'd3';
import { bottomAxis, type Plot } from '../axes/axes.ts';
import { markers, type MarkerShape } from '../scene/markers.ts';
import { area, box, segment, stroke, type Ink, type Mark, type Scene } from '../scene/mark.ts';
import { formatNumber } from '../text/format.ts';
import { textWidth } from '../text/text-width.ts';
import { words } from '../text/words.ts';

/** One way out as a row. */
export interface WayRow {
  readonly id: string;
  readonly label: string;
  /** `untouched` leaves the negative as it is, `bath` changes it, `next` is another negative. */
  readonly kind: 'untouched' | 'bath' | 'next';
  readonly printingRange: number;
  /** Ends of what may well come of it, or null. */
  readonly plausible: readonly [number, number] | null;
  /** In words, such as `grade 3`. */
  readonly verdict: string;
}

export interface WaysChartInput {
  readonly width: number;
  readonly title: string;
  readonly rows: readonly WayRow[];
  readonly aim: { readonly label: string; readonly printingRange: number };
  /** Grade bands as printing ranges. */
  readonly bands: readonly {
    readonly label: string;
    readonly lower: number;
    readonly upper: number;
  }[];
}

const MARGIN = { top: 44, right: 14, bottom: 48, left: 14 };
const ROW = 46;
/** Base line of a row's first words below its top, their size, and from line to line. */
const LABEL_BASE = 16;
const LABEL_SIZE = 13;
const LABEL_LINE = 16;
const LOOK: Readonly<Record<WayRow['kind'], { ink: Ink; shape: MarkerShape; dash?: string }>> = {
  untouched: { ink: 'before', shape: 'ring' },
  bath: { ink: 'after', shape: 'square' },
  next: { ink: 'other', shape: 'triangle', dash: '5 3' },
};

/** A row with its words as lines and its top in pixels. */
interface PlacedRow extends WayRow {
  readonly lines: readonly string[];
  readonly top: number;
}

/** Lays out the chart of the ways; its height follows from their count and the length of their names. */
export function layoutWaysChart(input: WaysChartInput): Scene {
  const { width, aim, bands } = input;
  const room = Math.max(40, width - MARGIN.left - MARGIN.right);
  const { rows, bottom } = placeRows(input.rows, room);
  const height = bottom + MARGIN.bottom;
  const plot: Plot = {
    x: MARGIN.left,
    y: MARGIN.top,
    width: room,
    height: bottom - MARGIN.top,
  };
  const ends = rows.flatMap(({ printingRange, plausible }) => [
    printingRange,
    ...(plausible ?? []),
  ]);
  const longest = 1.05 * Math.max(aim.printingRange, 0.5, ...ends);
  const x = scaleLinear([0, longest], [plot.x, plot.x + plot.width]);
  const marks: Mark[] = [
    ...bottomAxis(x, plot, words.printingRangeShort, false),
    ...bandMarks(bands, x, longest, plot),
    stroke(aimLine(rows, x(aim.printingRange), plot), 'paper', 2, { name: 'ways-aim' }),
    aimLabel(aim.label, x(aim.printingRange), width),
    ...rows.flatMap((row) => rowMarks(row, x)),
  ];
  return {
    width,
    height,
    title: input.title,
    description: describe(input),
    marks,
    table: {
      caption: input.title,
      columns: ['way', words.printingRangeShort, 'from', 'to', 'paper grade'],
      rows: rows.map(({ label, printingRange, plausible, verdict }) => [
        label,
        formatNumber(printingRange, 2),
        plausible === null ? '–' : formatNumber(plausible[0], 2),
        plausible === null ? '–' : formatNumber(plausible[1], 2),
        verdict,
      ]),
    },
  };
}

type Scale = (value: number) => number;

/** Limits of the bands as hairlines, their grades above, where there is room. */
function bandMarks(bands: WaysChartInput['bands'], x: Scale, longest: number, plot: Plot): Mark[] {
  const limits = new Set(bands.flatMap(({ lower, upper }) => [lower, upper]));
  const lines = [...limits]
    .filter((limit) => limit <= longest)
    .map((limit) => stroke(segment(x(limit), plot.y, x(limit), plot.y + plot.height), 'rule', 1));
  const labels = bands.flatMap(({ label, lower, upper }): Mark[] => {
    const room = x(upper) - x(lower);
    if (upper > longest || textWidth(label, 12) + 6 > room) return [];
    return [
      {
        kind: 'text',
        x: x((lower + upper) / 2),
        y: plot.y - 8,
        text: label,
        anchor: 'middle',
        size: 12,
        ink: 'quiet',
      },
    ];
  });
  return [...lines, ...labels];
}

function aimLabel(label: string, at: number, width: number): Mark {
  const half = textWidth(label, 12, true) / 2;
  const x = Math.min(width - half - 4, Math.max(half + 4, at));
  return {
    kind: 'text',
    x,
    y: 16,
    text: label,
    anchor: 'middle',
    size: 12,
    ink: 'paper',
    bold: true,
    name: 'label-aim',
  };
}

/** The aim from top to bottom, broken where it would cross the words of a row. */
function aimLine(rows: readonly PlacedRow[], at: number, plot: Plot): string {
  const breaks = rows.flatMap(({ lines, top }) =>
    lines.flatMap((line, index) => {
      const reach = plot.x + textWidth(line, LABEL_SIZE);
      const base = top + LABEL_BASE + LABEL_LINE * index;
      return at > reach + 3 ? [] : [[base - LABEL_SIZE, base + 4] as const];
    }),
  );
  const ends = [plot.y - 4, ...breaks.flat(), plot.y + plot.height];
  return ends
    .flatMap((end, index) =>
      index % 2 === 0 ? [segment(at, end, at, ends[index + 1] ?? end)] : [],
    )
    .join('');
}

/** The rows one under another, each as high as its words ask for. */
function placeRows(
  rows: readonly WayRow[],
  room: number,
): { readonly rows: readonly PlacedRow[]; readonly bottom: number } {
  let bottom = MARGIN.top;
  const placed = rows.map((row): PlacedRow => {
    const lines = linesOf(row, room);
    const top = bottom;
    bottom += ROW + LABEL_LINE * (lines.length - 1);
    return { ...row, lines, top };
  });
  return { rows: placed, bottom };
}

/** Name and figures of a row, broken between words where one line has no room for them. */
function linesOf({ label, printingRange, verdict }: WayRow, room: number): readonly string[] {
  // What belongs together stays together: the figure is read as one.
  const pieces = [...`${label}:`.split(' '), `${formatNumber(printingRange, 2)}, ${verdict}`];
  return pieces.slice(1).reduce<string[]>(
    (lines, piece) => {
      const longer = `${lines.at(-1) ?? ''} ${piece}`;
      return textWidth(longer, LABEL_SIZE) <= room ? lines.with(-1, longer) : [...lines, piece];
    },
    pieces.slice(0, 1),
  );
}

function rowMarks(row: PlacedRow, x: Scale): Mark[] {
  const { ink, shape, dash } = LOOK[row.kind];
  const base = row.top + LABEL_BASE;
  const y = base + LABEL_LINE * (row.lines.length - 1) + 14;
  const end = x(row.printingRange);
  return [
    area(box(x(0), y - 3, end - x(0), 6), ink, { opacity: 0.28 }),
    stroke(segment(x(0), y, end, y), ink, 2, {
      name: `way-${row.id}`,
      ...(dash === undefined ? {} : { dash }),
    }),
    ...(row.plausible === null ? [] : [whisker(row.plausible, y, x, ink)]),
    ...markers(shape, [[end, y]], ink, 4.5, `way-end-${row.id}`),
    ...row.lines.map((line, index): Mark => ({
      kind: 'text',
      x: MARGIN.left,
      y: base + LABEL_LINE * index,
      text: line,
      anchor: 'start',
      size: LABEL_SIZE,
      ink: ink === 'other' ? 'quiet' : ink,
      halo: true,
      name: `label-${row.id}`,
    })),
  ];
}

function whisker([from, to]: readonly [number, number], y: number, x: Scale, ink: Ink): Mark {
  const [a, b] = [x(from), x(to)];
  const tick = (at: number): string => segment(at, y - 6, at, y + 6);
  return stroke(`${segment(a, y, b, y)}${tick(a)}${tick(b)}`, ink, 1.25);
}

function describe({ rows, aim }: WaysChartInput): string {
  const list = rows.map(
    ({ label, printingRange, verdict }) => `${label} ${formatNumber(printingRange, 2)}, ${verdict}`,
  );
  return `Printing range by each way out; ${aim.label}. ${list.join('; ')}.`;
}
