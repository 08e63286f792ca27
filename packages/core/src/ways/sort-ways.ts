/**
 * The order of the ways by the user's own wish. There is no score.
 *
 * Sources: none. Deviations: none.
 */
import type { WayOut } from './way-out.ts';

/** What the ways may be ordered by. */
export const WAY_ORDERS = [
  /** From the way that touches the negative least. */
  'least-interference',
  /** Printing range nearest to the one aimed at. */
  'nearest-to-aim',
  'highlight-separation',
  'shadow-separation',
  /** Least grain in the print. */
  'least-grain',
  'shortest-exposure',
] as const;

export type WayOrder = (typeof WAY_ORDERS)[number];

const KEYS: Readonly<Record<WayOrder, (way: WayOut) => number>> = {
  'least-interference': () => 0,
  'nearest-to-aim': ({ fromTarget }) => Math.abs(fromTarget),
  'highlight-separation': ({ highlightSeparation }) => -highlightSeparation,
  'shadow-separation': ({ shadowSeparation }) => -shadowSeparation,
  'least-grain': ({ graininess }) => graininess.print,
  'shortest-exposure': ({ exposureStops }) => exposureStops ?? Number.MAX_VALUE,
};

/**
 * Orders the ways; those that are equal keep the order of `WAY_IDS`.
 *
 * @param ways - as `waysOut` gives them; not mutated
 * @param order - the one figure that counts
 */
export function sortWays(ways: readonly WayOut[], order: WayOrder): WayOut[] {
  const key = KEYS[order];
  return [...ways].sort((a, b) => key(a) - key(b));
}
