/**
 * TIFF of 8 or 16 bits, grey or RGB, not compressed or by LZW or Deflate: the first page. What the
 * decoder cannot do is refused by name; some of it would else come out as a picture that is wrong.
 */
import { decode } from 'tiff';
import { checkSize, PictureError, type DecodedPicture } from './decoded-picture.ts';

const COMPRESSIONS: Readonly<Record<number, string>> = {
  2: 'CCITT',
  3: 'CCITT G3',
  4: 'CCITT G4',
  6: 'JPEG',
  7: 'JPEG',
  32773: 'PackBits',
  34712: 'JPEG 2000',
  50000: 'Zstandard',
  50001: 'WebP',
};
const READABLE = new Set([1, 5, 8, 32946]);
const SEPARATE_PLANES = 2;
const PALETTE = 3;

export function decodeTiff(bytes: Uint8Array): DecodedPicture {
  const little = bytes[0] === 0x49;
  const magic = little ? bytes[2] : bytes[3];
  if (magic === 43) throw new PictureError('big-tiff');
  const [about] = decode(bytes, { pages: [0], ignoreImageData: true });
  if (about === undefined) throw new PictureError('broken', 'TIFF');
  checkSize(about.width, about.height);
  const { compression, samplesPerPixel: channels, bitsPerSample: bits } = about;
  if (!READABLE.has(compression)) {
    throw new PictureError('tiff-compression', COMPRESSIONS[compression] ?? String(compression));
  }
  if (about.type === PALETTE) throw new PictureError('palette');
  if (about.type > PALETTE) throw new PictureError('tiff-layout', `colour model ${about.type}`);
  if (bits !== 8 && bits !== 16) throw new PictureError('depth', String(bits));
  if (channels > 1 && about.planarConfiguration === SEPARATE_PLANES) {
    throw new PictureError('tiff-layout', 'separate colour planes');
  }
  if (channels > 1 && about.tiled) throw new PictureError('tiff-layout', 'colour tiles');
  const { orientation } = about;
  if (orientation > 1) throw new PictureError('tiff-turned', String(orientation));
  const [page] = decode(bytes, { pages: [0] });
  const data = page?.data;
  const right = data !== undefined && data.length >= about.width * about.height * channels;
  if (!right || data instanceof Float32Array || data instanceof Float64Array) {
    throw new PictureError('broken', 'TIFF');
  }
  return {
    format: 'tiff',
    width: about.width,
    height: about.height,
    bits,
    channels,
    samples: data,
  };
}
