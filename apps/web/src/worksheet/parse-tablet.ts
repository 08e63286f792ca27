/** Reads the densities of a user's own step tablet, as pasted from its certificate. */
import { DENSITY_LIMITS } from '@wedgebook/core';
import { text } from '../text.ts';
import { parseNumber } from './parse-cell.ts';

export type TabletReading =
  | { readonly status: 'read'; readonly densities: readonly number[] }
  | { readonly status: 'wrong'; readonly sentence: string };

const FEWEST_STEPS = 4;

/**
 * @param typed - densities separated by spaces, line breaks, tabs or semicolons; points or commas
 * @returns the densities in the order typed, or what is wrong with the first bad entry
 */
export function parseTablet(typed: string): TabletReading {
  const cells = typed.split(/[\s;]+/).filter((cell) => cell !== '');
  const densities: number[] = [];
  for (const [index, cell] of cells.entries()) {
    const parsed = parseNumber(cell);
    const inside =
      parsed.status === 'read' &&
      parsed.value >= DENSITY_LIMITS.lowest &&
      parsed.value <= DENSITY_LIMITS.highest;
    if (!inside) return { status: 'wrong', sentence: text.wrong.tabletCell(cell, index + 1) };
    densities.push(parsed.value);
  }
  if (densities.length < FEWEST_STEPS) return { status: 'wrong', sentence: text.wrong.tabletShort };
  return { status: 'read', densities };
}
