import { tabletLookup, type Strip } from '@wedgebook/notebook';
import type { WorkDocument } from '../state/work.ts';

/** Densities of a strip's tablet; null where it has none. */
export function tabletOf(document: WorkDocument, { tabletId }: Strip): readonly number[] | null {
  return tabletId === null ? null : tabletLookup(document)(tabletId);
}
