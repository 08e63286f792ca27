/**
 * Names of the four panels, each in the corner of its panel where it covers least of the curves and
 * of the tone that is followed; a long name in a narrow panel stands on two lines.
 */
import type { Plot } from '../axes/axes.ts';
import type { Mark } from '../scene/mark.ts';
import { lineGrid, type LineGrid } from '../text/line-grid.ts';
import { textBox, type Box, type LabelObstacle } from '../text/place-labels.ts';
import { textWidth } from '../text/text-width.ts';
import { words } from '../text/words.ts';
import type { QuadrantSeries, Scales } from './four-quadrants.layout.ts';

type Panel = keyof typeof words.quadrants;

interface Corner {
  readonly anchor: 'start' | 'end';
  readonly low: boolean;
}

const NAME = 13;
const LINE = 15;
const INSET = 6;
/** Pixels between the points that stand for a straight line. */
const STEP = 3;
const FOLLOWED = 'followed';
const WEIGHT = 1000;

/** The corner that a curve of the panel most likely leaves free comes first. */
const CORNERS: Readonly<Record<Panel, readonly Corner[]>> = {
  paper: corners({ anchor: 'start', low: true }),
  whole: corners({ anchor: 'start', low: false }),
  film: corners({ anchor: 'start', low: true }),
  camera: corners({ anchor: 'end', low: true }),
};

function corners({ anchor, low }: Corner): readonly Corner[] {
  const across = anchor === 'start' ? 'end' : 'start';
  return [
    { anchor, low },
    { anchor: across, low: !low },
    { anchor: across, low },
    { anchor, low: !low },
  ];
}

/**
 * @param panels - the four panels in pixels
 * @param scales - of the drawing, into pixels
 */
export function quadrantNames(
  series: readonly QuadrantSeries[],
  panels: Readonly<Record<Panel, Plot>>,
  scales: Scales,
): Mark[] {
  const lines = series.flatMap((one, index) => linesOf(one, index, scales));
  return (['paper', 'whole', 'film', 'camera'] as const).flatMap((panel) => {
    const plot = panels[panel];
    const [curves, ways] = [false, true].map((followed) =>
      lineGrid(
        lines.filter(({ id }) => id.startsWith(FOLLOWED) === followed),
        edges(plot),
      ),
    );
    const rows = rowsOf(words.quadrants[panel], plot.width);
    const places = CORNERS[panel].map((corner) => placed(rows, plot, corner));
    // The way of a tone may be written on where no corner is free, a curve may not.
    const covered = places.map(
      (marks) => WEIGHT * coveredBy(marks, curves) + coveredBy(marks, ways),
    );
    const best = covered.indexOf(Math.min(...covered));
    return (places[best] ?? []).map((mark): Mark => ({ ...mark, name: `name-${panel}` }));
  });
}

/** Curves and the way of the tone followed, as points close to each other. */
function linesOf(
  { tones, cursor, role }: QuadrantSeries,
  index: number,
  { luminance, exposure, negative, print }: Scales,
): LabelObstacle[] {
  const ways = [...tones, cursor].map((tone) => ({
    subject: luminance(tone.logLuminance),
    exposed: exposure(tone.logExposure),
    across: negative(tone.negativeDensity),
    up: print(tone.printDensity),
  }));
  const at = ways.at(-1);
  const drawn = ways.slice(0, -1);
  const curve = (name: string, points: readonly (readonly [number, number])[]): LabelObstacle => ({
    id: `${name}-${role}`,
    points: dense(points),
  });
  return [
    ...(index === 0
      ? [
          curve(
            'camera',
            drawn.map(({ subject, exposed }) => [subject, exposed] as const),
          ),
        ]
      : []),
    curve(
      'film',
      drawn.map(({ across, exposed }) => [across, exposed] as const),
    ),
    curve(
      'paper',
      drawn.map(({ across, up }) => [across, up] as const),
    ),
    curve(
      'whole',
      drawn.map(({ subject, up }) => [subject, up] as const),
    ),
    ...(at === undefined
      ? []
      : [
          curve(FOLLOWED, [
            [at.subject, exposure.range()[0] ?? at.exposed],
            [at.subject, at.exposed],
            [at.across, at.exposed],
            [at.across, at.up],
            [at.subject, at.up],
            [at.subject, at.exposed],
          ]),
        ]),
  ];
}

function dense(points: readonly (readonly [number, number])[]): (readonly [number, number])[] {
  return points.flatMap((point, index) => {
    const [x, y] = point;
    const [toX, toY] = points[index + 1] ?? point;
    const count = Math.max(1, Math.ceil(Math.hypot(toX - x, toY - y) / STEP));
    return Array.from(
      { length: count },
      (_, k) => [x + ((toX - x) * k) / count, y + ((toY - y) * k) / count] as const,
    );
  });
}

/** On one line, or on two as even as may be where the panel is narrow. */
function rowsOf(name: string, room: number): readonly string[] {
  const parts = name.split(' ');
  if (parts.length === 1 || textWidth(name, NAME, true) <= 0.5 * room) return [name];
  const splits = parts
    .slice(1)
    .map((_, i) => [parts.slice(0, i + 1).join(' '), parts.slice(i + 1).join(' ')]);
  const wider = (rows: readonly string[]) =>
    Math.max(...rows.map((row) => textWidth(row, NAME, true)));
  return splits.toSorted((a, b) => wider(a) - wider(b))[0] ?? [name];
}

type NameMark = Extract<Mark, { kind: 'text' }>;

function placed(rows: readonly string[], plot: Plot, { anchor, low }: Corner): NameMark[] {
  const first = low ? plot.y + plot.height - 8 - (rows.length - 1) * LINE : plot.y + 16;
  return rows.map((text, index) => ({
    kind: 'text',
    x: anchor === 'start' ? plot.x + INSET : plot.x + plot.width - INSET,
    y: first + index * LINE,
    text,
    anchor,
    size: NAME,
    ink: 'text',
    bold: true,
    halo: true,
  }));
}

function coveredBy(marks: readonly NameMark[], grid: LineGrid | undefined): number {
  const boxes = marks.map((mark) => textBox(mark.text, mark.size, mark, true));
  return boxes.reduce((sum, box) => sum + (grid?.covered(box) ?? 0), 0);
}

const edges = ({ x, y, width, height }: Plot): Box => ({
  x0: x,
  y0: y,
  x1: x + width,
  y1: y + height,
});
