/**
 * A small image of a scan to mark the strips on: brightened so that dense steps are seen too. For the
 * eye only; nothing is measured on it.
 */
import type { GreyImage } from '@wedgebook/core';
import type { ScreenInk } from '../picture/screen-table.ts';

const MOST_WIDE = 1600;
/** The darkest that is told from black, decades under the brightest. */
const DECADES = 2.6;

export function previewImage(image: GreyImage, ink: ScreenInk, inverted: boolean): ImageData {
  const { width, height, values, greatest } = image;
  const by = Math.max(1, Math.ceil(Math.max(width, height) / MOST_WIDE));
  const wide = Math.max(1, Math.floor(width / by));
  const high = Math.max(1, Math.floor(height / by));
  const preview = new ImageData(wide, high);
  const { data } = preview;
  for (let y = 0; y < high; y++) {
    for (let x = 0; x < wide; x++) {
      const value = (values[y * by * width + x * by] ?? 0) / greatest;
      const light = inverted ? 1 - value : value;
      const level = 255 * Math.max(0, 1 + Math.log10(Math.max(light, 1e-6)) / DECADES);
      const at = 4 * (y * wide + x);
      data[at] = level;
      data[at + 1] = ink === 'grey' ? level : 0;
      data[at + 2] = ink === 'grey' ? level : 0;
      data[at + 3] = 255;
    }
  }
  return preview;
}
