/** PNG of 8 or 16 bits, and of fewer spread out to a byte a pixel. */
import { decode } from 'fast-png';
import { checkSize, PictureError, type DecodedPicture } from './decoded-picture.ts';

export function decodePng(bytes: Uint8Array): DecodedPicture {
  // Width and height stand first in every PNG: a huge one is refused before it is unpacked.
  const head = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 33) throw new PictureError('broken', 'PNG');
  checkSize(head.getUint32(16), head.getUint32(20));
  const png = decode(bytes);
  const { width, height, depth, channels, palette, data } = png;
  if (palette !== undefined) throw new PictureError('palette');
  if (depth === 8 || depth === 16) {
    const samples = depth === 16 ? new Uint16Array(data) : new Uint8Array(data);
    return { format: 'png', width, height, bits: depth, channels, samples };
  }
  // Rows of small samples begin at whole bytes.
  const rowBytes = Math.ceil((width * depth) / 8);
  const samples = new Uint8Array(width * height);
  const mask = 2 ** depth - 1;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const bit = x * depth;
      const byte = data[y * rowBytes + (bit >> 3)] ?? 0;
      samples[y * width + x] = (byte >> (8 - depth - (bit & 7))) & mask;
    }
  }
  return { format: 'png', width, height, bits: depth, channels: 1, samples };
}
