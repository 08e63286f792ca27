/**
 * Round trips through encoders of other hands: fast-png writes PNG; the TIFF files are written here
 * byte by byte after the TIFF 6.0 specification (Adobe, 1992), sections 2 to 4 and 8.
 */
import { encode } from 'fast-png';
import { describe, expect, it } from 'vitest';
import { decodePicture } from './decode-picture.ts';
import { greyOf, PictureError } from './decoded-picture.ts';
import { tiffFile } from './tiff-file.ts';

const ramp = (length: number, greatest: number): number[] =>
  Array.from({ length }, (_, i) => Math.round((i * 7919) % (greatest + 1)));
const faultOf = async (bytes: Uint8Array<ArrayBuffer>): Promise<string> => {
  try {
    await decodePicture(bytes);
    return 'read';
  } catch (error) {
    return error instanceof PictureError ? error.fault : String(error);
  }
};

describe('PNG', () => {
  it.each([
    [8, 1],
    [8, 3],
    [8, 4],
    [16, 1],
    [16, 3],
  ] as const)('of %d bits and %d channels comes back sample by sample', async (depth, channels) => {
    const samples = ramp(12 * 5 * channels, 2 ** depth - 1);
    const data = depth === 16 ? Uint16Array.from(samples) : Uint8Array.from(samples);
    const bytes = Uint8Array.from(encode({ width: 12, height: 5, data, depth, channels }));
    const picture = await decodePicture(bytes);
    expect(picture).toMatchObject({ format: 'png', width: 12, height: 5, bits: depth, channels });
    expect([...picture.samples]).toEqual(samples);
  });
  it('of one bit is spread out', async () => {
    const data = Uint8Array.from([0b10110000, 0b01000000]);
    const bytes = Uint8Array.from(encode({ width: 4, height: 2, data, depth: 1, channels: 1 }));
    expect([...(await decodePicture(bytes)).samples]).toEqual([1, 0, 1, 1, 0, 1, 0, 0]);
  });
  it('cut short, or with a damaged body, is refused', async () => {
    const data = Uint8Array.from(ramp(600, 255));
    const whole = Uint8Array.from(encode({ width: 30, height: 20, data, channels: 1 }));
    expect(await faultOf(whole.slice(0, 20))).toBe('broken');
    expect(await faultOf(whole.slice(0, whole.length / 2))).toBe('broken');
  });
  it('that states a huge size is refused before it is unpacked', async () => {
    const bytes = Uint8Array.from(
      encode({ width: 1, height: 1, data: new Uint8Array(1), channels: 1 }),
    );
    new DataView(bytes.buffer).setUint32(16, 100_000);
    new DataView(bytes.buffer).setUint32(20, 100_000);
    expect(await faultOf(bytes)).toBe('too-large');
  });
});

describe('TIFF', () => {
  it.each([
    [8, 1],
    [8, 3],
    [16, 1],
    [16, 3],
  ] as const)('of %d bits and %d channels comes back sample by sample', async (bits, channels) => {
    const samples = ramp(9 * 4 * channels, 2 ** bits - 1);
    for (const littleEndian of [true, false]) {
      const bytes = tiffFile({ width: 9, height: 4, bits, channels, samples, littleEndian });
      const picture = await decodePicture(bytes);
      expect(picture).toMatchObject({ format: 'tiff', width: 9, height: 4, bits, channels });
      expect([...picture.samples]).toEqual(samples);
    }
  });
  const plain = { width: 4, height: 2, bits: 8, channels: 3, samples: ramp(24, 255) } as const;
  it.each([
    ['PackBits', { compression: 32773 }, 'tiff-compression'],
    ['JPEG in TIFF', { compression: 7 }, 'tiff-compression'],
    ['separate colour planes', { planar: 2 }, 'tiff-layout'],
    ['a turned picture', { orientation: 6 }, 'tiff-turned'],
    ['a palette', { photometric: 3 }, 'palette'],
    ['CMYK', { photometric: 5 }, 'tiff-layout'],
    ['BigTIFF', { magic: 43 }, 'big-tiff'],
  ] as const)('refuses %s and says so', async (_, changes, fault) => {
    expect(await faultOf(tiffFile({ ...plain, ...changes }))).toBe(fault);
  });
  it('cut short is refused', async () => {
    expect(await faultOf(tiffFile(plain).slice(0, 30))).toBe('broken');
  });
});

describe('a file that is no picture', () => {
  it.each([new Uint8Array(0), new TextEncoder().encode('step;density')])(
    'is refused',
    async (bytes) => {
      expect(await faultOf(Uint8Array.from(bytes))).toBe('not-a-picture');
    },
  );
});

describe('greyOf', () => {
  const picture = {
    format: 'png',
    width: 2,
    height: 1,
    bits: 16,
    channels: 3,
    samples: Uint16Array.from([3, 6, 12, 30000, 60000, 0]),
  } as const;
  it('takes one colour, or the mean of all, and keeps 16 bits', () => {
    expect([...greyOf(picture, 'green').values]).toEqual([6, 60000]);
    expect([...greyOf(picture, 'mean').values]).toEqual([7, 30000]);
    expect(greyOf(picture, 'blue')).toMatchObject({ greatest: 65535, bits: 16 });
  });
});
