/**
 * The 11 linear regression sets of the NIST Statistical Reference Datasets. Known: data published
 * (public information of a US agency, credit NIST StRD); reference values derived from the data by
 * exact rational arithmetic, agreeing with NIST's printed 15 digits where those were seen.
 *
 * Wampler1 and Wampler2 are fitted exactly: their standard deviations are 0.
 */
import { describe, expect, it } from 'vitest';
import { digits, fitNistLinearSet, nistLinearSets } from './nist-sets.ts';

const SETS = nistLinearSets();

/** Digits asked of each set: 12 of Filip, whose raw powers are all but collinear, 7.5 of any. */
const LEAST_DIGITS = new Map([['Filip', 12]]);

describe('[NIST-STRD] linear regression', () => {
  it('holds all 11 sets', () => {
    expect(SETS.map(({ name }) => name)).toEqual([
      'Filip',
      'Longley',
      'NoInt1',
      'NoInt2',
      'Norris',
      'Pontius',
      'Wampler1',
      'Wampler2',
      'Wampler3',
      'Wampler4',
      'Wampler5',
    ]);
  });

  it.each(SETS)('$name agrees in coefficients and standard deviations', (set) => {
    const fit = fitNistLinearSet(set);
    if (fit.status !== 'ok') throw new Error(fit.reason);
    const least = LEAST_DIGITS.get(set.name) ?? 7.5;
    expect(digits(fit.coefficients, set.coefficients, 15)).toBeGreaterThanOrEqual(least);
    expect(fit.degreesOfFreedom).toBe(set.y.length - set.coefficients.length);
    if (set.residualStandardDeviation > 0) {
      expect(digits(fit.standardErrors!, set.standardDeviations, 15)).toBeGreaterThanOrEqual(7.5);
      expect(
        digits([fit.residualStandardDeviation], [set.residualStandardDeviation], 15),
      ).toBeGreaterThanOrEqual(7.5);
    } else {
      expect(fit.residualStandardDeviation).toBeLessThan(1e-9);
    }
  });
});
