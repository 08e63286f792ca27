/**
 * Paper grades as bands of a range. The bands are data, never code.
 *
 *   continuous grade inside band n:  n - 1/2 + (upper - r) / (upper - lower)
 *
 * so that the middle of a band is its whole number, harder papers have higher numbers, and the
 * whole numbers are the rounded continuous ones.
 *
 * Sources: [ANSI1966] appendix for the bands by log exposure range, [LABSHEET] for those by density
 * range; which side owns a limit is not published for the first. Deviations: the continuous grade is
 * the project's own interpolation, and each table states its rule at limits.
 */
import type { Provenance } from '../provenance.ts';

/** One grade: the ranges that it serves, lower < upper. */
export interface GradeBand {
  readonly grade: number;
  readonly lower: number;
  readonly upper: number;
}

/** A table of paper grades. */
export interface GradeTable {
  readonly id: string;
  readonly name: string;
  /** What is looked up: the paper's log exposure range, or the negative's density range. */
  readonly quantity: 'log-exposure-range' | 'density-range';
  /** The enlarger light that the table presumes; `any` where the range is the paper's own. */
  readonly light: 'any' | 'diffuse' | 'condenser';
  /** Which band owns a limit that two bands share. The table's outer ends always belong to it. */
  readonly limitRule: 'upper-inclusive' | 'lower-inclusive';
  /** Bands from the softest (widest range) to the hardest, touching one another. */
  readonly bands: readonly GradeBand[];
  readonly provenance: Provenance;
}
