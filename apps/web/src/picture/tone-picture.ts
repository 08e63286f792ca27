/**
 * A picture as tones: one number a pixel, a place on a scale of log light from the darkest to the
 * lightest of the picture. Everything that the preview prints is a function of that number, so that
 * a change of paper or bath is a change of one short table.
 */
import { lightFromSrgb, type GreyImage } from '@wedgebook/core';

/** Places on the scale: over five decades of light each is an eighth of a hundredth in density. */
export const TONE_LEVELS = 4096;
/** The preview keeps about two million pixels. */
const MOST_PIXELS = 2_100_000;
/** Darker than the lightest by this many decades, nothing is told from black. */
const MOST_DECADES = 5;

export interface TonePicture {
  readonly width: number;
  readonly height: number;
  readonly tones: Uint16Array;
  /** log10 of the light of tone 0 and of the last tone, against the most that the file holds. */
  readonly low: number;
  readonly high: number;
  /** Pixels of each tone. */
  readonly counts: Uint32Array;
}

/** How the values of a file go with light. */
export type ToneEncoding = 'screen' | 'linear';

/** Tones of a decoded picture, averaged in light down to about two million pixels. */
export function tonesOfImage(
  image: GreyImage,
  encoding: ToneEncoding,
  mostPixels = MOST_PIXELS,
): TonePicture {
  const { width, height, values, greatest } = image;
  const lightOf = lightTable(image, encoding);
  const by = Math.max(1, Math.ceil(Math.sqrt((width * height) / mostPixels)));
  const wide = Math.max(1, Math.floor(width / by));
  const high = Math.max(1, Math.floor(height / by));
  const logs = new Float32Array(wide * high);
  // Half a level: black has no logarithm.
  const least = lightOf(greatest / (2 ** image.bits - 1)) / 2;
  for (let y = 0; y < high; y++) {
    for (let x = 0; x < wide; x++) {
      let sum = 0;
      for (let j = 0; j < by; j++) {
        const row = (y * by + j) * width + x * by;
        for (let i = 0; i < by; i++) sum += lightOf(values[row + i] ?? 0);
      }
      logs[y * wide + x] = Math.log10(Math.max(sum / (by * by), least));
    }
  }
  return tonesOfLogs(logs, wide, high);
}

/** Tones of a picture given as log light. */
export function tonesOfLogs(logs: Float32Array, width: number, height: number): TonePicture {
  let low = Infinity;
  let high = -Infinity;
  for (const log of logs) {
    if (log < low) low = log;
    if (log > high) high = log;
  }
  low = Math.max(low, high - MOST_DECADES);
  const scale = high > low ? (TONE_LEVELS - 1) / (high - low) : 0;
  const tones = new Uint16Array(logs.length);
  const counts = new Uint32Array(TONE_LEVELS);
  for (let i = 0; i < logs.length; i++) {
    const tone = Math.max(0, Math.round(((logs[i] ?? low) - low) * scale));
    tones[i] = tone;
    counts[tone] = (counts[tone] ?? 0) + 1;
  }
  return { width, height, tones, low, high, counts };
}

/** log10 light of a tone. */
export function logOfTone({ low, high }: Pick<TonePicture, 'low' | 'high'>, tone: number): number {
  return low + ((high - low) * tone) / (TONE_LEVELS - 1);
}

/** The tone below which a part of the pixels lies, 0 to 1. */
export function toneAtPart(counts: Uint32Array, part: number): number {
  let all = 0;
  for (const count of counts) all += count;
  let before = 0;
  for (let tone = 0; tone < counts.length; tone++) {
    before += counts[tone] ?? 0;
    if (before >= part * all) return tone;
  }
  return counts.length - 1;
}

function lightTable(image: GreyImage, encoding: ToneEncoding): (value: number) => number {
  const { greatest, values } = image;
  const direct = (value: number): number => {
    const v = value / greatest;
    return encoding === 'linear' ? v : lightFromSrgb(v);
  };
  if (values instanceof Float32Array || greatest > 65535) return direct;
  const table = Float64Array.from({ length: greatest + 1 }, (_, value) => direct(value));
  return (value) => table[value] ?? 0;
}
