/**
 * How evenly the light lies on a scan, from the bare light that shows round the strips: a surface
 * of second degree through the darkness of bare cells.
 *
 *   y(u, v) = b0 + b1 u + b2 v + b3 u^2 + b4 u v + b5 v^2
 *
 * A cell is bare where the median of each of its quarters is brighter than the thinnest step and
 * below the limit of the file. The falling-off of a lens and the slope of a light table are surfaces like this; the
 * correction adds to the darkness, so that it also holds for a file whose values are a power of
 * the light. Sources: [DS1998] chapter 1, regression. Deviations: cells farther than 4 robust
 * standard deviations from the surface (dust, labels) are dropped once.
 */
import { linearLeastSquares, median } from '../fitting/index.ts';
import type { GreyImage } from './grey-image.ts';
import type { PicturePoint } from './strip-place.ts';
import { darknessOf } from './strip-profile.ts';

export interface LightField {
  /** Darkness of the bare light at a point less its mean over the field, log10 units. */
  readonly at: (point: PicturePoint) => number;
  /** Standard error of a correction, on average over the cells. */
  readonly standardError: number;
  /** Greatest less least correction inside the region. */
  readonly span: number;
  readonly cells: number;
}

/** A part of the picture, pixels. */
export interface PictureRegion {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

const GRID = 28;
/** Bare light is brighter than the thinnest step by at least this, log10 units. */
const BRIGHTER = 0.015;
const FEWEST_CELLS = 18;
/** Part of each side of the region over which bare cells must be spread. */
const SPREAD = 0.75;
/** Pixels looked at along each side of a quarter of a cell. */
const SAMPLES = 8;

/**
 * The light field of a region, or null where too little bare light shows to tell.
 *
 * @param thinnest - darkness of the thinnest step, log10 units
 */
export function lightField(
  image: GreyImage,
  region: PictureRegion,
  thinnest: number,
): LightField | null {
  const cells = bareCells(image, region, thinnest);
  const spread = (key: 'u' | 'v'): number => {
    const places = cells.map((cell) => cell[key]);
    return (Math.max(...places) - Math.min(...places)) / 2;
  };
  if (cells.length < FEWEST_CELLS || spread('u') < SPREAD || spread('v') < SPREAD) return null;
  const first = surfaceThrough(cells);
  if (first === null) return null;
  const misses = cells.map((cell) => Math.abs(cell.darkness - surfaceAt(first, cell.u, cell.v)));
  const limit = Math.max(4 * 1.4826 * median(misses), 0.004);
  const kept = cells.filter((_, i) => (misses[i] ?? 0) <= limit);
  const surface = surfaceThrough(kept);
  if (surface === null || kept.length < FEWEST_CELLS) return null;
  const heights = kept.map(({ u, v }) => surfaceAt(surface, u, v));
  const square = kept.reduce(
    (sum, { darkness }, i) => sum + (darkness - (heights[i] ?? 0)) ** 2,
    0,
  );
  // The leverages of n cells on p terms add up to p.
  const error = Math.sqrt(((square / (kept.length - TERMS.length)) * TERMS.length) / kept.length);
  const mean = heights.reduce((sum, height) => sum + height, 0) / heights.length;
  return {
    at: ({ x, y }) => {
      const { u, v } = placeIn(region, x, y);
      return surfaceAt(surface, u, v) - mean;
    },
    standardError: error,
    span: Math.max(...heights) - Math.min(...heights),
    cells: kept.length,
  };
}

interface Cell {
  /** -1 to 1 over the region. */
  readonly u: number;
  readonly v: number;
  readonly darkness: number;
}

function placeIn(region: PictureRegion, x: number, y: number): { u: number; v: number } {
  const { left, top, right, bottom } = region;
  return { u: (2 * (x - left)) / (right - left) - 1, v: (2 * (y - top)) / (bottom - top) - 1 };
}

function bareCells(image: GreyImage, region: PictureRegion, thinnest: number): Cell[] {
  const cells: Cell[] = [];
  const wide = (region.right - region.left) / GRID;
  const high = (region.bottom - region.top) / GRID;
  const quarter = new Float64Array(SAMPLES * SAMPLES);
  const medianOf = (left: number, top: number): number | null => {
    let found = 0;
    for (let j = 0; j < SAMPLES; j++) {
      for (let i = 0; i < SAMPLES; i++) {
        const x = Math.floor(left + (wide * (i + 0.5)) / SAMPLES / 2);
        const y = Math.floor(top + (high * (j + 0.5)) / SAMPLES / 2);
        if (!(x >= 0 && x < image.width && y >= 0 && y < image.height)) return null;
        quarter[found++] = image.values[y * image.width + x] ?? 0;
      }
    }
    return median(quarter);
  };
  for (let row = 0; row < GRID; row++) {
    for (let column = 0; column < GRID; column++) {
      const left = region.left + column * wide;
      const top = region.top + row * high;
      const quarters = [0, 0.5].flatMap((dy) =>
        [0, 0.5].map((dx) => medianOf(left + dx * wide, top + dy * high)),
      );
      const darkness = quarters.flatMap((value) =>
        value === null || value >= image.greatest ? [] : [darknessOf(value, image)],
      );
      if (darkness.length < 4 || Math.max(...darkness) >= thinnest - BRIGHTER) continue;
      cells.push({
        ...placeIn(region, left + wide / 2, top + high / 2),
        darkness: darkness.reduce((sum, each) => sum + each, 0) / 4,
      });
    }
  }
  return cells;
}

const TERMS = [
  (): number => 1,
  (u: number): number => u,
  (_: number, v: number): number => v,
  (u: number): number => u * u,
  (u: number, v: number): number => u * v,
  (_: number, v: number): number => v * v,
];

function surfaceThrough(cells: readonly Cell[]): readonly number[] | null {
  const columns = TERMS.map((term) => ({ values: cells.map(({ u, v }) => term(u, v)) }));
  const fit = linearLeastSquares(
    columns,
    cells.map(({ darkness }) => darkness),
  );
  return fit.status === 'ok' ? fit.coefficients : null;
}

function surfaceAt(coefficients: readonly number[], u: number, v: number): number {
  return TERMS.reduce((sum, term, k) => sum + (coefficients[k] ?? 0) * term(u, v), 0);
}
