/**
 * Distributions against printed tables: [AS1964] tables 26.9 (F) and 26.10 (t), known from memory
 * and in every statistics text, and against exact closed forms (derived).
 */
import { describe, expect, it } from 'vitest';
import { expectWithin, printedTo } from '../../../../test/within.ts';
import { OutOfDomainError } from '../errors.ts';
import { akaikeCorrected } from './akaike-corrected.ts';
import { akaikeWeights, averageEstimates } from './average-estimates.ts';
import { fDistributionUpperTail } from './f-distribution-upper-tail.ts';
import { incompleteBeta, logGamma } from './incomplete-beta.ts';
import { median } from './median.ts';
import { randomNormal } from './random-normal.ts';
import { studentTQuantile } from './student-t-quantile.ts';

describe('studentTQuantile', () => {
  it.each([
    [0.975, 1, 12.706],
    [0.975, 2, 4.303],
    [0.975, 4, 2.776],
    [0.975, 10, 2.228],
    [0.975, 20, 2.086],
    [0.975, 60, 2.0],
    [0.995, 10, 3.169],
    [0.95, 5, 2.015],
    [0.9, 30, 1.31],
  ])('[AS1964] table 26.10: t(%f, %i) = %f', (p, v, printed) => {
    expectWithin(studentTQuantile(p, v), printed, printedTo(3));
  });

  it('has closed forms at one and two degrees of freedom', () => {
    for (const p of [0.6, 0.9, 0.99, 0.9999]) {
      expectWithin(studentTQuantile(p, 1), Math.tan(Math.PI * (p - 0.5)), 1e-9 * p * 1e4, 'v = 1');
      const a = 4 * p * (1 - p);
      expectWithin(studentTQuantile(p, 2), 2 * (p - 0.5) * Math.sqrt(2 / a), 1e-9 * 100, 'v = 2');
    }
  });

  it('tends to the normal quantile and is odd about one half', () => {
    expectWithin(studentTQuantile(0.975, Infinity), 1.959964, printedTo(6));
    expect(studentTQuantile(0.5, 7)).toBe(0);
    expect(studentTQuantile(0.1, 7)).toBe(-studentTQuantile(0.9, 7));
  });

  it.each([
    [0, 5],
    [1, 5],
    [NaN, 5],
    [0.9, 0],
    [0.9, NaN],
  ])('throws for p = %f, v = %f', (p, v) => {
    expect(() => studentTQuantile(p, v)).toThrow(OutOfDomainError);
  });
});

describe('fDistributionUpperTail', () => {
  it.each([
    [1, 10, 4.96],
    [3, 10, 3.71],
    [5, 20, 2.71],
    [10, 5, 4.74],
  ])('[AS1964] table 26.9: F(%i, %i) exceeds %f one time in twenty', (v1, v2, printed) => {
    // A hundredth in F moves the tail by about 3e-4 here.
    expectWithin(fDistributionUpperTail(printed, v1, v2), 0.05, 5e-4);
  });

  it('with two degrees of freedom above is a power', () => {
    for (const f of [0.3, 1, 4]) {
      expectWithin(fDistributionUpperTail(f, 2, 9), (1 + (2 * f) / 9) ** -4.5, 1e-14);
    }
    expect(fDistributionUpperTail(0, 3, 4)).toBe(1);
    expect(fDistributionUpperTail(Infinity, 3, 4)).toBe(0);
  });

  it.each([
    [-1, 2, 3],
    [NaN, 2, 3],
    [1, 0, 3],
    [1, 2, NaN],
  ])('throws for %f, %f, %f', (f, v1, v2) => {
    expect(() => fDistributionUpperTail(f, v1, v2)).toThrow(OutOfDomainError);
  });
});

