/**
 * The exposure scale of a paper of which no strip has been read.
 *
 * Sources: [ISO6846] R = 100 times the scale; [ANSI1966], [LABSHEET] for grade bands. Deviations:
 * a grade stands for the middle of its band.
 */
import { warning, type Warning } from '../warning.ts';
import type { GradeTable } from './grade-table.ts';
import { gradeBand } from './grade-of.ts';
import { InvalidArgumentError } from '../errors.ts';

/** What is known of a paper's exposure scale, and how. */
export interface PaperScale {
  readonly source: 'iso-range' | 'grade-table';
  readonly exposureScale: number;
  /** Least and greatest scale that the statement allows. */
  readonly interval: readonly [number, number];
  readonly warnings: readonly Warning[];
}

/**
 * Exposure scale of a paper from the ISO range printed on its box or sheet.
 *
 * @param isoRange - R, from 20 to 300
 * @returns scale R / 100; the interval is the rounding of R to the nearest 10
 * @throws InvalidArgumentError if `isoRange` is out of range
 * @example
 * paperFromIsoRange(110).exposureScale; // => 1.1
 */
export function paperFromIsoRange(isoRange: number): PaperScale {
  if (!(isoRange >= 20 && isoRange <= 300)) {
    throw new InvalidArgumentError('paperFromIsoRange', 'isoRange', isoRange, 'from 20 to 300');
  }
  return {
    source: 'iso-range',
    exposureScale: isoRange / 100,
    interval: [(isoRange - 5) / 100, (isoRange + 5) / 100],
    warnings: [],
  };
}

/**
 * Exposure scale of a paper of which only the grade is known.
 *
 * @param grade - whole grade of the table
 * @returns the middle of the band, the band as interval, and a warning that it is no measurement
 * @throws OutOfDomainError if the table has no such grade
 */
export function paperFromGrade(grade: number, table: GradeTable): PaperScale {
  const { lower, upper } = gradeBand(grade, table);
  return {
    source: 'grade-table',
    exposureScale: (lower + upper) / 2,
    interval: [lower, upper],
    warnings: [warning('grade-from-published-bands', { grade, lower, upper })],
  };
}
