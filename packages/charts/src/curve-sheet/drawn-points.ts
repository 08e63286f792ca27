/**
 * What a list of points comes to on the sheet, kept as long as the list and the scales stay: of a
 * family of strips, all but the one that is typed into are drawn as they were.
 */
import { line as lineShape, type ScaleLinear } from 'd3';
import { markers, type MarkerShape } from '../scene/markers.ts';
import { stroke, type Ink, type PathMark } from '../scene/mark.ts';
import { thinLine } from '../scene/thin-line.ts';
import type { SheetBand, SheetPoint } from './curve-sheet.types.ts';

export type Pixel = readonly [number, number];

/** The least and the greatest of log exposure and density. */
export interface Extent {
  readonly logExposure: readonly [number, number];
  readonly density: readonly [number, number];
}

interface Drawn {
  readonly pixels: readonly Pixel[];
  /** By what they look like. */
  readonly marks: Map<string, readonly PathMark[]>;
}

/** Markers in one mark. */
const TOGETHER = 8;

/** Points to pixels for one pair of scales. */
export class DrawnPoints {
  /** By list and scales; a list is drawn at one size and, as a rule, in one sheet. */
  static readonly #memory = new WeakMap<readonly SheetPoint[], { scales: string; drawn: Drawn }>();
  readonly x: ScaleLinear<number, number>;
  readonly y: ScaleLinear<number, number>;
  /** Names the pair of scales: alike for alike ones. */
  readonly scales: string;
  readonly pixel: (point: SheetPoint) => Pixel;

  constructor(x: ScaleLinear<number, number>, y: ScaleLinear<number, number>) {
    this.x = x;
    this.y = y;
    this.scales = [x.domain(), x.range(), y.domain(), y.range()].join(' ');
    const [x0, y0] = [x(0), y(0)];
    const [perExposure, perDensity] = [x(1) - x0, y(1) - y0];
    // A sheet has a thousand points: both scales are straight.
    this.pixel = ({ logExposure, density }) => [
      x0 + perExposure * logExposure,
      y0 + perDensity * density,
    ];
  }

  /** The same array as long as points and scales stay. */
  pixels(points: readonly SheetPoint[]): readonly Pixel[] {
    return this.#of(points).pixels;
  }

  /** The line through the points as a mark, the same one as long as it stays; none without any. */
  line(
    points: readonly SheetPoint[],
    ink: Ink,
    width: number,
    extra: { readonly dash?: string; readonly name: string },
  ): readonly PathMark[] {
    return this.#marks(points, `line ${ink} ${width} ${extra.dash} ${extra.name}`, (pixels) => {
      const d = polyline(thinLine(pixels)) ?? '';
      return d === '' ? [] : [stroke(d, ink, width, extra)];
    });
  }

  /** Path data of the area of a band. */
  band(band: readonly SheetBand[]): string {
    const edge = (side: 'low' | 'high') =>
      thinLine(
        band.map((point) => this.pixel({ logExposure: point.logExposure, density: point[side] })),
      );
    return `${polyline([...edge('high'), ...edge('low').toReversed()]) ?? ''}Z`;
  }

  /**
   * A marker at each point, a few of them in one mark: of a strip of readings, one that is typed
   * anew moves one mark of many.
   */
  markers(
    points: readonly SheetPoint[],
    shape: MarkerShape,
    ink: Ink,
    radius: number,
    name: string,
  ): readonly PathMark[] {
    return this.#marks(points, `${shape} ${ink} ${radius} ${name}`, (pixels) =>
      Array.from({ length: Math.ceil(pixels.length / TOGETHER) }, (_, k) =>
        pixels.slice(k * TOGETHER, (k + 1) * TOGETHER),
      ).flatMap((some) => markers(shape, some, ink, radius, name)),
    );
  }

  #marks(
    points: readonly SheetPoint[],
    key: string,
    make: (pixels: readonly Pixel[]) => readonly PathMark[],
  ): readonly PathMark[] {
    const { pixels, marks } = this.#of(points);
    const known = marks.get(key);
    if (known !== undefined) return known;
    const made = make(pixels);
    marks.set(key, made);
    return made;
  }

  #of(points: readonly SheetPoint[]): Drawn {
    const before = DrawnPoints.#memory.get(points);
    if (before?.scales === this.scales) return before.drawn;
    const drawn: Drawn = { pixels: points.map((point) => this.pixel(point)), marks: new Map() };
    DrawnPoints.#memory.set(points, { scales: this.scales, drawn });
    return drawn;
  }
}

const polyline = lineShape<Pixel>().digits(1);

const extents = new WeakMap<readonly SheetPoint[], Extent | null>();

/** How far points reach; null without any. */
export function extentOf(points: readonly SheetPoint[]): Extent | null {
  const before = extents.get(points);
  if (before !== undefined) return before;
  const [first] = points;
  let extent: Extent | null = null;
  if (first !== undefined) {
    let [x0, x1] = [first.logExposure, first.logExposure];
    let [y0, y1] = [first.density, first.density];
    for (const { logExposure, density } of points) {
      x0 = Math.min(x0, logExposure);
      x1 = Math.max(x1, logExposure);
      y0 = Math.min(y0, density);
      y1 = Math.max(y1, density);
    }
    extent = { logExposure: [x0, x1], density: [y0, y1] };
  }
  extents.set(points, extent);
  return extent;
}
