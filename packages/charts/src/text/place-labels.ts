/**
 * Places labels beside their points so that no two overlap and lines stay legible.
 *
 * Each label brings candidate positions in order of preference. Taken in order of importance, a
 * label gets the first candidate that is free of other labels and of the lines; failing that the
 * one that covers least of a line, its own cost counted in; a label that would cover another label is left out, for the
 * table beside the chart still holds it.
 */
import { lineGrid } from './line-grid.ts';
import { textWidth } from './text-width.ts';

export interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

export interface LabelRequest {
  readonly id: string;
  readonly text: string;
  readonly size: number;
  readonly bold?: boolean;
  readonly candidates: readonly LabelCandidate[];
  /** Line that the label names: it may stand on that one, with a halo. */
  readonly ownLine?: string;
}

export interface LabelObstacle {
  readonly id: string;
  /** Points along the line, close enough that no label slips between two. */
  readonly points: readonly (readonly [number, number])[];
  /** How much worse it is to cover this line than another; 1 by default. */
  readonly weight?: number;
}

export interface LabelCandidate {
  /** Anchor of the base line. */
  readonly x: number;
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
  /** As bad as covering so many points of a line: for places far from the point; 0 by default. */
  readonly cost?: number;
}

export interface PlacedLabel extends Omit<LabelCandidate, 'cost'> {
  readonly id: string;
  readonly text: string;
  readonly box: Box;
}

/** Box around a line of text anchored at a base line point. */
export function textBox(
  text: string,
  size: number,
  { x, y, anchor }: LabelCandidate,
  bold = false,
): Box {
  return boxOf(textWidth(text, size, bold), size, { x, y, anchor });
}

function boxOf(width: number, size: number, { x, y, anchor }: LabelCandidate): Box {
  const x0 = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2;
  return { x0, y0: y - size * 0.8, x1: x0 + width, y1: y + size * 0.25 };
}

/** Eight places around a point, the preferred ones first. */
export function around(x: number, y: number, gap = 8, size = 12): LabelCandidate[] {
  const middle = y + size * 0.35;
  return [
    { x: x + gap, y: y - gap, anchor: 'start' },
    { x: x - gap, y: y - gap, anchor: 'end' },
    { x: x + gap, y: y + gap + size * 0.7, anchor: 'start' },
    { x: x - gap, y: y + gap + size * 0.7, anchor: 'end' },
    { x: x + gap * 1.4, y: middle, anchor: 'start' },
    { x: x - gap * 1.4, y: middle, anchor: 'end' },
    { x, y: y - gap * 1.4, anchor: 'middle' },
    { x, y: y + gap * 1.4 + size * 0.7, anchor: 'middle' },
    { x: x + gap, y: y - gap * 3, anchor: 'start' },
    { x: x - gap, y: y - gap * 3, anchor: 'end' },
    { x: x + gap, y: y + gap * 3 + size * 0.7, anchor: 'start' },
  ];
}

/** Whether two boxes overlap by more than a hair. */
export function overlaps(a: Box, b: Box): boolean {
  return a.x0 < b.x1 - 0.5 && b.x0 < a.x1 - 0.5 && a.y0 < b.y1 - 0.5 && b.y0 < a.y1 - 0.5;
}

/**
 * Chooses a place for every label that fits.
 *
 * @param requests - labels, the most important first
 * @param bounds - the area that labels must stay within
 * @param lines - lines that labels should not cover
 * @param taken - boxes already occupied
 * @returns the labels that found a place, in the order asked
 */
export function placeLabels(
  requests: readonly LabelRequest[],
  bounds: Box,
  lines: readonly LabelObstacle[],
  taken: readonly Box[] = [],
): PlacedLabel[] {
  const grid = lineGrid(lines, bounds);
  const occupied = [...taken];
  const placed: PlacedLabel[] = [];
  for (const request of requests) {
    const width = textWidth(request.text, request.size, request.bold);
    let best: { candidate: LabelCandidate; box: Box; covered: number } | undefined;
    for (const { x, y, anchor, cost = 0 } of request.candidates) {
      // On whole pixels letters are sharp, and stay where they are while a curve moves by less.
      const candidate = { x: Math.round(x), y: Math.round(y), anchor };
      const box = boxOf(width, request.size, candidate);
      if (!within(box, bounds)) continue;
      const grown = grow(box);
      if (occupied.some((other) => overlaps(grown, other))) continue;
      const covered = cost + grid.covered(box, request.ownLine);
      if (best === undefined || covered < best.covered) best = { candidate, box, covered };
      if (covered === 0) break;
    }
    if (best === undefined) continue;
    occupied.push(best.box);
    placed.push({ id: request.id, text: request.text, ...best.candidate, box: best.box });
  }
  return placed;
}

/**
 * Moves labels along one axis as little as needed so that they keep a distance.
 *
 * @param wanted - wanted positions, any order
 * @param distance - least distance between neighbours
 * @param low - least position allowed
 * @param high - greatest position allowed
 * @returns positions in the order given
 */
export function spread(
  wanted: readonly number[],
  distance: number,
  low: number,
  high: number,
): number[] {
  const order = wanted.map((position, index) => ({ position, index }));
  order.sort((a, b) => a.position - b.position);
  const result = new Array<number>(wanted.length).fill(low);
  let floor = low;
  for (const { position, index } of order) {
    result[index] = Math.max(position, floor);
    floor = (result[index] ?? low) + distance;
  }
  let ceiling = high;
  for (const { index } of order.toReversed()) {
    result[index] = Math.min(result[index] ?? high, ceiling);
    ceiling = (result[index] ?? high) - distance;
  }
  return result;
}

const grow = ({ x0, y0, x1, y1 }: Box): Box => ({ x0: x0 - 2, y0: y0 - 1, x1: x1 + 2, y1: y1 + 1 });
const within = (a: Box, b: Box) => a.x0 >= b.x0 && a.x1 <= b.x1 && a.y0 >= b.y0 && a.y1 <= b.y1;
