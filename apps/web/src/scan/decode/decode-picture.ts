/** Reads a file as a picture, by what its first bytes say, not by its name. */
import { PictureError, type DecodedPicture } from './decoded-picture.ts';

/** @throws {PictureError} with the reason where the file cannot be read */
export async function decodePicture(bytes: Uint8Array<ArrayBuffer>): Promise<DecodedPicture> {
  const [a, b, c, d] = bytes;
  try {
    if (a === 0x89 && b === 0x50 && c === 0x4e && d === 0x47) {
      return (await import('./decode-png.ts')).decodePng(bytes);
    }
    if ((a === 0x49 && b === 0x49) || (a === 0x4d && b === 0x4d)) {
      return (await import('./decode-tiff.ts')).decodeTiff(bytes);
    }
    if (a === 0xff && b === 0xd8) {
      return await (await import('./decode-jpeg.ts')).decodeJpeg(bytes);
    }
  } catch (error) {
    if (error instanceof PictureError) throw error;
    throw new PictureError('broken', error instanceof Error ? error.message : String(error));
  }
  throw new PictureError('not-a-picture');
}
