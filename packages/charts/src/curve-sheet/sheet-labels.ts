/**
 * What the curve sheet writes beside its points and curves: the speed point, the negative's shadow
 * and highlight, the names of the curves, and base + fog.
 */
import { bisector, range } from 'd3';
import type { Plot } from '../axes/axes.ts';
import type { Mark } from '../scene/mark.ts';
import { formatNumber } from '../text/format.ts';
import {
  around,
  placeLabels,
  textBox,
  type Box,
  type LabelCandidate,
  type LabelObstacle,
  type LabelRequest,
} from '../text/place-labels.ts';
import { textWidth } from '../text/text-width.ts';
import { words } from '../text/words.ts';
import type { CurveSheetInput, SheetPoint, SheetSeries } from './curve-sheet.types.ts';
import type { DrawnPoints, Pixel } from './drawn-points.ts';

/** Rather four other curves under a label than one that matters. */
const CHOSEN_WEIGHT = 4;
/** Base line of a label above the axis. */
const FOOT_ROOM = 5;
/** From one line of text to the next. */
const LINE = 15;

/** A point of the negative on a drawn curve. */
export interface SpotPoint extends SheetPoint {
  readonly role: 'before' | 'after';
  readonly name: string;
}

/** The curves that matter most come last, on top. */
export function order(series: readonly SheetSeries[]): SheetSeries[] {
  const rank = { other: 0, paper: 1, before: 2, after: 3 } as const;
  return series.toSorted((a, b) => rank[a.role] - rank[b.role]);
}

/** Where the speed point is drawn, or null where the sheet does not reach it. */
export function speedPixel(
  point: SheetPoint,
  plot: Plot,
  pixel: (p: SheetPoint) => Pixel,
): Pixel | null {
  const at = pixel(point);
  return at[0] < plot.x || at[0] > plot.x + plot.width ? null : at;
}

/** The sheet's labels; those that find no place are left out, for the table holds their figures. */
export function sheetLabels(
  input: CurveSheetInput,
  shown: readonly SheetSeries[],
  spots: readonly SpotPoint[],
  plot: Plot,
  drawn: DrawnPoints,
): Mark[] {
  const pixel = (point: SheetPoint) => drawn.pixel(point);
  const lines = shown.map(({ id, line, role }): Required<LabelObstacle> => ({
    id,
    points: drawn.pixels(line),
    weight: role === 'other' ? 1 : CHOSEN_WEIGHT,
  }));
  if (input.baseFog !== null) lines.push(baseFogObstacle(input.baseFog, plot, pixel));
  const requests: LabelRequest[] = [];
  const inks = new Map<string, 'before' | 'after' | 'other' | 'paper' | 'text' | 'quiet'>();
  const ask = (
    id: string,
    text: string,
    at: readonly [number, number],
    ink: 'before' | 'after' | 'other' | 'paper' | 'text' | 'quiet',
    candidates = around(at[0], at[1]),
  ) => {
    inks.set(id, ink);
    requests.push({ id, text, size: 12, candidates });
  };
  // What has one place comes before what may stand anywhere along a curve; before the ends of the
  // negative the speed point, beside the foot of its dashed line, where it is in nobody's way.
  const speedAt = input.speedPoint === null ? null : speedPixel(input.speedPoint, plot, pixel);
  if (input.speedPoint !== null && speedAt !== null) {
    const value = formatNumber(input.speedPoint.logExposure, 2);
    const [x, y] = speedAt;
    const foot = plot.y + plot.height - FOOT_ROOM;
    const beside = range(foot, Math.min(y, foot - 1), -LINE).flatMap((at): LabelCandidate[] => [
      { x: x + 8, y: at, anchor: 'start' },
      { x: x - 8, y: at, anchor: 'end' },
    ]);
    const text = `${words.speedPoint} ${value}`;
    ask('speed', text, speedAt, 'before', [...beside.slice(0, 2), ...around(x, y), ...beside]);
  }
  for (const { name, role, ...point } of spots) {
    const at = pixel(point);
    const twin = spots.find((spot) => spot.name === name && spot.role !== role);
    // Of two shadows close by, the denser is named above and the thinner below: not by colour alone.
    const above = twin === undefined || point.density > twin.density;
    const isThere = ({ y }: LabelCandidate) => y < at[1] === above;
    const places = around(...at);
    // The wrong way round two names would mislead: rather none.
    const candidates =
      twin === undefined
        ? places.toSorted((a, b) => Number(isThere(b)) - Number(isThere(a)))
        : places.filter(isThere);
    ask(`${name}-${role}`, `${name} ${formatNumber(point.density, 2)}`, at, role, candidates);
  }
  for (const series of order(shown)
    .toReversed()
    .filter(({ role }) => role !== 'other')) {
    askAlong(series, true);
  }
  const bounds: Box = {
    x0: plot.x + 2,
    y0: plot.y - 6,
    x1: plot.x + plot.width,
    y1: plot.y + plot.height - 2,
  };
  const chosen = lines.filter(({ weight }) => weight > 1);
  const onChosen = (box: Box) => chosen.some(({ points }) => runsThrough(points, box));
  for (const series of shown.filter(({ role }) => role === 'other')) {
    askAlong(series, false);
  }
  const baseFog = baseFogLabel(input, plot, pixel);
  const points = [...spots.map(pixel), ...(speedAt === null ? [] : [speedAt])];
  const taken: Box[] = points.map(([x, y]) => ({ x0: x - 5, y0: y - 5, x1: x + 5, y1: y + 5 }));
  if (baseFog !== null) taken.push(baseFog.box);
  const placed = placeLabels(requests, bounds, lines, taken);
  const marks: Mark[] = placed.map(({ id, text, x, y, anchor }) => ({
    kind: 'text',
    x,
    y,
    text,
    anchor,
    size: 12,
    ink: inks.get(id) ?? 'text',
    bold: id.startsWith('name-') && inks.get(id) !== 'other',
    halo: true,
    name: `label-${id}`,
  }));
  return baseFog === null ? marks : [...marks, baseFog.mark];

  /**
   * A curve's name may stand anywhere along its upper half; a quiet one stands on its own line, for
   * beside it would be taken for a neighbour's, and not on the curves that matter, unless its
   * readings are shown: then it must have its name.
   */
  function askAlong({ id, label, line, markers: read, role }: SheetSeries, bold: boolean) {
    const points = line.length > 0 ? line : read;
    const places = [0.97, 0.9, 0.82, 0.74, 0.66, 0.58, 0.5, 0.42].flatMap((part) => {
      const point = points[Math.round(part * (points.length - 1))];
      return point === undefined ? [] : [pixel(point)];
    });
    inks.set(`name-${id}`, role);
    const request = { id: `name-${id}`, text: label, size: 12, bold };
    if (role !== 'other') {
      // Above and to the left of a rising curve is free more often than not.
      const beside = places.flatMap(([x, y]) => around(x, y, 9).slice(0, 6));
      const candidates = beside.toSorted((a, b) => rankOf(a.anchor) - rankOf(b.anchor));
      requests.push({ ...request, candidates });
      return;
    }
    const on = places.map(([x, y]) => ({ x, y: y + 4, anchor: 'middle' as const }));
    const candidates = read.length > 0 ? on : on.filter((at) => !onChosen(textBox(label, 12, at)));
    requests.push({ ...request, candidates, ownLine: id });
  }
}

