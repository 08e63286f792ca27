/** How a strip's tablet is found: the user's own in the document, else a built-in one. */
import { nominalTablet } from '@wedgebook/core';
import { nominalTablets } from '@wedgebook/data';
import type { NotebookDocument } from './document.ts';

/** @returns the densities of step 1, step 2, ... of the tablet, or null where there is none */
export type TabletLookup = (id: string) => readonly number[] | null;

const builtIn = new Map(nominalTablets.map((size) => [size.id, nominalTablet(size)]));

/** The built-in tablets, by their nominal increments. */
export const builtInTablets: TabletLookup = (id) => builtIn.get(id) ?? null;

/** @returns a lookup that prefers the tablets of the document */
export function tabletLookup(document: Pick<NotebookDocument, 'tablets'>): TabletLookup {
  return (id) =>
    document.tablets.find((tablet) => tablet.id === id)?.densities ?? builtInTablets(id);
}
