/** Built-in tablets as densities, by id. */
import { nominalTablet } from '@wedgebook/core';
import { nominalTablets } from '@wedgebook/data';

const DENSITIES: ReadonlyMap<string, readonly number[]> = new Map(
  nominalTablets.map((tablet) => [tablet.id, nominalTablet(tablet)]),
);

/** Densities of step 1, step 2, … of a built-in tablet, or null. */
export function builtInTablet(id: string): readonly number[] | null {
  return DENSITIES.get(id) ?? null;
}
