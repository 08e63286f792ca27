/**
 * The grades that a range may call for, given its error.
 *
 *   grades of r + z s (the softest) and of r - z s (the hardest),  z = 1.96 for 95 %
 *
 * Sources: none; a grade falls as the range grows, so the ends of the interval of the range are those
 * of the grade (derived). Deviations: the normal quantile, as for every interval of a match.
 */
import { NORMAL_95, type Estimate } from '../estimate.ts';
import { gradeOf, type PaperGrade } from './grade-of.ts';
import type { GradeTable } from './grade-table.ts';

/** The softest and the hardest grade within an interval of 95 %; null without an error. */
export type GradesWithin = readonly [softest: PaperGrade, hardest: PaperGrade] | null;

/**
 * The grades that a range may call for.
 *
 * @param range - in the table's quantity, with its standard error
 * @param table - the grade table
 * @returns the grades at the two ends of the interval; null where the range has no error
 * @throws InvalidArgumentError if the range or its error is not finite, or the table has no band
 */
export function gradesWithin({ value, standardError }: Estimate, table: GradeTable): GradesWithin {
  if (standardError === null) return null;
  const half = NORMAL_95 * standardError;
  return [gradeOf(value + half, table), gradeOf(value - half, table)];
}
