/** A picture as its file holds it: every sample, no change of tones. */
import type { GreyImage } from '@wedgebook/core';

export interface DecodedPicture {
  readonly format: 'png' | 'tiff' | 'jpeg';
  readonly width: number;
  readonly height: number;
  readonly bits: number;
  /** Samples a pixel, interleaved; of four the last is opacity, of two the second. */
  readonly channels: number;
  readonly samples: Uint8Array | Uint8ClampedArray | Uint16Array;
}

/** Which samples are read: one colour of a colour picture, or the mean of all. */
export type PictureChannel = 'mean' | 'red' | 'green' | 'blue';

/** Why a file cannot be read as a picture; the sentence is `text.scan.faults[code]`. */
export type PictureFault =
  | 'not-a-picture'
  | 'too-large'
  | 'broken'
  | 'big-tiff'
  | 'tiff-compression'
  | 'tiff-layout'
  | 'tiff-turned'
  | 'depth'
  | 'palette'
  | 'jpeg-refused'
  | 'canvas-altered';

export class PictureError extends Error {
  override readonly name = 'PictureError';
  readonly fault: PictureFault;
  /** What the file has that cannot be read, or what the decoder said. */
  readonly detail: string;
  constructor(fault: PictureFault, detail = '') {
    super(`${fault}: ${detail}`);
    this.fault = fault;
    this.detail = detail;
  }
}

/** More pixels than this do not fit beside the page in a phone's or a small laptop's memory. */
const MOST_PIXELS = 120_000_000;

export function checkSize(width: number, height: number): void {
  if (!(width > 0 && height > 0)) throw new PictureError('broken', `${width} × ${height}`);
  if (width * height > MOST_PIXELS) throw new PictureError('too-large', `${width} × ${height}`);
}

/** One channel of a picture as core reads it. */
export function greyOf(picture: DecodedPicture, channel: PictureChannel): GreyImage {
  const { width, height, bits, channels, samples } = picture;
  const greatest = 2 ** bits - 1;
  const colours = channels >= 3 ? 3 : 1;
  const head = { width, height, greatest, bits };
  if (channels === 1) return { ...head, values: samples };
  const count = width * height;
  if (colours === 1 || channel !== 'mean') {
    const first = colours === 1 ? 0 : ['red', 'green', 'blue'].indexOf(channel);
    const values = bits > 8 ? new Uint16Array(count) : new Uint8Array(count);
    for (let i = 0; i < count; i++) values[i] = samples[i * channels + first] ?? 0;
    return { ...head, values };
  }
  const values = new Float32Array(count);
  for (let i = 0; i < count; i++) {
    const at = i * channels;
    values[i] = ((samples[at] ?? 0) + (samples[at + 1] ?? 0) + (samples[at + 2] ?? 0)) / 3;
  }
  return { ...head, values };
}
