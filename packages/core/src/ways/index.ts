export type { NegativeNets } from './negative-change.ts';
export type { KnownDevelopment, NextRoll } from './next-roll.ts';
export { sortWays, WAY_ORDERS, type WayOrder } from './sort-ways.ts';
export {
  WAY_IDS,
  type LightShare,
  type ProcessDefaults,
  type ProcessNumber,
  type SplitLights,
  type WayId,
  type WayLimit,
  type WayOut,
} from './way-out.ts';
export { waysOut, type WaysInput } from './ways-out.ts';
