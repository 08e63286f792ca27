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
import { fitModel, logLogistic4 } from '@wedgebook/core';
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
