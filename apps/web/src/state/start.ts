/** Which strip is shown first: the one that the plan's negative lies on, else the first film strip. */
import type { NotebookDocument } from '@wedgebook/notebook';
import { trialStripIds } from '../worksheet/new-trial.ts';

export function firstStripId(document: NotebookDocument): string | null {
  const negative = document.negatives.find(({ id }) => id === document.plan.negativeId);
  if (document.strips.some(({ id }) => id === negative?.stripId)) return negative?.stripId ?? null;
  const trials = trialStripIds(document.strips);
  const film = document.strips.find(
    ({ id, material, treatment }) => material === 'film' && treatment === null && !trials.has(id),
  );
  return (film ?? document.strips[0])?.id ?? null;
}
