/**
 * Whether the readings of a curve can be searched for slips. A strip without a finding says nothing
 * about slips where they were not looked for, which whoever shows the curve must tell.
 *
 * Sources: what fewer readings would tell is measured in docs/2026-11-25-which-curve-family.md.
 * Deviations: none.
 */
import type { CharacteristicCurve } from './characteristic-curve.ts';

/** Fewest readings, unexposed ones and replicates counted, among which one can stand out. */
export const FEWEST_FOR_SLIPS = 8;

/** A curve drawn through every reading leaves nothing to judge a reading by. */
export type SlipSearch = 'done' | 'too-few-readings' | 'drawn-curve';

/**
 * Whether slips are looked for.
 *
 * @param curve - the curve through all readings
 * @param readingCount - how many readings it has, unexposed ones and replicates counted
 * @returns `done`, or why there is no search
 * @example
 * slipSearch({ family: 'toe-shoulder' }, 7); // => 'too-few-readings'
 * slipSearch({ family: 'toe-shoulder' }, 8); // => 'done'
 */
export function slipSearch(
  { family }: Pick<CharacteristicCurve, 'family'>,
  readingCount: number,
): SlipSearch {
  if (family === 'as-drawn') return 'drawn-curve';
  return readingCount >= FEWEST_FOR_SLIPS ? 'done' : 'too-few-readings';
}
