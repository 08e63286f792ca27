/**
 * Ryegrass root length against ferulic acid, an open data set of Inderjit, J. C. Streibig and
 * M. Olofsdotter, Physiologia Plantarum 114 (2002) 422-428, fitted by the log-logistic curve with
 * four parameters. Known: published. The published parameters come from an optimiser that stops at
 * about 1e-5 of them; the published standard errors are those of the observed Hessian. Ours are
 * those of the Gauss-Newton approximation J'J, recomputed apart from this code as
 * 0.458429, 0.209506, 0.189733 and 0.185829 (derived).
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  fitModel,
  logLogistic3,
  logLogistic4,
  responseAt,
  weibull4,
  type Model,
} from '@wedgebook/core';
import { expectWithin, printedTo } from '../within.ts';

const rows = readFileSync(new URL('tables/ryegrass.csv', import.meta.url), 'utf8')
  .split('\n')
  .filter((line) => /^\d/.test(line))
  .map((line) => line.split(',').map(Number));
const x = rows.map((row) => row[0]!);
const y = rows.map((row) => row[1]!);
const fit = fitModel(logLogistic4, x, y);

/** Dose at which p per cent of the way from d to c is gone: e (p / (100 - p))^(1 / b). */
const effectiveDose = (p: number): number =>
  fit.parameters[3]! * (p / (100 - p)) ** (1 / fit.parameters[0]!);

describe('[RITZ2015] ryegrass, log-logistic with four parameters', () => {
  it('converges from the readings alone, the untreated pots at dose 0 included', () => {
    expect(rows).toHaveLength(24);
    expect(fit.report.status).toBe('converged');
    expect(fit.degreesOfFreedom).toBe(20);
  });

  it.each([
    ['b', 0, 2.98222],
    ['c', 1, 0.48141],
    ['d', 2, 7.79296],
    ['e', 3, 3.05795],
  ] as const)('parameter %s', (name, index, published) => {
    // The published optimum is known to about 1e-5 of each value.
    expectWithin(fit.parameters[index]!, published, printedTo(5) + 1e-5 * published, name);
  });

  it.each([
    ['b', 0, 0.458429],
    ['c', 1, 0.209506],
    ['d', 2, 0.189733],
    ['e', 3, 0.185829],
  ] as const)('Gauss-Newton standard error of %s', (name, index, derived) => {
    expectWithin(fit.standardErrors[index]!, derived, printedTo(5) + 1e-5, name);
  });

  it.each([
    ['b', 0, 0.46506],
    ['c', 1, 0.21219],
    ['d', 2, 0.18857],
    ['e', 3, 0.18573],
  ] as const)('the published Hessian standard error of %s within 2 %', (name, index, published) => {
    expectWithin(fit.standardErrors[index]!, published, 0.02 * published, name);
  });

  it('residual standard error 0.5196256 and logarithm of the likelihood -16.15514', () => {
    expectWithin(fit.residualStandardDeviation!, 0.5196256, printedTo(7) + 1e-7);
    const n = y.length;
    const logLikelihood = (-n / 2) * (Math.log((2 * Math.PI * fit.residualSumOfSquares) / n) + 1);
    expectWithin(logLikelihood, -16.15514, printedTo(5));
  });

  it.each([
    [10, 1.46371],
    [50, 3.05795],
    [90, 6.38864],
  ])('ED%i is %f mmol', (p, published) => {
    expectWithin(effectiveDose(p), published, printedTo(5) + 2e-5 * published, `ED${p}`);
  });
});

/**
 * The two rivals of the same data. Known: derived, a second implementation: printed by R 4.2.2, `nls`
 * with its Gauss-Newton step and the curves written out as in [RITZ2015].
 */
describe('[RITZ2015] ryegrass, log-logistic with three parameters and Weibull of the first type', () => {
  const rivals: [string, Model, readonly (readonly [number, number])[], number][] = [
    [
      'LL.3',
      logLogistic3,
      [
        [2.47032, 0.318736],
        [7.85543, 0.207984],
        [3.26336, 0.202199],
      ],
      0.5615802,
    ],
    [
      'W1.4',
      weibull4,
      [
        [2.39335, 0.439623],
        [0.66045, 0.186392],
        [7.80588, 0.20759],
        [3.60013, 0.194175],
      ],
      0.5488238,
    ],
  ];
  it.each(rivals)('%s', (_, model, expected, residual) => {
    // The Weibull curve turned about (b < 0) fits a little better; R was started on this side.
    const own = fitModel(model, x, y, {
      start: expected.map(([value]) => Number(value.toFixed(1))),
    });
    expect(own.report.status).toBe('converged');
    expected.forEach(([value, error], i) => {
      expectWithin(own.parameters[i]!, value, printedTo(5), `parameter ${i}`);
      expectWithin(own.standardErrors[i]!, error, printedTo(5), `error ${i}`);
    });
    expectWithin(own.residualStandardDeviation!, residual, printedTo(6));
    const alone = fitModel(model, x, y).residualSumOfSquares;
    expect(alone).toBeLessThanOrEqual(own.residualSumOfSquares * (1 + 1e-9));
  });

  it('the responses to a dose are these curves turned about, stated by their half dose', () => {
    const [b, , , e] = fit.parameters as [number, number, number, number];
    const w = fitModel(weibull4, x, y, { start: [2.4, 0.7, 7.8, 3.6] }).parameters as [
      number,
      number,
      number,
      number,
    ];
    for (const at of [0.94, 3.75, 15]) {
      const hill = responseAt(at, { family: 'hill', halfDose: e, steepness: b });
      expectWithin(hill, 1 - 1 / (1 + Math.exp(b * Math.log(at / e))), 1e-12, 'Hill');
      const half = w[3] * Math.LN2 ** (1 / w[0]);
      const weibull = responseAt(at, { family: 'weibull', halfDose: half, steepness: w[0] });
      expectWithin(weibull, 1 - Math.exp(-((at / w[3]) ** w[0])), 1e-12, 'Weibull');
    }
  });
});
