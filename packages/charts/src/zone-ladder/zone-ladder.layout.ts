/**
 * The zone ladder: what each zone of the subject becomes in the print, one row of patches for each
 * development, with the lightness under every patch. Where no grey may be shown, as under red
 * light, bars as high as the lightness stand in place of the patches.
 */
import { area, box, stroke, type Mark, type Scene } from '../scene/mark.ts';
import { formatNumber } from '../text/format.ts';
import { textWidth } from '../text/text-width.ts';
import { words } from '../text/words.ts';

interface LadderRung {
  /** Roman numeral of the zone. */
  readonly zone: string;
  /** Gross density of the negative. */
  readonly density: number;
  /** Null without a paper. */
  readonly print: {
    readonly density: number;
    /** CIE L*. */
    readonly lightness: number;
    /** The same as a grey of the screen, 0 to 255. */
    readonly grey: number;
  } | null;
  /** True outside the exposures that were read. */
  readonly extrapolated: boolean;
}

export interface LadderRow {
  /** e.g. `N+1`. */
  readonly development: string;
  /** e.g. `8:40 min, EI 64`. */
  readonly detail: string;
  readonly rungs: readonly LadderRung[];
}

export interface ZoneLadderInput {
  readonly width: number;
  readonly title: string;
  readonly rows: readonly LadderRow[];
  /** Whether patches may be grey. */
  readonly grey: boolean;
}

const MARGIN = { top: 22, side: 6, bottom: 6 };
const HEAD = 24;
const PATCH = 30;
const FOOT = 16;
const ROW = HEAD + PATCH + FOOT;
const SMALL = 11;

/** Lays out the ladder; its height follows from the number of developments. */
export function layoutZoneLadder(input: ZoneLadderInput): Scene {
  const { width, rows, title } = input;
  const most = Math.max(1, ...rows.map(({ rungs }) => rungs.length));
  const step = (width - 2 * MARGIN.side) / most;
  const names = rowNames(rows, width - 2 * MARGIN.side);
  const marks: Mark[] = [
    ...(rows[0]?.rungs ?? []).map(({ zone }, i): Mark => ({
      kind: 'text',
      x: MARGIN.side + (i + 0.5) * step,
      y: 14,
      text: zone,
      anchor: 'middle',
      size: 12,
      ink: 'quiet',
    })),
    ...rows.flatMap((row, index) =>
      rowMarks(row, names[index] ?? '', MARGIN.top + index * ROW, step, input),
    ),
  ];
  return {
    width,
    height: MARGIN.top + rows.length * ROW + MARGIN.bottom,
    title,
    description: describe(input),
    marks,
    table: {
      caption: title,
      columns: [words.development, words.zone, words.density, words.printDensity, words.lightness],
      rows: rows.flatMap(({ development, rungs }) =>
        rungs.map(({ zone, density, print }) => [
          development.replace('-', '−'),
          zone,
          formatNumber(density, 2),
          print === null ? '–' : formatNumber(print.density, 2),
          print === null ? '–' : formatNumber(print.lightness, 0),
        ]),
      ),
    },
  };
}

/** Each row with its detail, or all without where one has no room. */
function rowNames(rows: readonly LadderRow[], room: number): readonly string[] {
  const short = rows.map(({ development }) => development.replace('-', '−'));
  const full = rows.map(({ detail }, index) => `${short[index] ?? ''}: ${detail}`);
  return full.every((name) => textWidth(name, 13, true) <= room) ? full : short;
}

function rowMarks(
  row: LadderRow,
  name: string,
  top: number,
  step: number,
  input: ZoneLadderInput,
): Mark[] {
  return [
    {
      kind: 'text',
      x: MARGIN.side,
      y: top + 16,
      text: name,
      anchor: 'start',
      size: 13,
      ink: 'text',
      bold: true,
    },
    ...row.rungs.flatMap((rung, i) =>
      rungMarks(rung, MARGIN.side + i * step, top + HEAD, step, input.grey),
    ),
  ];
}

function rungMarks(
  { print, density, extrapolated }: LadderRung,
  x: number,
  y: number,
  step: number,
  grey: boolean,
): Mark[] {
  const width = step - 2;
  const outline = stroke(box(x + 1, y, width, PATCH), 'frame', 1, {
    ...(extrapolated && { dash: '3 2' }),
  });
  const figure: Mark = {
    kind: 'text',
    x: x + step / 2,
    y: y + PATCH + 12,
    text: print === null ? formatNumber(density, 2) : formatNumber(print.lightness, 0),
    anchor: 'middle',
    size: SMALL,
    ink: 'text',
  };
  if (print === null) return [outline, figure];
  const height = (PATCH * Math.min(100, Math.max(0, print.lightness))) / 100;
  const tone = grey
    ? area(box(x + 1, y, width, PATCH), 'ground', { grey: print.grey, name: 'zone-patch' })
    : area(box(x + 1, y + PATCH - height, width, height), 'other', { name: 'zone-bar' });
  return [tone, outline, figure];
}

function describe({ rows, grey }: ZoneLadderInput): string {
  const list = rows.map(({ development, detail, rungs }) => {
    const tones = rungs.map(({ zone, print, density }) =>
      print === null
        ? `${zone} ${formatNumber(density, 2)}`
        : `${zone} ${formatNumber(print.lightness, 0)}`,
    );
    return `${development.replace('-', '−')} (${detail}): ${tones.join(', ')}`;
  });
  const how = rows.some(({ rungs }) => rungs.some(({ print }) => print !== null))
    ? `lightness L* of the print of each zone${grey ? '' : ', as bars'}`
    : 'density of the negative in each zone';
  return `For each development, ${how}. ${list.join('; ')}.`;
}
