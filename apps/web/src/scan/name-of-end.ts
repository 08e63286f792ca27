/** Where the name of a marked end stands: outside the outline of its strip, inside the picture. */
import type { StripPlace } from '@wedgebook/core';
import type { EndKind, StripKind } from './marks.ts';

export interface NamePlace {
  readonly x: number;
  /** Base line. */
  readonly y: number;
  readonly anchor: 'start' | 'end';
}

/**
 * Above the outline, or below it at the lower end of an upright strip and where the picture ends.
 * The names of upright strips beside each other stand on lines of their own.
 *
 * @param size - of the letters, pixels of the picture
 * @param picture - its size, pixels
 */
export function nameOfEnd(
  kind: StripKind,
  { from, to, width }: StripPlace,
  end: EndKind,
  size: number,
  picture: { readonly width: number; readonly height: number },
): NamePlace {
  const [point, other] = end === 'from' ? [from, to] : [to, from];
  const along = { x: point.x - other.x, y: point.y - other.y };
  const length = Math.hypot(along.x, along.y);
  // How far the corners of this end lie above and below its middle.
  const reach = length === 0 ? width / 2 : (width / 2) * (Math.abs(along.x) / length);
  const upright = Math.abs(along.y) > Math.abs(along.x);
  const further = upright && kind === 'strip' ? 1.2 * size : 0;
  const above = point.y - Math.max(reach, size / 3) - 0.4 * size - further;
  const below = point.y + Math.max(reach, size / 3) + 1.1 * size + further;
  const wantsBelow = upright && along.y > 0;
  const fitsAbove = above - size >= 0;
  const fitsBelow = below + 0.3 * size <= picture.height;
  return {
    x: point.x,
    y: wantsBelow
      ? fitsBelow || !fitsAbove
        ? below
        : above
      : fitsAbove || !fitsBelow
        ? above
        : below,
    anchor: point.x < picture.width / 2 ? 'start' : 'end',
  };
}
