/**
 * Quantities as people type them, with units. The part of core that knows units is large and is
 * loaded only when somebody types one.
 */

/** Degrees Celsius from `68 degF`, `293 K`, `20 °C`. */
export async function celsiusFromTyped(typed: string): Promise<number> {
  const { celsiusFromText } = await import('@wedgebook/core/quantities');
  return celsiusFromText(typed);
}

/** Millilitres from `1 l`, `250 ml`, `16 floz`. */
export async function millilitresFromTyped(typed: string): Promise<number> {
  const { millilitresFromText } = await import('@wedgebook/core/quantities');
  return millilitresFromText(typed);
}
