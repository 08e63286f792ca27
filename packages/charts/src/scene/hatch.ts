/**
 * Diagonal hatching of a rectangle as one path, so that an area is told apart without colour and
 * without a pattern definition that some renderers drop.
 */
import { segment } from './mark.ts';

/**
 * Path data of 45° hatch lines clipped to a rectangle.
 *
 * @param x - left edge, pixels
 * @param y - top edge, pixels
 * @param width - pixels, not negative
 * @param height - pixels, not negative
 * @param gap - distance between the lines along an edge, pixels
 */
export function hatch(x: number, y: number, width: number, height: number, gap = 6): string {
  if (!(width > 0 && height > 0 && gap > 0)) return '';
  let d = '';
  for (let c = gap / 2; c < width + height; c += gap) {
    // The line u + v = c inside [0, width] x [0, height], u to the right and v downwards.
    const u0 = Math.max(0, c - height);
    const u1 = Math.min(width, c);
    d += segment(x + u0, y + (c - u0), x + u1, y + (c - u1));
  }
  return d;
}
