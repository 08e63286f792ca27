import { describe, expect, it } from 'vitest';
import { ansiGradeTable } from '../../../../test/selenium-bath.ts';
import { expectWithin } from '../../../../test/within.ts';
import { InvalidArgumentError } from '../errors.ts';
import { matchNegative } from './match-negative.ts';

const gradeTable = ansiGradeTable;

describe('matchNegative', () => {
  it('asks for the paper whose scale is the printing range', () => {
    const match = matchNegative({ densityRange: 0.9 }, { gradeTable, callierFactor: 1.2 });
    expectWithin(match.printingRange.value, 1.08, 1e-12);
    expect(match.exposureScale).toEqual(match.printingRange);
    expectWithin(match.isoRange!.exact.value, 108, 1e-9);
    expect(match.isoRange!.rounded).toBe(110);
    expect(match.paperGrade.band).toBe(2);
    expect(match.paper).toBeNull();
  });

  it.each([
    [1.1, 'fits', 0],
    [1.05, 'fits', -0.05],
    [1.15, 'fits', 0.05],
    [0.8, 'falls-short', -0.3],
    [1.4, 'overshoots', 0.3],
  ] as const)('a range of %f on a paper of 1.10: %s', (densityRange, verdict, difference) => {
    const { paper } = matchNegative(
      { densityRange, standardError: 0.03 },
      { gradeTable, paper: { value: 1.1, standardError: 0.04 } },
    );
    expect(paper!.verdict).toBe(verdict);
    expectWithin(paper!.difference.value, difference, 1e-12);
    expectWithin(paper!.difference.standardError!, 0.05, 1e-12);
    expectWithin(paper!.differenceStops, difference / Math.log10(2), 1e-12);
  });

  it('takes the distance of a shadow denser than the highlight, with a warning', () => {
    const match = matchNegative({ shadowDensity: 1.3, highlightDensity: 0.3 }, { gradeTable });
    expectWithin(match.densityRange.value, 1, 1e-12);
    expect(match.warnings.map(({ code }) => code)).toContain('highlight-thinner-than-shadow');
  });

  it('says when no grade serves the range', () => {
    const match = matchNegative({ densityRange: 2 }, { gradeTable });
    expect(match.paperGrade).toMatchObject({ band: null, outside: 'softer' });
    expect(match.warnings.map(({ code }) => code)).toContain('range-outside-grades');
    expect(matchNegative({ densityRange: 0 }, { gradeTable }).isoRange).toBeNull();
  });

  it.each([NaN, Infinity, 7])('refuses a range of %f', (densityRange) => {
    expect(() => matchNegative({ densityRange }, { gradeTable })).toThrow(InvalidArgumentError);
  });
  it.each([NaN, 0.9, 3])('refuses a Callier factor of %f', (callierFactor) => {
    expect(() => matchNegative({ densityRange: 1 }, { gradeTable, callierFactor })).toThrow(
      InvalidArgumentError,
    );
  });
});
