/**
 * One column of the companion panel: the paper's exposure scale as an open frame that stands on the
 * negative's shadow, and the negative's range as what fills it. The frame shares the density axis
 * of the curves; an empty top is the shortfall, a head above the rim the surplus.
 *
 * A length r of printing range becomes r (highlight - shadow) / printingRange of density, so that
 * the rim stands where the negative would have to reach for this light and this paper.
 */
import { area, box, segment, stroke, type Mark, type TextMark } from '../scene/mark.ts';
import { hatch } from '../scene/hatch.ts';
import { formatNumber } from '../text/format.ts';
import { fitLines, fitState, words } from '../text/words.ts';
import type { GradeBand, PaperScale, RangeOnPaper } from './curve-sheet.types.ts';

export interface FitColumnInput {
  readonly range: RangeOnPaper;
  readonly paper: PaperScale | null;
  readonly bands: readonly GradeBand[];
  /** Left edge of the column in pixels. */
  readonly x: number;
  readonly size: ColumnSize;
  /** The first column names its ladder for all. */
  readonly first: boolean;
  /** Top of the header in pixels. */
  readonly top: number;
  /** Top of the plot: no rung stands above it. */
  readonly ceiling: number;
  /** Density to pixels. */
  readonly y: (density: number) => number;
}

/** Widths in pixels: the ladder of grades, the frame, and the whole column with its dimension. */
export interface ColumnSize {
  readonly ladder: number;
  readonly frame: number;
  readonly width: number;
}

/** Column widths for a sheet of this width. */
export function columnSize(sheetWidth: number): ColumnSize {
  return sheetWidth < 640
    ? { ladder: 19, frame: 24, width: 121 }
    : { ladder: 22, frame: 30, width: 140 };
}

const INSET = 5;
const LABEL = 12;

/** Marks of one column, with the density at the paper's rim. */
export function fitColumn(input: FitColumnInput): Mark[] {
  const { range, paper, bands, x, size, first, top, ceiling } = input;
  // Tenths of a pixel: what moves by less is left as it stands.
  const y = (density: number): number => Math.round(10 * input.y(density)) / 10;
  const toDensity = densityOfRange(range);
  const left = x + size.ladder;
  const foot = y(range.shadowDensity);
  const head = y(range.highlightDensity);
  const marks: Mark[] = [
    text(x, top, range.label, { bold: true, ink: range.role }),
    text(x, top + 15, `${formatNumber(range.printingRange, 2)} · ${range.verdict}`, {}),
  ];
  marks.push(...ladder(bands, x + size.ladder, ceiling, first, (r) => y(toDensity(r))));
  // The negative's range: solid before the bath, hatched after it.
  const column = [left + INSET, head, size.frame - 2 * INSET, foot - head] as const;
  if (range.role === 'before') {
    marks.push(area(box(...column), 'before', { opacity: 0.82, name: 'fill-before' }));
  } else {
    marks.push(area(box(...column), 'ground'));
    marks.push(stroke(hatch(...column), 'after', 2));
    marks.push(stroke(box(...column), 'after', 1.5, { name: 'fill-after' }));
  }
  if (paper === null) return marks;
  const rim = y(toDensity(paper.exposureScale));
  marks.push(
    stroke(
      `${segment(left, rim, left, foot)}L${left + size.frame},${foot}L${left + size.frame},${rim}`,
      'paper',
      2,
      { name: `paper-frame-${range.role}` },
    ),
    stroke(segment(left - 5, rim, left + size.frame + 5, rim), 'paper', 2.5, {
      name: `paper-rim-${range.role}`,
    }),
  );
  return [...marks, ...dimension(input, paper, rim, head)];
}

/** Density that stands for a printing range `r` above the shadow. */
export function densityOfRange(range: RangeOnPaper): (r: number) => number {
  const perUnit =
    range.printingRange > 0
      ? (range.highlightDensity - range.shadowDensity) / range.printingRange
      : 1;
  return (r) => range.shadowDensity + r * perUnit;
}

/** Grade limits as rungs left of the frame, the grade between them where it has room. */
function ladder(
  bands: readonly GradeBand[],
  right: number,
  ceiling: number,
  named: boolean,
  y: (r: number) => number,
): Mark[] {
  const shown = bands.filter(({ upper }) => y(upper) >= ceiling);
  if (shown.length === 0) return [];
  const rungs = new Set(shown.flatMap(({ lower, upper }) => [y(lower), y(upper)]));
  const rung = (at: number) => segment(right - 6, at, right - 1, at);
  const marks: Mark[] = [stroke(Array.from(rungs, rung).join(''), 'paper', 1)];
  for (const { label, lower, upper } of shown) {
    const low = y(lower);
    const high = y(upper);
    if (low - high < LABEL) continue;
    marks.push(
      text(right - 9, (low + high) / 2 + 4, label, {
        ink: 'paper',
        anchor: 'end',
        size: 11,
        halo: true,
      }),
    );
  }
  const highest = Math.min(...rungs);
  if (named && highest - 12 > ceiling) {
    marks.push(text(right - 26, highest - 5, words.grade, { ink: 'paper', size: 11 }));
  }
  return marks;
}

/** The gap between the negative's head and the paper's rim, dimensioned. */
function dimension(
  { range, x, size }: FitColumnInput,
  paper: PaperScale,
  rim: number,
  head: number,
): Mark[] {
  const at = x + size.ladder + size.frame + 8;
  const lines = fitLines(range.printingRange, paper.exposureScale);
  const middle = (rim + head) / 2 - ((lines.length - 1) * 14) / 2 + 4;
  const marks: Mark[] = lines.map((line, index) =>
    text(at + 6, middle + index * 14, line, { ink: 'alert', bold: index === 0, halo: true }),
  );
  if (fitState(range.printingRange, paper.exposureScale) === 'fills') return marks;
  return [
    stroke(
      `${segment(at - 3, rim, at + 3, rim)}${segment(at - 3, head, at + 3, head)}${segment(at, rim, at, head)}`,
      'alert',
      1.25,
      { name: `dimension-${range.role}` },
    ),
    ...marks,
  ];
}

function text(
  x: number,
  y: number,
  content: string,
  {
    ink = 'text',
    bold = false,
    anchor = 'start',
    size = LABEL,
    halo = false,
  }: Partial<Pick<TextMark, 'ink' | 'bold' | 'anchor' | 'size' | 'halo'>>,
): TextMark {
  const at = { x: Math.round(x), y: Math.round(y) };
  return { kind: 'text', ...at, text: content, anchor, size, ink, bold, halo };
}
