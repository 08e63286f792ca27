/**
 * The darkness along a strip, one value a pixel: the median across its inner part.
 *
 *   y = -log10(value / greatest)
 *
 * Values are held at half a level, so that black has a finite darkness; such places are not used for
 * densities, only to find the edges. Sources: none. Deviations: none.
 */
import { median } from '../fitting/index.ts';
import type { GreyImage } from './grey-image.ts';
import { pointOnStrip, stripAxes, type StripPlace } from './strip-place.ts';

/** Part of the width that is looked at: a strip's long edges may be torn, dark or fogged. */
const INNER = 0.5;
const MOST_SAMPLES = 41;

export interface StripProfile {
  /** Pixels from the edge of step 1 to the first value; negative where it lies before. */
  readonly start: number;
  /** Darkness at start, start + 1, ... pixels. */
  readonly darkness: Float64Array;
}

/** Darkness of a value, log10 units; black is held at half a level. */
export function darknessOf(value: number, image: Pick<GreyImage, 'greatest' | 'bits'>): number {
  const half = (0.5 * image.greatest) / (2 ** image.bits - 1);
  return -Math.log10(Math.max(value, half) / image.greatest) || 0;
}

/**
 * Darkness along a strip.
 *
 * @param margin - pixels before and behind the ends that are also looked at
 * @returns the profile, cut where the strip leaves the picture
 */
export function stripProfile(image: GreyImage, place: StripPlace, margin: number): StripProfile {
  const axes = stripAxes(place);
  const samples = Math.max(3, Math.min(MOST_SAMPLES, Math.floor(place.width * INNER)));
  const start = -Math.ceil(margin);
  const count = Math.ceil(axes.length + margin) - start + 1;
  const darkness = new Float64Array(count).fill(NaN);
  const across = new Float64Array(samples);
  for (let i = 0; i < count; i++) {
    let found = 0;
    for (let j = 0; j < samples; j++) {
      const offset = place.width * INNER * ((j + 0.5) / samples - 0.5);
      const { x, y } = pointOnStrip(place, axes, start + i, offset);
      const column = Math.floor(x);
      const row = Math.floor(y);
      if (!(column >= 0 && column < image.width && row >= 0 && row < image.height)) continue;
      across[found++] = image.values[row * image.width + column] ?? 0;
    }
    if (found >= samples / 2) darkness[i] = darknessOf(median(across.subarray(0, found)), image);
  }
  let first = 0;
  while (first < count && Number.isNaN(darkness[first])) first++;
  let last = count;
  while (last > first && Number.isNaN(darkness[last - 1])) last--;
  return { start: start + first, darkness: darkness.slice(first, last) };
}
