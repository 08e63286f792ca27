/**
 * Quantities as people type them, with units. The part of core that knows units is large and is
 * loaded only when somebody types one.
 */
import type { MixingSheet } from '@wedgebook/core/quantities';

const quantities = () => import('@wedgebook/core/quantities');

/** Degrees Celsius from `68 degF`, `293 K`, `20 °C`. */
export async function celsiusFromTyped(typed: string): Promise<number> {
  return (await quantities()).parseTemperature(typed, 'degC');
}

/** Minutes from `6:30`, `90 s`, `6 min 30 s`. */
export async function minutesFromTyped(typed: string): Promise<number> {
  return (await quantities()).parseTime(typed, 'min') / 60;
}

/** Parts of water from `1+3`, or `stock`. */
export async function waterFromTyped(typed: string): Promise<number> {
  return (await quantities()).parseDilution(typed);
}

/** Mixing sheet for a volume such as `1 l`, `250 ml`, `16 floz`. */
export async function mixingFromTyped(typed: string, partsWater: number): Promise<MixingSheet> {
  const { mixingSheet, parseVolume } = await quantities();
  return mixingSheet(parseVolume(typed, 'ml'), partsWater);
}
