/**
 * Paper grades. [ANSI1966] bands by log exposure range (published; inner limits from a weaker
 * source, the side that owns a limit from none: upper inclusive is our rule). [LABSHEET] bands by
 * density range for diffuse light (published).
 */
import { describe, expect, it } from 'vitest';
import { ansiGradeTable, gradeTableById, laboratoryGradeTable } from '@wedgebook/data';
import { gradeOf, matchNegative } from '@wedgebook/core';
import { expectWithin } from '../within.ts';

describe('[ANSI1966] grade by log exposure range', () => {
  it.each([
    [1.7, 0],
    [1.55, 0],
    [1.41, 0],
    [1.4, 1],
    [1.275, 1],
    [1.16, 1],
    [1.15, 2],
    [1.05, 2],
    [0.96, 2],
    [0.95, 3],
    [0.875, 3],
    [0.81, 3],
    [0.8, 4],
    [0.725, 4],
    [0.66, 4],
    [0.65, 5],
    [0.575, 5],
    [0.5, 5],
  ])('%f is grade %i', (range, grade) => {
    expect(gradeOf(range, ansiGradeTable).band).toBe(grade);
  });

  it.each([
    [1.71, 'softer'],
    [0.49, 'harder'],
  ] as const)('%f lies outside the table on the %s side', (range, outside) => {
    expect(gradeOf(range, ansiGradeTable)).toMatchObject({
      band: null,
      continuous: null,
      outside,
    });
  });

  it('has band middles a factor of 1.19 to 1.26 apart from grade 1 to 5 (derived)', () => {
    const middles = ansiGradeTable.bands
      .filter(({ grade }) => grade >= 1)
      .map(({ lower, upper }) => (lower + upper) / 2);
    for (let i = 1; i < middles.length; i++) {
      const ratio = middles[i - 1]! / middles[i]!;
      expect(ratio).toBeGreaterThan(1.19);
      expect(ratio).toBeLessThan(1.27);
    }
  });
});

describe('[LABSHEET] grade by density range, diffuse light', () => {
  it('works the example of the sheet: 1.30 - 0.20 = 1.10 is grade 2', () => {
    const match = matchNegative(
      { shadowDensity: 0.2, highlightDensity: 1.3 },
      { gradeTable: laboratoryGradeTable },
    );
    expectWithin(match.densityRange.value, 1.1, 1e-12);
    expect(match.paperGrade.band).toBe(2);
  });

  it.each([
    [1.6, 0],
    [1.41, 0],
    [1.4, 1],
    [1.15, 1],
    [1.14, 2],
    [0.95, 2],
    [0.94, 3],
    [0.8, 3],
    [0.79, 4],
    [0.65, 4],
    [0.64, 5],
    [0.5, 5],
  ])('printed class end %f is grade %i', (range, grade) => {
    expect(gradeOf(range, laboratoryGradeTable).band).toBe(grade);
  });

  it('disagrees with the table of 1966 at 1.15, and says so', () => {
    expect(gradeOf(1.15, laboratoryGradeTable).band).toBe(1);
    expect(gradeOf(1.15, ansiGradeTable).band).toBe(2);
    const match = matchNegative(
      // 1.35 - 0.20 is 1.1500000000000001 in binary; it must count as 1.15.
      { shadowDensity: 0.2, highlightDensity: 1.35 },
      { gradeTable: ansiGradeTable, rivalTable: laboratoryGradeTable },
    );
    expect(match.warnings.map(({ code }) => code)).toContain('grade-tables-disagree');
  });
});

describe('grade by density range, condenser light (from memory, unverified)', () => {
  it('stands about 0.75 of the diffuse limits, and is marked', () => {
    const condenser = gradeTableById('memory-condenser');
    expect(condenser.provenance.verified).toBe(false);
    condenser.bands.forEach((band, i) => {
      const diffuse = laboratoryGradeTable.bands[i]!;
      expectWithin(band.lower / diffuse.lower, 0.75, 0.015, `grade ${band.grade}`);
    });
    const match = matchNegative({ densityRange: 0.8 }, { gradeTable: condenser });
    expect(match.warnings.map(({ code }) => code)).toContain('value-unverified');
  });
});
