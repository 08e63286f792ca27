/**
 * A generated picture of a strip and a tablet on a light table, whose densities are known because
 * they were put in. Not a measurement: it tests the finding and reading of steps, no scanner.
 */
import type { GreyImage, StripPlace } from '@wedgebook/core';
import { deviates } from './deviates.ts';

type Encoding = 'linear' | 'power' | 'screen' | 'automatic';

export interface GeneratedScanOptions {
  readonly tabletDensities: readonly number[];
  readonly stripDensities: readonly number[];
  /** Pixels of one step along the strips. */
  readonly pitch?: number;
  readonly stripWidth?: number;
  /** Rotation of both strips about the middle of the picture, degrees. */
  readonly degrees?: number;
  /** Standard deviation of a pixel's light, as a part of it (grain), and of the reading (dark noise). */
  readonly grain?: number;
  readonly darkNoise?: number;
  /** Light lost at the corners, as a part. */
  readonly vignetting?: number;
  /** Light from elsewhere, as a part of the open light. */
  readonly flare?: number;
  /** `automatic`: a screen picture whose contrast a program has raised in the middle tones. */
  readonly encoding?: Encoding;
  readonly bits?: 8 | 16;
  /** Light of the open table, as a part of the most that the file holds. */
  readonly open?: number;
  readonly dust?: boolean;
  readonly seed?: number;
}

export interface GeneratedScan {
  readonly image: GreyImage;
  /** Exact places. */
  readonly tablet: StripPlace;
  readonly strip: StripPlace;
}

/** Half the width of a blurred edge, pixels. */
const BLUR = 1.2;

export function generatedScan(options: GeneratedScanOptions): GeneratedScan {
  const {
    tabletDensities,
    stripDensities,
    pitch = 28,
    stripWidth = 60,
    degrees = 0,
    grain = 0.02,
    darkNoise = 2e-4,
    vignetting = 0,
    flare = 0,
    encoding = 'linear',
    bits = 16,
    open = 0.9,
    dust = false,
    seed = 1,
  } = options;
  const random = deviates(seed);
  const length = pitch * Math.max(tabletDensities.length, stripDensities.length);
  const width = Math.round(length + 120);
  const height = Math.round(2 * stripWidth + 160);
  const [cx, cy] = [width / 2, height / 2];
  const angle = (degrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const offset = stripWidth / 2 + 16;
  const greatest = bits === 8 ? 255 : 65535;
  const values = bits === 8 ? new Uint8Array(width * height) : new Uint16Array(width * height);
  /** Part of the light that a row of steps lets through at a place along it. */
  const through = (densities: readonly number[], along: number): number => {
    const at = along / pitch;
    const left = Math.floor(at - 0.5);
    const near = (k: number) => 10 ** -(densities[k] ?? 0);
    const edge = (at - (left + 1)) * pitch;
    const part = 1 / (1 + Math.exp(-edge / (BLUR / 2)));
    return near(left) * (1 - part) + near(left + 1) * part;
  };
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const [dx, dy] = [x + 0.5 - cx, y + 0.5 - cy];
      const u = dx * cos + dy * sin + length / 2;
      const v = -dx * sin + dy * cos;
      let light = 1;
      for (const [densities, middle] of [
        [tabletDensities, -offset],
        [stripDensities, offset],
      ] as const) {
        const outside = Math.max(
          Math.abs(v - middle) - stripWidth / 2,
          -u,
          u - densities.length * pitch,
        );
        const cover = 1 / (1 + Math.exp(outside / (BLUR / 2)));
        if (cover > 1e-6) light = light * (1 - cover) + cover * through(densities, u);
      }
      if (dust && Math.hypot(((u + 9) % pitch) - 12, v - offset) < 4) light *= 0.1;
      const corner = (dx * dx + dy * dy) / (cx * cx + cy * cy);
      const fall = 1 - vignetting * corner;
      const shone = open * fall * (light * (1 + grain * random()) + flare) + darkNoise * random();
      values[y * width + x] = Math.round(greatest * Math.min(1, encode(shone, encoding)));
    }
  }
  const place = (densities: readonly number[], middle: number): StripPlace => {
    const at = (along: number) => ({
      x: cx + (along - length / 2) * cos - middle * sin,
      y: cy + (along - length / 2) * sin + middle * cos,
    });
    return { from: at(0), to: at(densities.length * pitch), width: stripWidth };
  };
  return {
    image: { width, height, values, greatest, bits },
    tablet: place(tabletDensities, -offset),
    strip: place(stripDensities, offset),
  };
}

function encode(light: number, encoding: Encoding): number {
  const v = Math.max(0, light);
  if (encoding === 'linear') return v;
  if (encoding === 'power') return v ** (1 / 2.2);
  const screen = v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055;
  return encoding === 'screen' ? screen : screen - 0.05 * Math.sin(2 * Math.PI * screen);
}