const byX = bisector(([x]: Pixel) => x);

/** Whether a line whose points go from left to right has one inside a box. */
function runsThrough(points: readonly Pixel[], { x0, y0, x1, y1 }: Box): boolean {
  for (let i = byX.right(points, x0); i < points.length; i++) {
    const [x, y] = points[i] ?? [Infinity, 0];
    if (x >= x1) return false;
    if (y > y0 && y < y1) return true;
  }
  return false;
}

/** The dotted line of base + fog as what labels should not lie on. */
function baseFogObstacle(
  baseFog: number,
  { x, width }: Plot,
  pixel: (p: SheetPoint) => Pixel,
): Required<LabelObstacle> {
  const y = pixel({ logExposure: 0, density: baseFog })[1];
  return {
    id: 'base-fog',
    weight: 1,
    points: range(x, x + width, 6).map((at) => [at, y] as const),
  };
}

const rankOf = (anchor: string) => (anchor === 'end' ? 0 : 1);

function baseFogLabel(
  { baseFog }: CurveSheetInput,
  plot: Plot,
  pixel: (p: SheetPoint) => Pixel,
): { mark: Mark; box: Box } | null {
  if (baseFog === null) return null;
  const text = `${words.baseFog} ${formatNumber(baseFog, 2)}`;
  const at0 = Math.round(pixel({ logExposure: 0, density: baseFog })[1]);
  // Under the line, unless the axis is too near.
  const y = plot.y + plot.height - at0 >= 22 ? at0 + 15 : at0 - 7;
  const x = plot.x + plot.width - 4;
  if (textWidth(text, 12) > plot.width * 0.6) return null;
  const at = { x, y, anchor: 'end' } as const;
  return {
    mark: { kind: 'text', ...at, text, size: 12, ink: 'quiet', halo: true, name: 'label-base-fog' },
    box: textBox(text, 12, at),
  };
}
