/**
 * Finds the steps of a strip whose ends were marked by hand: the even row of steps, near the marks,
 * in which each step is most alike in itself.
 *
 *   minimise sum_steps sum_(s in step) w(s) (y(s) - mean of step)^2 + (moves of the ends)^2
 *
 * over both ends, half a step either way. w is one over the variance of the noise at s, from the
 * median absolute difference of neighbours. The tenth of a step at either edge is left out, where
 * the picture is blurred. What no step tells (two alike side by side) stays where it was marked.
 *
 * Sources: [FISHER1958] grouping for maximum homogeneity. Deviations: steps are equally long, as a
 * tablet's are, so that both ends settle them all.
 */
import { InvalidArgumentError } from '../errors.ts';
import { median } from '../fitting/index.ts';
import { checkImage, type GreyImage } from './grey-image.ts';
import { stripAxes, type StripPlace } from './strip-place.ts';
import { stripProfile } from './strip-profile.ts';

/** Where the steps lie: step n from start + (n - 1) pitch to start + n pitch. */
export interface PatchRow {
  /** Pixels from the marked edge of step 1 to its edge as found. */
  readonly start: number;
  /** Length of a step, pixels. */
  readonly pitch: number;
  readonly count: number;
}

/** Part of a step by which each end may move. */
const REACH = 0.6;
const COARSE = 12;
const FINE = 6;
const BLURRED = 0.1;
/** Finest noise of a profile, log10 units: smooth pictures hold no certainty beyond it. */
const LEAST_NOISE = 0.002;
/** A step this short, pixels, has no inside. */
const LEAST_PITCH = 4;

/**
 * Finds the steps between two marked ends.
 *
 * @param place - the ends as marked, to about half a step
 * @param count - steps between them, 2 to 200
 * @returns the row of steps; null where a step is shorter than 4 pixels or lies off the picture
 * @throws InvalidArgumentError if the count or the place is no such thing
 */
export function findPatches(image: GreyImage, place: StripPlace, count: number): PatchRow | null {
  checkImage('findPatches', image);
  if (!(Number.isInteger(count) && count >= 2 && count <= 200)) {
    throw new InvalidArgumentError('findPatches', 'count', count, 'an integer from 2 to 200');
  }
  const { length } = stripAxes(place);
  const marked = length / count;
  if (marked < LEAST_PITCH) return null;
  const { start, darkness } = stripProfile(image, place, REACH * marked);
  if (start > 0.5 * marked || start + darkness.length < length - 0.5 * marked) return null;
  const cost = costOf(darkness, count, marked);
  let from = 0;
  let to = length;
  let step = (REACH * marked) / COARSE;
  for (let spread = COARSE; step > 0.05; spread = FINE, step /= FINE) {
    const [middleFrom, middleTo] = [from, to];
    let least = Infinity;
    for (let i = -spread; i <= spread; i++) {
      for (let j = -spread; j <= spread; j++) {
        const [a, b] = [middleFrom + i * step, middleTo + j * step];
        const moved = (a / marked) ** 2 + ((b - length) / marked) ** 2;
        const total = cost(a - start, b - start) + moved;
        if (total < least) {
          least = total;
          from = a;
          to = b;
        }
      }
    }
  }
  return { start: from, pitch: (to - from) / count, count };
}

/** Sum of squares within the steps, in units of the noise, by sums that are taken once. */
function costOf(
  darkness: Float64Array,
  count: number,
  pitch: number,
): (from: number, to: number) => number {
  const n = darkness.length;
  const weights = noiseWeights(darkness, Math.max(3, Math.round(pitch)));
  const w = new Float64Array(n + 1);
  const wy = new Float64Array(n + 1);
  const wyy = new Float64Array(n + 1);
  for (let i = 0; i < n; i++) {
    const weight = weights[i] ?? 0;
    const y = darkness[i] ?? 0;
    w[i + 1] = (w[i] ?? 0) + weight;
    wy[i + 1] = (wy[i] ?? 0) + weight * y;
    wyy[i + 1] = (wyy[i] ?? 0) + weight * y * y;
  }
  return (from, to) => {
    const long = (to - from) / count;
    let total = 0;
    for (let k = 0; k < count; k++) {
      const a = Math.max(0, Math.min(n, Math.round(from + (k + BLURRED) * long)));
      const b = Math.max(a, Math.min(n, Math.round(from + (k + 1 - BLURRED) * long)));
      const weight = (w[b] ?? 0) - (w[a] ?? 0);
      // A step off the picture tells nothing and is no gain.
      if (!(weight > 0)) return Infinity;
      const sum = (wy[b] ?? 0) - (wy[a] ?? 0);
      total += (wyy[b] ?? 0) - (wyy[a] ?? 0) - (sum * sum) / weight;
    }
    return total;
  };
}

/** One over the variance of the noise about each place. */
function noiseWeights(darkness: Float64Array, window: number): Float64Array {
  const n = darkness.length;
  const steps = new Float64Array(Math.max(0, n - 1));
  for (let i = 0; i + 1 < n; i++) {
    steps[i] = Math.abs((darkness[i + 1] ?? 0) - (darkness[i] ?? 0));
  }
  const blocks = Math.max(1, Math.round(steps.length / window));
  const noise = Array.from({ length: blocks }, (_, k) => {
    const a = Math.floor((k * steps.length) / blocks);
    const b = Math.floor(((k + 1) * steps.length) / blocks);
    // 1 / (0.6745 sqrt 2): the median of |difference| of two normal numbers
    return Math.max(LEAST_NOISE, 1.0484 * median(steps.subarray(a, b)));
  });
  return darkness.map((_, i) => {
    const block = Math.min(blocks - 1, Math.floor((i * blocks) / Math.max(1, n)));
    return (noise[block] ?? LEAST_NOISE) ** -2;
  });
}
