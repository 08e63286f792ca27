/** What part of the picture is seen, and its tones at the size of the pane. */
import { TONE_LEVELS, type TonePicture } from './tone-picture.ts';

/** Zoom 1 shows the whole picture; x and y are the middle of the view, parts of the picture. */
export interface View {
  readonly zoom: number;
  readonly x: number;
  readonly y: number;
}

export interface PaneSize {
  readonly width: number;
  readonly height: number;
}

export const WHOLE: View = { zoom: 1, x: 0.5, y: 0.5 };
const MOST_ZOOM = 32;

/** Pixels of the pane to one of the picture. */
export function scaleOf(view: View, picture: PaneSize, pane: PaneSize): number {
  return view.zoom * Math.min(pane.width / picture.width, pane.height / picture.height);
}

/** The view within bounds: never smaller than the whole, never off the picture. */
export function heldView(view: View): View {
  const zoom = Math.min(MOST_ZOOM, Math.max(1, view.zoom));
  const half = 0.5 / zoom;
  const hold = (at: number): number => Math.min(1 - half, Math.max(half, at));
  return { zoom, x: hold(view.x), y: hold(view.y) };
}

/** The view zoomed by a factor about a point, given as parts of the pane from its middle. */
export function zoomedView(view: View, factor: number, dx = 0, dy = 0): View {
  const zoom = Math.min(MOST_ZOOM, Math.max(1, view.zoom * factor));
  const moved = 1 / view.zoom - 1 / zoom;
  return heldView({ zoom, x: view.x + dx * moved, y: view.y + dy * moved });
}

/** The pixel of the picture at a point of the pane, or null beside the picture. */
export function pixelAt(
  view: View,
  picture: PaneSize,
  pane: PaneSize,
  px: number,
  py: number,
): { readonly x: number; readonly y: number } | null {
  const scale = scaleOf(view, picture, pane);
  const x = Math.floor(view.x * picture.width + (px - pane.width / 2) / scale);
  const y = Math.floor(view.y * picture.height + (py - pane.height / 2) / scale);
  return x >= 0 && x < picture.width && y >= 0 && y < picture.height ? { x, y } : null;
}

/** Marks a place of the pane beside the picture: the tone after the last. */
export const NO_TONE = TONE_LEVELS;

/**
 * Tones of the pane, one a pixel: the nearest where the picture is enlarged, the mean of those under
 * the pixel where it is reduced. The mean is taken of log light, as a blurred enlargement is near
 * enough; the difference is under a screen's grey but at hard edges.
 */
export function tonesInView(picture: TonePicture, view: View, pane: PaneSize): Uint16Array {
  const { width, height } = pane;
  const seen = new Uint16Array(width * height);
  const scale = scaleOf(view, picture, pane);
  const left = view.x * picture.width - width / 2 / scale;
  const top = view.y * picture.height - height / 2 / scale;
  const columns = edges(left, scale, width, picture.width);
  const rows = edges(top, scale, height, picture.height);
  const { tones } = picture;
  for (let y = 0; y < height; y++) {
    const y0 = rows[2 * y] ?? 0;
    const y1 = rows[2 * y + 1] ?? 0;
    for (let x = 0; x < width; x++) {
      const x0 = columns[2 * x] ?? 0;
      const x1 = columns[2 * x + 1] ?? 0;
      if (x1 <= x0 || y1 <= y0) {
        seen[y * width + x] = NO_TONE;
        continue;
      }
      if (x1 - x0 === 1 && y1 - y0 === 1) {
        seen[y * width + x] = tones[y0 * picture.width + x0] as number;
        continue;
      }
      let sum = 0;
      for (let j = y0; j < y1; j++) {
        const row = j * picture.width;
        for (let i = x0; i < x1; i++) sum += tones[row + i] as number;
      }
      seen[y * width + x] = Math.round(sum / ((x1 - x0) * (y1 - y0)));
    }
  }
  return seen;
}

/** First pixel and the one after the last under each pixel of the pane; equal beside the picture. */
function edges(start: number, scale: number, count: number, limit: number): Int32Array {
  const found = new Int32Array(2 * count);
  for (let k = 0; k < count; k++) {
    const from = Math.floor(start + k / scale);
    const to = Math.max(from + 1, Math.floor(start + (k + 1) / scale));
    found[2 * k] = Math.max(0, Math.min(limit, from));
    found[2 * k + 1] = Math.max(0, Math.min(limit, to));
  }
  return found;
}

/**
 * Colours of the tones seen.
 *
 * @param table - colours by tone, and at `NO_TONE` that of the ground beside the picture
 */
export function paint(seen: Uint16Array, table: Uint32Array, into: Uint32Array): void {
  const { length } = seen;
  // One look-up a pixel and nothing else: this line is most of the time of a drawing.
  for (let i = 0; i < length; i++) into[i] = table[seen[i] as number] as number;
}
