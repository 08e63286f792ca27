/**
 * Print tones as the screen's colours. The screen's white stands for paper white; in the red theme
 * the same greys are given as reds, for the screen must show no other light.
 */
import { displayGrey } from '@wedgebook/core';

export type ScreenInk = 'grey' | 'red';

/** A difference this large, print density, is shown as black or white. */
export const GREATEST_DIFFERENCE = 0.5;

/** Steps of density that are reckoned once: a thousandth is a tenth of a grey at most. */
const STEP = 0.001;
const MOST_DENSITY = 4;
const inks: Partial<Record<ScreenInk, Uint32Array>> = {};

/** Packed colours of net print densities, one a tone: the bytes red, green, blue, opaque. */
export function screenTable(netDensities: Float32Array, ink: ScreenInk): Uint32Array {
  const colours = (inks[ink] ??= coloursByDensity(ink));
  const last = colours.length - 1;
  const table = new Uint32Array(netDensities.length);
  for (let tone = 0; tone < table.length; tone++) {
    const place = Math.round((netDensities[tone] as number) / STEP);
    table[tone] = colours[Math.min(last, Math.max(0, place))] as number;
  }
  return table;
}

function coloursByDensity(ink: ScreenInk): Uint32Array {
  return Uint32Array.from({ length: MOST_DENSITY / STEP + 1 }, (_, k) =>
    packed(displayGrey(k * STEP) / 255, ink),
  );
}

/** Packed colours of second less first print: middle grey alike, darker where the second is. */
export function differenceTable(
  first: Float32Array,
  second: Float32Array,
  ink: ScreenInk,
): Uint32Array {
  return Uint32Array.from(first, (density, tone) => {
    const difference = (second[tone] ?? 0) - density;
    return packed(Math.min(1, Math.max(0, 0.5 - difference / (2 * GREATEST_DIFFERENCE))), ink);
  });
}

function packed(value: number, ink: ScreenInk): number {
  const level = Math.round(255 * value);
  const others = ink === 'grey' ? level : 0;
  // Little-endian, as every machine that runs a browser is: red is the lowest byte.
  return ((255 << 24) | (others << 16) | (others << 8) | level) >>> 0;
}
