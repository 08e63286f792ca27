/** Writes small TIFF files for tests, after TIFF 6.0 (Adobe, 1992), sections 2 to 4 and 8. */

export interface TiffParts {
  readonly width: number;
  readonly height: number;
  readonly bits: 8 | 16;
  readonly channels: number;
  readonly samples: readonly number[];
  readonly littleEndian?: boolean;
  readonly compression?: number;
  readonly photometric?: number;
  readonly planar?: number;
  readonly orientation?: number;
  readonly magic?: number;
}

const SHORT = 3;
const LONG = 4;

export function tiffFile(parts: TiffParts): Uint8Array<ArrayBuffer> {
  const { width, height, bits, channels, samples, littleEndian = true } = parts;
  const dataBytes = (samples.length * bits) / 8;
  const bitsAt = 8;
  const dataAt = bitsAt + 2 * channels;
  const directoryAt = dataAt + dataBytes + (dataBytes % 2);
  const entries: [tag: number, type: number, count: number, value: number][] = [
    [256, LONG, 1, width],
    [257, LONG, 1, height],
    [258, SHORT, channels, channels > 2 ? bitsAt : bits],
    [259, SHORT, 1, parts.compression ?? 1],
    [262, SHORT, 1, parts.photometric ?? (channels >= 3 ? 2 : 1)],
    [273, LONG, 1, dataAt],
    [274, SHORT, 1, parts.orientation ?? 1],
    [277, SHORT, 1, channels],
    [278, LONG, 1, height],
    [279, LONG, 1, dataBytes],
    [284, SHORT, 1, parts.planar ?? 1],
  ];
  const bytes = new Uint8Array(directoryAt + 2 + 12 * entries.length + 4);
  const view = new DataView(bytes.buffer);
  const short = (at: number, value: number) => {
    view.setUint16(at, value, littleEndian);
  };
  const long = (at: number, value: number) => {
    view.setUint32(at, value, littleEndian);
  };
  bytes.fill(littleEndian ? 0x49 : 0x4d, 0, 2);
  short(2, parts.magic ?? 42);
  long(4, directoryAt);
  for (let i = 0; i < channels; i++) short(bitsAt + 2 * i, bits);
  samples.forEach((sample, i) => {
    if (bits === 8) bytes[dataAt + i] = sample;
    else short(dataAt + 2 * i, sample);
  });
  short(directoryAt, entries.length);
  entries.forEach(([tag, type, count, value], i) => {
    const at = directoryAt + 2 + 12 * i;
    short(at, tag);
    short(at + 2, type);
    long(at + 4, count);
    if (type === SHORT && count * 2 <= 4) short(at + 8, value);
    else long(at + 8, value);
  });
  return bytes;
}
