/**
 * The paper grade that a range calls for, and the ranges that a grade serves.
 *
 *   continuous grade inside band n:  n - 1/2 + (upper - r) / (upper - lower)
 *
 * Sources: [ANSI1966], [LABSHEET] for the bands, which are data; the interpolation inside a band is
 * the project's own. Deviations: none.
 */
import { InvalidArgumentError, OutOfDomainError } from '../errors.ts';
import type { GradeBand, GradeTable } from './grade-table.ts';

/** A paper grade looked up in a table. */
export interface PaperGrade {
  readonly tableId: string;
  /** Whole grade, or null outside the table. */
  readonly band: number | null;
  /** Grade with a fraction, harder papers higher; null outside the table. */
  readonly continuous: number | null;
  /** Where the range lies when no grade serves it: it wants a softer or a harder paper. */
  readonly outside: 'softer' | 'harder' | null;
}

/** Ranges are compared after rounding to a billionth: 1.35 - 0.20 must count as 1.15. */
const GRAIN = 1e9;

/**
 * Paper grade of a range.
 *
 * @param range - log exposure range or density range, as the table's `quantity` says; finite
 * @param table - the grade table with its rule at limits
 * @returns whole and continuous grade; both null, and `outside` set, where the table ends
 * @throws InvalidArgumentError if `range` is not finite or the table has no band
 * @source [ANSI1966], [LABSHEET]
 * @example
 * gradeOf(1.05, table).band; // => 2
 */
export function gradeOf(range: number, table: GradeTable): PaperGrade {
  if (!Number.isFinite(range)) {
    throw new InvalidArgumentError('gradeOf', 'range', range, 'a finite number');
  }
  const softest = table.bands[0];
  const hardest = table.bands.at(-1);
  if (softest === undefined || hardest === undefined) {
    throw new InvalidArgumentError('gradeOf', 'table.bands', table.bands, 'at least one band');
  }
  const r = Math.round(range * GRAIN) / GRAIN;
  const none = { tableId: table.id, band: null, continuous: null };
  if (r > softest.upper) return { ...none, outside: 'softer' };
  if (r < hardest.lower) return { ...none, outside: 'harder' };
  const owner = table.bands.find((band) => owns(band, r, table)) ?? hardest;
  return {
    tableId: table.id,
    band: owner.grade,
    continuous: owner.grade - 0.5 + (owner.upper - r) / (owner.upper - owner.lower),
    outside: null,
  };
}

/** The softest band owns its upper end and the hardest its lower end under either rule. */
function owns(band: GradeBand, r: number, table: GradeTable): boolean {
  if (table.limitRule === 'upper-inclusive') return r > band.lower && r <= band.upper;
  const isSoftest = band === table.bands[0];
  return r >= band.lower && (r < band.upper || (isSoftest && r === band.upper));
}

/**
 * The band of a whole grade.
 *
 * @param grade - whole grade
 * @returns its band
 * @throws OutOfDomainError if the table has no such grade
 */
export function gradeBand(grade: number, table: GradeTable): GradeBand {
  const band = table.bands.find((candidate) => candidate.grade === grade);
  if (band === undefined) {
    const grades = table.bands.map((candidate) => candidate.grade);
    throw new OutOfDomainError('gradeBand', 'grade', grade, [
      Math.min(...grades),
      Math.max(...grades),
    ]);
  }
  return band;
}

/**
 * Range in the middle of a grade, or at a fraction of it: the inverse of the continuous grade.
 *
 * @param grade - grade, whole or with a fraction, within half a grade of the table's ends
 * @returns range in the table's quantity
 * @throws OutOfDomainError if the table does not reach the grade
 * @example
 * rangeOfGrade(2, table); // => 1.05
 */
export function rangeOfGrade(grade: number, table: GradeTable): number {
  // A fraction of exactly one half is the upper limit of the harder band.
  const band = gradeBand(clampToEnds(Math.round(grade), grade, table), table);
  return band.upper - (grade - band.grade + 0.5) * (band.upper - band.lower);
}

/** At the hard end n + 1/2 rounds up to a grade that the table does not have. */
function clampToEnds(whole: number, grade: number, table: GradeTable): number {
  const hardest = Math.max(...table.bands.map((band) => band.grade));
  return whole === hardest + 1 && grade <= hardest + 0.5 ? hardest : whole;
}
