/**
 * [BW1988] Puromycin: velocity of an enzymatic reaction against substrate concentration, treated and
 * untreated cells, a saturating dose-response. Known: published; the data are those of the book and
 * of the base distribution of R, and the expected estimates, Gauss-Newton standard errors and
 * residual errors were printed by R 4.2.2 (`nls` on its own copy of the data).
 */
import { describe, expect, it } from 'vitest';
import { fitModel, michaelisMenten, responseAt } from '@wedgebook/core';
import { expectWithin, printedTo } from '../within.ts';

const TREATED = {
  concentration: [0.02, 0.02, 0.06, 0.06, 0.11, 0.11, 0.22, 0.22, 0.56, 0.56, 1.1, 1.1],
  velocity: [76, 47, 97, 107, 123, 139, 159, 152, 191, 201, 207, 200],
};
const UNTREATED = {
  concentration: [0.02, 0.02, 0.06, 0.06, 0.11, 0.11, 0.22, 0.22, 0.56, 0.56, 1.1],
  velocity: [67, 51, 84, 86, 98, 115, 131, 124, 144, 158, 160],
};
/** R stops at a relative offset of about 1e-5, so that its last digits carry as much. */
const STOPPED = 2e-6;

describe('[BW1988] Puromycin, saturation of a response', () => {
  it.each([
    ['treated', TREATED, [212.68358, 6.947146], [0.064121027, 0.008280922], 10.93366],
    ['untreated', UNTREATED, [160.28012, 6.480251], [0.047708306, 0.007781891], 9.773003],
  ] as const)('%s cells: maximum, half-saturation, errors', (_, data, maximum, half, residual) => {
    const fit = fitModel(michaelisMenten, data.concentration, data.velocity);
    expect(fit.report.status).toBe('converged');
    [maximum, half].forEach(([value, error], i) => {
      expectWithin(fit.parameters[i]!, value, 10 * STOPPED * value, `parameter ${i}`);
      expectWithin(fit.standardErrors[i]!, error, 1e-4 * error, `error ${i}`);
    });
    expectWithin(fit.residualStandardDeviation!, residual, printedTo(5), 'residual');
  });

  it('is the Hill response of steepness 1, of which half dose and maximum are the same figures', () => {
    const [maximum = 0, half = 0] = fitModel(
      michaelisMenten,
      TREATED.concentration,
      TREATED.velocity,
    ).parameters;
    for (const x of TREATED.concentration) {
      const part = responseAt(x, { family: 'hill', halfDose: half, steepness: 1 });
      expectWithin(maximum * part, (maximum * x) / (half + x), 1e-10, `at ${x}`);
    }
  });
});
