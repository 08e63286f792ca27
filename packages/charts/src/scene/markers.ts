/**
 * Marker shapes. A shape, not a colour, says what a point is.
 */
import { px, type Ink, type PathMark } from './mark.ts';

export type MarkerShape = 'ring' | 'disc' | 'square' | 'diamond' | 'cross' | 'triangle';

/** Path data of a marker centred at (x, y) with the given radius. */
function markerPath(shape: MarkerShape, x: number, y: number, radius: number): string {
  const r = radius;
  switch (shape) {
    case 'ring':
    case 'disc':
      return `M${px(x - r)},${px(y)}a${px(r)},${px(r)} 0 1 0 ${px(2 * r)},0a${px(r)},${px(r)} 0 1 0 ${px(-2 * r)},0Z`;
    case 'square':
      return `M${px(x - r)},${px(y - r)}h${px(2 * r)}v${px(2 * r)}h${px(-2 * r)}Z`;
    case 'diamond':
      return `M${px(x)},${px(y - r * 1.3)}L${px(x + r * 1.3)},${px(y)}L${px(x)},${px(y + r * 1.3)}L${px(x - r * 1.3)},${px(y)}Z`;
    case 'triangle':
      return `M${px(x)},${px(y - r * 1.2)}L${px(x + r * 1.1)},${px(y + r * 0.9)}L${px(x - r * 1.1)},${px(y + r * 0.9)}Z`;
    case 'cross':
      return `M${px(x - r)},${px(y - r)}L${px(x + r)},${px(y + r)}M${px(x - r)},${px(y + r)}L${px(x + r)},${px(y - r)}`;
  }
}

/** Many markers of one shape as a single mark: open shapes are filled with the ground. */
export function markers(
  shape: MarkerShape,
  points: readonly (readonly [number, number])[],
  ink: Ink,
  radius: number,
  name?: string,
): PathMark[] {
  if (points.length === 0) return [];
  const d = points.map(([x, y]) => markerPath(shape, x, y, radius)).join('');
  const open = shape === 'ring' || shape === 'triangle';
  return [
    {
      kind: 'path',
      d,
      stroke: ink,
      fill: shape === 'cross' ? null : open ? 'ground' : ink,
      width: 1.25,
      ...(name === undefined ? {} : { name }),
    },
  ];
}