describe('special functions', () => {
  it('logGamma knows factorials and the half', () => {
    let factorial = 1;
    for (let n = 1; n < 20; n++) {
      factorial *= n;
      expectWithin(logGamma(n + 1), Math.log(factorial), 1e-13 * n);
    }
    expectWithin(logGamma(0.5), 0.5 * Math.log(Math.PI), 1e-13);
  });

  it('incompleteBeta sums binomial tails and is symmetric', () => {
    // I_x(a, n - a + 1) is the chance of at least a hits in n.
    const x = 0.3;
    let tail = 0;
    const choose = [1, 6, 15, 20, 15, 6, 1];
    for (let k = 4; k <= 6; k++) tail += choose[k]! * x ** k * (1 - x) ** (6 - k);
    expectWithin(incompleteBeta(x, 4, 3), tail, 1e-15);
    expectWithin(incompleteBeta(0.2, 2.5, 7), 1 - incompleteBeta(0.8, 7, 2.5), 1e-14);
    expect(incompleteBeta(0, 2, 3)).toBe(0);
    expect(incompleteBeta(1, 2, 3)).toBe(1);
  });
});

describe('akaikeCorrected', () => {
  it('follows its definition and is infinite where the sample is too small', () => {
    // n = 10, k = 2, RSS = 5: 10 ln 0.5 + 6 + 24 / 6 (derived by hand)
    expectWithin(akaikeCorrected(5, 10, 2), 10 * Math.log(0.5) + 10, 1e-12);
    expect(akaikeCorrected(5, 6, 4)).toBe(Infinity);
    expect(akaikeCorrected(0, 10, 2)).toBe(-Infinity);
  });
});

describe('averages', () => {
  it('weights by evidence', () => {
    const [one = 0, two = 0, three = 0] = akaikeWeights([10, 12, Infinity]);
    expectWithin(one / two, Math.E, 1e-12);
    expect(three).toBe(0);
    expect(akaikeWeights([-Infinity, 3, -Infinity])).toEqual([0.5, 0, 0.5]);
    expect(() => akaikeWeights([Infinity])).toThrow(/criteria/);
  });

  it('adds the spread between models to the error', () => {
    const average = averageEstimates([
      { value: 1, standardError: 0.3, weight: 3 },
      { value: 2, standardError: 0.4, weight: 1 },
    ]);
    expectWithin(average.value, 1.25, 1e-15);
    // 0.75 (0.09 + 0.0625) + 0.25 (0.16 + 0.5625)
    expectWithin(average.standardError!, Math.sqrt(0.295), 1e-12);
  });

  it('has no error where a model has none, and refuses nonsense', () => {
    expect(
      averageEstimates([{ value: 1, standardError: null, weight: 1 }]).standardError,
    ).toBeNull();
    expect(() => averageEstimates([])).toThrow(/weights/);
    expect(() => averageEstimates([{ value: NaN, standardError: 0, weight: 1 }])).toThrow(/finite/);
  });
});

describe('median and randomNormal', () => {
  it('takes the middle', () => {
    expect(median([5, 1, 3])).toBe(3);
    expect(median([4, 1, 3, 2])).toBe(2.5);
    expect(median([])).toBe(0);
  });

  it('repeats for a seed and has the moments of a normal law', () => {
    const n = 40_000;
    const z = randomNormal(7);
    const values = Array.from({ length: n }, z);
    const again = randomNormal(7);
    expect(values.slice(0, 5)).toEqual(Array.from({ length: 5 }, again));
    const moment = (k: number): number => values.reduce((sum, v) => sum + v ** k, 0) / n;
    // Four standard errors of each moment: sqrt(1, 2, 15, 96) / sqrt(n).
    expectWithin(moment(1), 0, 4 / Math.sqrt(n));
    expectWithin(moment(2), 1, (4 * Math.sqrt(2)) / Math.sqrt(n));
    expectWithin(moment(3), 0, (4 * Math.sqrt(15)) / Math.sqrt(n));
    expectWithin(moment(4), 3, (4 * Math.sqrt(96)) / Math.sqrt(n));
  });
});
