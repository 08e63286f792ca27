/** Where a built-in number comes from, as it stands beside the number. */
import type { GradeTable, Provenance } from '@wedgebook/core';
import { WORDS } from '../text.ts';

/** Such as `published, verified`. */
export function markText({ known, verified }: Provenance): string {
  return `${known}, ${verified ? WORDS.verified : WORDS.unverified}`;
}

/** The name of a grade table with its source and mark. */
export function gradeTableText({ name, provenance }: GradeTable): string {
  return `${name}; ${provenance.source} (${markText(provenance)})`;
}

/** A grade table for JSON. */
export function gradeTableJson({ id, name, provenance }: GradeTable): object {
  const { source, known, verified } = provenance;
  return { id, name, source, known, verified };
}
