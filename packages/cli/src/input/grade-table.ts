/** The grade table that an option names. */
import { gradeTableById, gradeTables } from '@wedgebook/data';
import type { GradeTable } from '@wedgebook/core';
import type { Arguments, OptionKinds } from './arguments.ts';

export const GRADE_OPTIONS = { 'grade-table': { type: 'string' } } as const satisfies OptionKinds;

/** @throws {UsageError} for an unknown table */
export function gradeTableOf(given: Arguments): GradeTable {
  const [first] = gradeTables;
  const id = given.choice(
    'grade-table',
    gradeTables.map((table) => table.id),
  );
  return gradeTableById(id ?? first?.id ?? '');
}

/** The other verified table, by which a grade near a limit is doubted; null where there is none. */
export function rivalOf(table: GradeTable): GradeTable | null {
  return gradeTables.find(({ id, provenance }) => id !== table.id && provenance.verified) ?? null;
}
