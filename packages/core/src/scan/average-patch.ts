/**
 * One step of a strip averaged over its inside: robust mean, standard error, and what was odd.
 *
 *   standard error of the mean = s_blocks / sqrt(blocks)
 *
 * from the means of up to 16 blocks of the inside, not of single pixels: the pixels of a scan are
 * alike their neighbours (optics, grain, sharpening), and an error from them singly would be many
 * times too small. Rounding to levels adds
 *
 *   level^2 / 12 exp(-4 pi^2 s^2),  s the scatter of the pixels in levels
 *
 * which no averaging lowers: it vanishes as the noise carries the values over the levels.
 *
 * Sources: [HUBER1981] section 5.1 for the scale; block means as [DS1998] section 1.5 takes groups.
 * Deviations: none.
 */
import type { GreyImage } from './grey-image.ts';
import type { PatchRow } from './find-patches.ts';
import { robustMean } from './robust-mean.ts';
import { pointOnStrip, type PicturePoint, type StripAxes, type StripPlace } from './strip-place.ts';

/** Part of a step's length, and of the strip's width, that is averaged. */
const INSIDE = 0.6;
const BLOCKS = 4;
/** Pixels below which a step has no inside to speak of. */
const FEWEST_PIXELS = 16;

export interface PatchAverage {
  /** From 1. */
  readonly step: number;
  /** Mean over the most light that the file can hold, and its standard error. */
  readonly signal: number;
  readonly standardError: number;
  /** Robust standard deviation of one pixel, as a part of the most light. */
  readonly pixelScatter: number;
  readonly pixels: number;
  /** Part of the pixels left out as dust or scratches. */
  readonly rejected: number;
  /** Part of the pixels at the least or greatest value of the file. */
  readonly clipped: number;
  /** Mean of the step in levels of the file, e.g. 0 to 255. */
  readonly levels: number;
  /** Middle of the step in the picture. */
  readonly middle: PicturePoint;
}

/**
 * Averages one step.
 *
 * @param step - from 1
 * @returns the average; null where fewer than 16 pixels of its inside lie in the picture
 */
export function averagePatch(
  image: GreyImage,
  place: StripPlace,
  axes: StripAxes,
  row: PatchRow,
  step: number,
): PatchAverage | null {
  const { greatest, bits } = image;
  const begin = row.start + (step - 1 + (1 - INSIDE) / 2) * row.pitch;
  const long = INSIDE * row.pitch;
  const half = (INSIDE * place.width) / 2;
  const corners = [
    [begin, -half],
    [begin + long, -half],
    [begin + long, half],
    [begin, half],
  ].map(([along = 0, across = 0]) => pointOnStrip(place, axes, along, across));
  const bound = (pick: (p: PicturePoint) => number, limit: number): [number, number] => [
    Math.max(0, Math.floor(Math.min(...corners.map(pick)))),
    Math.min(limit, Math.ceil(Math.max(...corners.map(pick)))),
  ];
  const [left, right] = bound((p) => p.x, image.width);
  const [top, bottom] = bound((p) => p.y, image.height);
  const values: number[] = [];
  const blocks: number[] = [];
  let clipped = 0;
  for (let y = top; y < bottom; y++) {
    for (let x = left; x < right; x++) {
      const dx = x + 0.5 - place.from.x;
      const dy = y + 0.5 - place.from.y;
      const along = (dx * axes.along.x + dy * axes.along.y - begin) / long;
      const across = (dx * axes.across.x + dy * axes.across.y + half) / (2 * half);
      if (!(along >= 0 && along < 1 && across >= 0 && across < 1)) continue;
      const value = image.values[y * image.width + x] ?? 0;
      if (value <= 0 || value >= greatest) clipped += 1;
      values.push(value);
      blocks.push(Math.floor(along * BLOCKS) * BLOCKS + Math.floor(across * BLOCKS));
    }
  }
  if (values.length < FEWEST_PIXELS) return null;
  const level = greatest / (2 ** bits - 1);
  const { mean, scale, limits, rejected } = robustMean(values, level);
  return {
    step,
    signal: mean / greatest,
    standardError: errorOfMean(values, blocks, limits, level) / greatest,
    pixelScatter: scale / greatest,
    pixels: values.length,
    rejected,
    clipped: clipped / values.length,
    levels: mean / level,
    middle: pointOnStrip(place, axes, begin + long / 2, 0),
  };
}

/** Standard error of the mean of the kept values, from the scatter of block means. */
function errorOfMean(
  values: readonly number[],
  blocks: readonly number[],
  [low, high]: readonly [number, number],
  level: number,
): number {
  let squares = 0;
  let kept = 0;
  const middle = (low + high) / 2;
  const sums = new Float64Array(BLOCKS * BLOCKS);
  const counts = new Float64Array(BLOCKS * BLOCKS);
  values.forEach((value, i) => {
    if (value < low || value > high) return;
    squares += (value - middle) ** 2;
    kept += 1;
    const block = blocks[i] ?? 0;
    sums[block] = (sums[block] ?? 0) + value;
    counts[block] = (counts[block] ?? 0) + 1;
  });
  const means: number[] = [];
  sums.forEach((sum, k) => {
    const count = counts[k] ?? 0;
    if (count > 0) means.push(sum / count);
  });
  const mean = means.reduce((sum, each) => sum + each, 0) / means.length;
  const square = means.reduce((sum, each) => sum + (each - mean) ** 2, 0);
  const scatter = squares / kept;
  const variance = means.length > 1 ? square / (means.length - 1) / means.length : scatter;
  // What rounding itself adds to the scatter is no noise that carries values over levels.
  const noise = Math.max(0, scatter / level ** 2 - 1 / 12);
  const rounding = (level ** 2 / 12) * Math.exp(-4 * Math.PI ** 2 * noise);
  return Math.sqrt(variance + rounding);
}
