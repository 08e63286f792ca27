/**
 * How much of a picture prints at each density: two prints as stepped outlines over each other, the
 * first filled, the second dashed, and all of them in the table.
 */
import { scaleLinear } from 'd3';
import { bottomAxis, leftAxis, type Plot } from '../axes/axes.ts';
import { area, box, segment, stroke, type Mark, type Scene } from '../scene/mark.ts';
import { formatNumber } from '../text/format.ts';
import { textWidth } from '../text/text-width.ts';
import { words } from '../text/words.ts';

/** One print: parts of the picture by print density. */
export interface HistogramPrint {
  readonly id: string;
  readonly label: string;
  /** Part of the picture in each step of density, 0 to 1; the last holds all that is denser. */
  readonly parts: readonly number[];
}

export interface PrintHistogramInput {
  readonly width: number;
  readonly height: number;
  readonly title: string;
  /** Width of a step of density. */
  readonly binWidth: number;
  readonly prints: readonly HistogramPrint[];
  /** The two that are drawn; the same one twice draws it alone. */
  readonly drawn: readonly [string, string];
}

const MARGIN = { top: 70, right: 16, bottom: 48, left: 46 };
const ROOM_FOR_BOTH = 520;

/** Lays out the histogram. */
export function layoutPrintHistogram(input: PrintHistogramInput): Scene {
  const { width, height, prints, binWidth, drawn } = input;
  const plot: Plot = {
    x: MARGIN.left,
    y: MARGIN.top,
    width: Math.max(40, width - MARGIN.left - MARGIN.right),
    height: Math.max(40, height - MARGIN.top - MARGIN.bottom),
  };
  const bins = Math.max(1, ...prints.map(({ parts }) => parts.length));
  const ids = [...new Set(drawn)];
  const shown = ids.flatMap((id) => prints.find((print) => print.id === id) ?? []);
  const highest = Math.max(0.01, ...shown.flatMap(({ parts }) => parts));
  const x = scaleLinear([0, bins * binWidth], [plot.x, plot.x + plot.width]);
  const y = scaleLinear([0, 100 * highest * 1.05], [plot.y + plot.height, plot.y]).nice();
  const outline = (parts: readonly number[]): string => {
    const steps = parts.map((part, k) => {
      const level = y(100 * part).toFixed(2);
      return `L${x(k * binWidth).toFixed(2)},${level}L${x((k + 1) * binWidth).toFixed(2)},${level}`;
    });
    const foot = y(0).toFixed(2);
    return `M${x(0).toFixed(2)},${foot}${steps.join('')}L${x(parts.length * binWidth).toFixed(2)},${foot}`;
  };
  const [first, second] = shown;
  const marks: Mark[] = [
    ...leftAxis(y, plot, words.shareOfPicture),
    ...bottomAxis(x, plot, words.netPrintDensity),
    ...(first === undefined
      ? []
      : [
          area(`${outline(first.parts)}Z`, 'before', { opacity: 0.16, name: 'histogram-fill' }),
          stroke(outline(first.parts), 'before', 1.5, { name: 'histogram-first' }),
        ]),
    ...(second === undefined
      ? []
      : [stroke(outline(second.parts), 'after', 2.5, { dash: '6 3', name: 'histogram-second' })]),
    ...legend(shown, width),
  ];
  return {
    width,
    height,
    title: input.title,
    marks,
    description: describe(shown, binWidth),
    table: table(input, bins),
  };
}

function legend(shown: readonly HistogramPrint[], width: number): Mark[] {
  return shown.flatMap(({ label }, i): Mark[] => {
    const second = i === 1;
    const [left, y] =
      width >= ROOM_FOR_BOTH ? [MARGIN.left + (i * width) / 2.2, 16] : [8, 16 + 18 * i];
    const ink = second ? 'after' : 'before';
    const line = segment(left, y - 4, left + 26, y - 4);
    return [
      ...(second ? [] : [area(box(left, y - 4, 26, 6), ink, { opacity: 0.16 })]),
      second ? stroke(line, ink, 2.5, { dash: '6 3' }) : stroke(line, ink, 1.5),
      {
        kind: 'text',
        x: left + 32,
        y,
        text: shortened(label, (width >= ROOM_FOR_BOTH ? width / 2.2 : width) - 44),
        anchor: 'start',
        size: 12,
        ink,
        bold: true,
      },
    ];
  });
}

/** The text cut to the room there is; the whole stands in the table. */
function shortened(text: string, room: number): string {
  let cut = text;
  while (cut.length > 4 && textWidth(cut, 12, true) > room) cut = `${cut.slice(0, -2).trimEnd()}…`;
  return cut;
}

function describe(shown: readonly HistogramPrint[], binWidth: number): string {
  return shown
    .map(({ label, parts }) => {
      const most = parts.indexOf(Math.max(...parts));
      return `${label}: most of the picture at print density ${formatNumber((most + 0.5) * binWidth, 2)}.`;
    })
    .join(' ');
}

function table({ prints, binWidth, title }: PrintHistogramInput, bins: number): Scene['table'] {
  return {
    caption: title,
    columns: [words.netPrintDensity, ...prints.map(({ label }) => `${label} (%)`)],
    rows: Array.from({ length: bins }, (_, k) => [
      k === bins - 1
        ? `${formatNumber(k * binWidth, 2)} …`
        : `${formatNumber(k * binWidth, 2)} – ${formatNumber((k + 1) * binWidth, 2)}`,
      ...prints.map(({ parts }) => formatNumber(100 * (parts[k] ?? 0), 1)),
    ]),
  };
}
