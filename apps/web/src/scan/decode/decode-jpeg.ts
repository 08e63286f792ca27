/**
 * JPEG, by the browser's own decoder: 8 bits, which is all that a JPEG holds. No colour management,
 * which would change the tones. The samples are read back through a canvas; some browsers alter
 * what is read there against tracking, so that a known pattern is read back first.
 */
import { checkSize, PictureError, type DecodedPicture } from './decoded-picture.ts';

export async function decodeJpeg(bytes: Uint8Array<ArrayBuffer>): Promise<DecodedPicture> {
  if (!readsBackTrue()) throw new PictureError('canvas-altered');
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/jpeg' }), {
      colorSpaceConversion: 'none',
    });
  } catch (error) {
    throw new PictureError('jpeg-refused', error instanceof Error ? error.message : '');
  }
  const { width, height } = bitmap;
  checkSize(width, height);
  const context = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true });
  if (context === null) throw new PictureError('jpeg-refused', 'no canvas');
  context.drawImage(bitmap, 0, 0);
  bitmap.close();
  const { data } = context.getImageData(0, 0, width, height);
  return { format: 'jpeg', width, height, bits: 8, channels: 4, samples: data };
}

const SIDE = 16;

function readsBackTrue(): boolean {
  const context = new OffscreenCanvas(SIDE, SIDE).getContext('2d', { willReadFrequently: true });
  if (context === null) return false;
  const pattern = new ImageData(SIDE, SIDE);
  for (let i = 0; i < pattern.data.length; i++) {
    pattern.data[i] = i % 4 === 3 ? 255 : (i * 37) % 256;
  }
  context.putImageData(pattern, 0, 0);
  const back = context.getImageData(0, 0, SIDE, SIDE).data;
  return back.every((value, i) => value === pattern.data[i]);
}
