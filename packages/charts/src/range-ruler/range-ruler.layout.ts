/**
 * The range ruler: the paper's grades as a ruler laid along printing density, zero at the shadow,
 * and the negative's range before and after the bath as bars inside the paper's scale. The same
 * reading as the columns of the curve sheet, lying down, for narrow screens and for print.
 */
import { scaleLinear, type ScaleLinear } from 'd3';
import { area, box, segment, stroke, type Mark, type Scene } from '../scene/mark.ts';
import { hatch } from '../scene/hatch.ts';
import { ticksOf } from '../axes/axes.ts';
import { formatNumber, STOP } from '../text/format.ts';
import { textWidth } from '../text/text-width.ts';
import { fitLines, fitSentence, fitState, paperCaption, words } from '../text/words.ts';
import type { PaperScale, SheetPaperFit } from '../curve-sheet/curve-sheet.types.ts';

export interface RangeRulerInput extends SheetPaperFit {
  readonly width: number;
  readonly title: string;
}

const LEFT = 12;
const RIGHT = 12;
const TOP = 26;
const LADDER = 24;
const ROW = 62;
const BAR = 24;
const SIZE = 12;

/** Height in pixels that a ruler with this many ranges takes. */
export function rangeRulerHeight(ranges: number): number {
  return TOP + LADDER + 14 + ranges * ROW + 60;
}

/** Lays out the range ruler; its height follows from the number of ranges. */
export function layoutRangeRuler(input: RangeRulerInput): Scene {
  const { width, ranges, paper, bands, title } = input;
  const height = rangeRulerHeight(ranges.length);
  const greatest = Math.max(
    1.8,
    ...ranges.map(({ printingRange }) => printingRange + 0.1),
    (paper?.exposureScale ?? 0) + 0.1,
  );
  const x = scaleLinear([0, greatest], [LEFT, Math.max(LEFT + 40, width - RIGHT)]);
  const bottom = height - 40;
  const marks: Mark[] = [
    ...stopsAxis(x),
    ...gradeLadder(bands, x),
    ...logAxis(x, bottom),
    ...ranges.flatMap((_, index) => row(input, index, x)),
  ];
  if (paper !== null) {
    const rim = x(paper.exposureScale);
    const { caption, roomRight } = captionPlace(paper, rim, width);
    marks.push(
      stroke(segment(rim, TOP + LADDER, rim, bottom), 'paper', 1, {
        dash: '4 3',
        name: 'ruler-rim',
      }),
      {
        kind: 'text',
        x: rim + (roomRight ? 8 : -8),
        y: bottom - 6,
        text: caption,
        anchor: roomRight ? 'start' : 'end',
        size: SIZE,
        ink: 'paper',
        halo: true,
      },
    );
  }
  return {
    width,
    height,
    title,
    marks,
    description: describe(input),
    table: {
      caption: 'Printing range against the paper',
      columns: ['state', 'printing range (log₁₀)', 'stops', 'calls for', 'paper’s scale (log₁₀)'],
      rows: ranges.map((range) => [
        range.label,
        formatNumber(range.printingRange, 2),
        formatNumber(range.printingRange / STOP, 1),
        range.verdict,
        paper === null ? '–' : formatNumber(paper.exposureScale, 2),
      ]),
    },
  };
}

/** The paper's name beside the rim; its scale alone where the name does not fit. */
function captionPlace(
  paper: PaperScale,
  rim: number,
  width: number,
): { caption: string; roomRight: boolean } {
  const right = width - RIGHT - rim - 8;
  const left = rim - 8 - LEFT;
  const [name, length] = paperCaption(paper);
  for (const caption of [`${name}, ${length}`, length]) {
    const needed = textWidth(caption, SIZE);
    if (needed <= right) return { caption, roomRight: true };
    if (needed <= left) return { caption, roomRight: false };
  }
  return { caption: formatNumber(paper.exposureScale, 2), roomRight: right > left };
}

function describe({ ranges, paper }: RangeRulerInput): string {
  if (paper === null) return 'No paper chosen.';
  return ranges.map((range) => fitSentence(range.label, range.printingRange, paper)).join(' ');
}

type Linear = ScaleLinear<number, number>;

