/** Which strip is shown first: the one that the plan's negative lies on, else the first film strip. */
import type { NotebookDocument } from '@wedgebook/notebook';

export function firstStripId(document: NotebookDocument): string | null {
  const negative = document.negatives.find(({ id }) => id === document.plan.negativeId);
  if (document.strips.some(({ id }) => id === negative?.stripId)) return negative?.stripId ?? null;
  const film = document.strips.find(
    ({ material, treatment }) => material === 'film' && treatment === null,
  );
  return (film ?? document.strips[0])?.id ?? null;
}
