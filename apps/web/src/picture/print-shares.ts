/** How much of the picture prints where: histogram, paper white and near black. */
import { SHADOW_FRACTION, THRESHOLD_NET_DENSITY } from '@wedgebook/core';
import type { Print } from './four-prints.ts';

export const BIN_WIDTH = 0.05;

/** Parts of the picture by net print density, 0 to 1; the last bin holds all that is denser. */
export function partsByDensity(
  { netDensities }: Pick<Print, 'netDensities'>,
  counts: Uint32Array,
  bins: number,
): number[] {
  const parts = new Array<number>(bins).fill(0);
  let all = 0;
  netDensities.forEach((density, tone) => {
    const count = counts[tone] ?? 0;
    all += count;
    const bin = Math.min(bins - 1, Math.max(0, Math.floor(density / BIN_WIDTH)));
    parts[bin] = (parts[bin] ?? 0) + count;
  });
  return parts.map((count) => (all > 0 ? count / all : 0));
}

/** Parts of the picture at paper white and near black, 0 to 1. */
export function endsOfPrint(
  { netDensities, netMaximum }: Pick<Print, 'netDensities' | 'netMaximum'>,
  counts: Uint32Array,
): { readonly white: number; readonly black: number } {
  let white = 0;
  let black = 0;
  let all = 0;
  netDensities.forEach((density, tone) => {
    const count = counts[tone] ?? 0;
    all += count;
    if (density < THRESHOLD_NET_DENSITY) white += count;
    if (density >= SHADOW_FRACTION * netMaximum) black += count;
  });
  return all > 0 ? { white: white / all, black: black / all } : { white: 0, black: 0 };
}