function stopsAxis(x: Linear): Mark[] {
  const last = Math.floor((x.domain()[1] ?? 1) / STOP);
  const right = x.range()[1] ?? 0;
  const unit: Mark = {
    kind: 'text',
    x: right,
    y: TOP - 12,
    text: words.stops,
    anchor: 'end',
    size: SIZE,
    ink: 'quiet',
  };
  const room = right - textWidth(words.stops, SIZE) - 10;
  const labels = Array.from({ length: last + 1 }, (_, stop): Mark[] => {
    const at = x(stop * STOP);
    const tick = stroke(segment(at, TOP - 8, at, TOP - 3), 'frame', 1);
    if (at > room) return [tick];
    const anchor = stop === 0 ? 'start' : 'middle';
    return [
      tick,
      { kind: 'text', x: at, y: TOP - 12, text: String(stop), anchor, size: SIZE, ink: 'quiet' },
    ];
  });
  return [...labels.flat(), unit];
}

function logAxis(x: Linear, bottom: number): Mark[] {
  const [from = 0, to = 1] = x.range();
  const ticks = ticksOf(x, (to - from) / 60);
  return [
    stroke(segment(from, bottom, to, bottom), 'frame', 1),
    ...ticks.flatMap(({ value, label }): Mark[] => [
      stroke(segment(x(value), bottom, x(value), bottom + 5), 'frame', 1),
      {
        kind: 'text',
        x: x(value),
        y: bottom + 18,
        text: label,
        anchor: value === 0 ? 'start' : 'middle',
        size: SIZE,
        ink: 'quiet',
      },
    ]),
    {
      kind: 'text',
      x: (from + to) / 2,
      y: bottom + 35,
      text: words.printingRange,
      anchor: 'middle',
      size: SIZE,
      ink: 'quiet',
    },
  ];
}

function gradeLadder(bands: RangeRulerInput['bands'], x: Linear): Mark[] {
  return bands.flatMap(({ label, lower, upper }): Mark[] => {
    const [from, to] = [x(lower), x(upper)];
    const long = `grade ${label}`;
    const text = textWidth(long, SIZE) < to - from - 6 ? long : label;
    return [
      stroke(box(from, TOP, to - from, LADDER), 'paper', 1),
      {
        kind: 'text',
        x: (from + to) / 2,
        y: TOP + LADDER / 2 + 4,
        text,
        anchor: 'middle',
        size: SIZE,
        ink: 'paper',
      },
    ];
  });
}

function row({ ranges, paper }: RangeRulerInput, index: number, x: Linear): Mark[] {
  const range = ranges[index];
  if (range === undefined) return [];
  const top = TOP + LADDER + 14 + index * ROW;
  const barTop = top + 20;
  const end = x(range.printingRange);
  const start = x(0);
  const heading = `${range.label}: ${formatNumber(range.printingRange, 2)} · ${range.verdict}`;
  const marks: Mark[] = [
    {
      kind: 'text',
      x: start,
      y: top + 12,
      text: heading,
      anchor: 'start',
      size: SIZE,
      ink: range.role,
      bold: true,
    },
  ];
  const bar = [start, barTop + 5, end - start, BAR - 10] as const;
  if (range.role === 'before') {
    marks.push(area(box(...bar), 'before', { opacity: 0.82, name: 'ruler-before' }));
  } else {
    marks.push(stroke(hatch(...bar), 'after', 2));
    marks.push(stroke(box(...bar), 'after', 1.5, { name: 'ruler-after' }));
  }
  if (paper === null) return marks;
  const rim = x(paper.exposureScale);
  marks.push(
    stroke(`${segment(rim, barTop, start, barTop)}V${barTop + BAR}H${rim}`, 'paper', 2),
    stroke(segment(rim, barTop - 4, rim, barTop + BAR + 4), 'paper', 2.5),
  );
  const difference = fitLines(range.printingRange, paper.exposureScale).join(' · ');
  const right = x.range()[1] ?? end;
  const beside = Math.max(rim, end) + 12;
  const differenceWidth = textWidth(difference, SIZE, true);
  const fitsBeside = beside + differenceWidth <= right;
  const fitsAbove = start + textWidth(heading, SIZE, true) + 12 + differenceWidth <= right;
  // Beside the bar where there is room, else at the end of the heading's line, else below.
  marks.push({
    kind: 'text',
    x: fitsBeside ? beside : right,
    y: fitsBeside ? barTop + BAR / 2 + 4 : fitsAbove ? top + 12 : barTop + BAR + 13,
    text: difference,
    anchor: fitsBeside ? 'start' : 'end',
    size: SIZE,
    ink: 'alert',
    bold: true,
    halo: true,
    name: `ruler-difference-${range.role}`,
  });
  if (fitState(range.printingRange, paper.exposureScale) !== 'fills') {
    const middle = barTop + BAR / 2;
    marks.push(stroke(segment(rim, middle, end, middle), 'alert', 1.5, { dash: '2 2' }));
  }
  return marks;
}
