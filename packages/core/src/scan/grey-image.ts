/**
 * One channel of a scan or photograph, as its decoder gave it: no rounding, no change of tones.
 */
import { InvalidArgumentError } from '../errors.ts';

/** A channel of a picture, row by row from the upper left corner. */
export interface GreyImage {
  readonly width: number;
  readonly height: number;
  /** One value a pixel, 0 to `greatest`. */
  readonly values: Uint8Array | Uint8ClampedArray | Uint16Array | Float32Array;
  /** The value of the most light that the file can hold: 255 or 65,535. */
  readonly greatest: number;
  /** Bits that each value really has: 8 where a decoder gave no more. */
  readonly bits: number;
}

/** @throws InvalidArgumentError if sizes and values do not belong together */
export function checkImage(functionName: string, image: GreyImage): void {
  const { width, height, values, greatest, bits } = image;
  if (!(Number.isInteger(width) && width > 0 && Number.isInteger(height) && height > 0)) {
    throw new InvalidArgumentError(functionName, 'image', `${width} x ${height}`, 'a size');
  }
  if (values.length !== width * height) {
    throw new InvalidArgumentError(
      functionName,
      'image.values',
      values.length,
      `${width * height} values`,
    );
  }
  if (!(greatest > 0 && greatest < Infinity && bits >= 1 && bits <= 32)) {
    throw new InvalidArgumentError(functionName, 'image.greatest', greatest, 'above zero');
  }
}
