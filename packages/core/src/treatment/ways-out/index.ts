export { sortWays, WAY_ORDERS, type WayOrder } from './sort-ways.ts';
export {
  WAY_IDS,
  type ProcessDefaults,
  type ProcessNumber,
  type WayId,
  type WayLimit,
  type WayOut,
} from './way-out.ts';
export { waysOut, type WaysInput } from './ways-out.ts';
