/** Why a file could not be read as a picture, and what to do. */
import type { PictureFault } from '../scan/decode/decoded-picture.ts';

export const pictureFaults: Readonly<Record<PictureFault, (detail: string) => string>> = {
  'not-a-picture': () =>
    'This is no PNG, TIFF or JPEG. Save the scan as a TIFF or PNG of 16 bits and open that.',
  'too-large': (size) =>
    `The picture has ${size} pixels, more than a page can hold. Cut it to the part you need, or scan at a lower resolution.`,
  broken: (why) =>
    `The file is damaged or cut short${why === '' ? '' : ` (${why})`}. Save it again.`,
  'big-tiff': () =>
    'This is a BigTIFF, made for files over 4 GB, which is not read here. Save it as a plain TIFF or as PNG.',
  'tiff-compression': (name) =>
    `The TIFF is compressed by ${name}, which is not read here. Save it without compression, or by LZW or Deflate (ZIP).`,
  'tiff-layout': (what) =>
    `The TIFF has ${what}, which is not read here. Save it as plain grey or RGB, in strips.`,
  'tiff-turned': () =>
    'The TIFF is stored turned, with a note to turn it back, which is not done here. Save it upright.',
  depth: (bits) => `The file has ${bits} bits a sample; 8 and 16 are read. Save it with 16 bits.`,
  palette: () =>
    'The file has a palette of colours instead of tones. Save it as grey or RGB of 16 bits.',
  'jpeg-refused': (why) =>
    `The browser does not read this JPEG${why === '' ? '' : ` (${why})`}. Save it as PNG or TIFF.`,
  'canvas-altered': () =>
    'This browser alters the pixels of a JPEG that are read back, as a guard against tracking, so that they are no measure. Save the picture as PNG or TIFF.',
};
