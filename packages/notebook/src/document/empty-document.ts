/** A notebook before the first entry. */
import { ansiGradeTable } from '@wedgebook/data';
import type { NotebookDocument, Plan } from './document.ts';

/**
 * The bath that a new notebook considers: 1+1, 6.5 minutes, 20 degrees Celsius, a common working
 * bath; diffuse light, no stain.
 */
export const DEFAULT_PLAN: Plan = {
  negativeId: null,
  paperId: null,
  gradeTableId: ansiGradeTable.id,
  callierFactor: 1,
  process: 'selenium',
  partsWater: 1,
  minutes: 6.5,
  celsius: 20,
  stain: 0,
  stainKept: 1,
};

/** @returns a notebook with nothing in it and the default plan */
export function emptyDocument(title = 'Notebook'): NotebookDocument {
  return {
    title,
    note: '',
    invented: false,
    tablets: [],
    films: [],
    strips: [],
    papers: [],
    negatives: [],
    baths: [],
    plan: DEFAULT_PLAN,
  };
}
