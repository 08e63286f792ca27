/**
 * The 27 nonlinear regression sets of the NIST Statistical Reference Datasets, from both starts
 * each, with the solver's default settings. Known: published, certified to 11 digits; public
 * information of a US agency, credit NIST StRD. Exempt: standard deviations of Lanczos1, whose
 * certified sum of squares (1.43e-25) lies below the rounding of its data. Rat43's file prints 9
 * degrees of freedom; 15 readings less 4 parameters leave 11, which its residual standard
 * deviation also says.
 */
import { describe, expect, it } from 'vitest';
import { exponentialRise, fitModel } from '@wedgebook/core';
import { digits, fitNistSet, nistNonlinearSets } from './nist-sets.ts';

const SETS = nistNonlinearSets();
const RUNS = SETS.flatMap((set) =>
  set.starts.map((start, index) => ({ name: set.name, from: `start ${index + 1}`, set, start })),
);

describe('[NIST-STRD] nonlinear regression', () => {
  it('holds all 27 sets, each with two starts and certified values', () => {
    expect(SETS).toHaveLength(27);
    for (const { name, starts, parameters, standardDeviations, x, y } of SETS) {
      expect(starts[0], name).toHaveLength(parameters.length);
      expect(starts[1], name).toHaveLength(parameters.length);
      expect(standardDeviations, name).toHaveLength(parameters.length);
      expect(x.length, name).toBe(y.length);
      expect(y.length, name).toBeGreaterThan(parameters.length);
    }
  });

  it.each(RUNS)('$name from $from agrees to 8 digits in every parameter', ({ set, start }) => {
    const fit = fitNistSet(set, start);
    expect(fit.report.status).toBe('converged');
    expect(digits(fit.parameters, set.parameters)).toBeGreaterThanOrEqual(8);
  });

  it.each(RUNS.filter(({ name }) => name !== 'Lanczos1'))(
    '$name from $from agrees to 8 digits in standard deviations and sum of squares',
    ({ set, start }) => {
      const fit = fitNistSet(set, start);
      expect(digits(fit.standardErrors, set.standardDeviations)).toBeGreaterThanOrEqual(8);
      expect(digits([fit.residualSumOfSquares], [set.residualSumOfSquares])).toBeGreaterThanOrEqual(
        8,
      );
      expect(
        digits([fit.residualStandardDeviation], [set.residualStandardDeviation]),
      ).toBeGreaterThanOrEqual(8);
      expect(fit.degreesOfFreedom).toBe(set.y.length - set.parameters.length);
    },
  );

  it.each(['BoxBOD', 'Misra1a'])('%s is fitted from the readings alone', (name) => {
    const set = SETS.find((candidate) => candidate.name === name)!;
    const fit = fitModel(
      exponentialRise,
      set.x.map((row) => row[0]!),
      set.y,
    );
    expect(digits(fit.parameters, set.parameters)).toBeGreaterThanOrEqual(8);
    expect(digits(fit.standardErrors, set.standardDeviations)).toBeGreaterThanOrEqual(8);
    expect(digits([fit.residualSumOfSquares], [set.residualSumOfSquares])).toBeGreaterThanOrEqual(
      8,
    );
  });
});
