/**
 * [SM1907], [GLAFKIDES] Contrast against development time: closed forms (derived) and what the fit
 * makes of contrasts generated from known constants.
 */
import { describe, expect, it } from 'vitest';
import {
  contrastAt,
  contrastFactor,
  developmentPlan,
  developmentTimeRatio,
  firstOrderFromThreeTimes,
  firstOrderFromTwoTimes,
  fitContrastModel,
  minutesForContrast,
  requiredGradient,
} from '@wedgebook/core';
import { expectWithin, printedTo } from '../within.ts';

const law = (limit: number, rate: number, delay: number) => (minutes: number) =>
  limit * (1 - Math.exp(-rate * (minutes - delay)));

describe('[SM1907] two times t and 2t without delay', () => {
  it('give back the constants that made them', () => {
    const c = law(1.45, 0.16, 0);
    const found = firstOrderFromTwoTimes(4, c(4), c(8));
    expectWithin(found.contrastInfinity, 1.45, 1e-12);
    expectWithin(found.rate, 0.16, 1e-12);
  });

  it('are refused unless g1 < g2 < 2 g1', () => {
    expect(() => firstOrderFromTwoTimes(4, 0.5, 0.5)).toThrow(/second contrast/);
    expect(() => firstOrderFromTwoTimes(4, 0.5, 1.0)).toThrow(/second contrast/);
  });

  it('the fit agrees with them', () => {
    const c = law(1.45, 0.16, 0);
    const fit = fitContrastModel(
      [4, 8].map((minutes) => ({ minutes, contrast: { value: c(minutes), standardError: 0.01 } })),
      { temperatureCoefficient: 2.5, family: 'first-order' },
    );
    if (fit.status !== 'ok') throw new Error(fit.reason);
    expectWithin(fit.model.contrastInfinity!.value, 1.45, 1e-6);
    expectWithin(fit.model.rate.value, 0.16, 1e-6);
    expect(fit.model.basis).toBe('two-times');
    expect(fit.warnings.map(({ code }) => code)).toContain('delay-assumed');
  });
});

describe('[GLAFKIDES] three equally spaced times with a delay', () => {
  const c = law(0.92, 0.14, 0.9);
  it('give back the constants that made them', () => {
    const found = firstOrderFromThreeTimes(4, 4, [c(4), c(8), c(12)]);
    expectWithin(found.contrastInfinity, 0.92, 1e-12);
    expectWithin(found.rate, 0.14, 1e-12);
    expectWithin(found.delayMinutes, 0.9, 1e-12);
  });

  it('the fit of the same three agrees, and the time for a target comes back', () => {
    const fit = fitContrastModel(
      [4, 8, 12].map((minutes) => ({
        minutes,
        contrast: { value: c(minutes), standardError: 0.005 },
      })),
      { temperatureCoefficient: 2.5, family: 'first-order' },
    );
    if (fit.status !== 'ok') throw new Error(fit.reason);
    expectWithin(fit.model.contrastInfinity!.value, 0.92, 1e-6);
    expectWithin(fit.model.delayMinutes.value, 0.9, 1e-5);
    const answer = minutesForContrast(fit.model, c(6.5));
    if (answer.status !== 'ok') throw new Error('not reachable');
    expectWithin(answer.minutes.value, 6.5, 1e-6);
    expectWithin(contrastAt(fit.model, 6.5).value, c(6.5), 1e-7);
  });

  it('a target at or above the limit is refused', () => {
    const fit = fitContrastModel(
      [4, 8, 12, 16].map((minutes) => ({
        minutes,
        contrast: { value: c(minutes), standardError: 0.005 },
      })),
      { temperatureCoefficient: 2.5, family: 'first-order' },
    );
    if (fit.status !== 'ok') throw new Error(fit.reason);
    expect(minutesForContrast(fit.model, 0.93).status).toBe('not-reachable');
    const plan = developmentPlan(fit.model, { normalContrast: 0.75 });
    expect(plan.map(({ reachable }) => reachable)).toEqual([true, true, true, true, false]);
  });

  it('straight interpolation between two times understates contrast, since the law is concave', () => {
    expect(c(8)).toBeGreaterThan((c(4) + c(12)) / 2);
  });
});

describe('N plans (derived): ratio of times ln(1 - r f) / ln(1 - f), r = 7/(7 - n)', () => {
  it.each([
    [0.5, -2, 0.71],
    [0.5, -1, 0.83],
    [0.5, 1, 1.263],
    [0.5, 2, 1.737],
    [0.4, -2, 0.73],
    [0.4, -1, 0.843],
    [0.4, 1, 1.231],
    [0.4, 2, 1.607],
  ])('at %f of the limit N%i takes %f of the time', (part, change, ratio) => {
    expectWithin(developmentTimeRatio(part, change), ratio, printedTo(3));
  });

  it('the plan of a fitted model has the same ratios', () => {
    const c = law(1.2, 0.11, 0);
    const fit = fitContrastModel(
      [4, 6, 9, 13, 18].map((minutes) => ({
        minutes,
        contrast: { value: c(minutes), standardError: 0.005 },
      })),
      { temperatureCoefficient: 2.5, family: 'first-order' },
    );
    if (fit.status !== 'ok') throw new Error(fit.reason);
    const [n2, n1, n, p1, p2] = developmentPlan(fit.model, { normalContrast: 0.6 }).map(
      ({ minutes }) => minutes!.value,
    );
    expectWithin(n2! / n!, 0.71, printedTo(3));
    expectWithin(n1! / n!, 0.83, printedTo(3));
    expectWithin(p1! / n!, 1.263, printedTo(3));
    expectWithin(p2! / n!, 1.737, printedTo(3));
  });

  it.each([
    [-2, 0.444],
    [-1, 0.5],
    [0, 0.571],
    [1, 0.667],
    [2, 0.8],
  ])('net range 1.20 over 0.3 (7 - n) log: N%i asks for %f', (change, contrast) => {
    expectWithin((1.2 / 2.1) * contrastFactor(change), contrast, printedTo(3));
  });
});

describe('[JONES1920] the gradient that scene, flare and paper ask for (derived)', () => {
  it('1.05 / (2.20 - 0.40) is 0.583, and 0.477 without flare', () => {
    expectWithin(requiredGradient(1.05, 2.2, 0.4), 0.583, printedTo(3));
    expectWithin(requiredGradient(1.05, 2.2), 0.477, printedTo(3));
  });

  it('system check (published): range 2.20, one stop flare, index 0.56 is a negative of about 1.03 to 1.06', () => {
    const range = 0.56 * (2.2 - 0.301);
    expectWithin(range, 1.06, printedTo(2));
    expectWithin(requiredGradient(range, 2.2, 0.301), 0.56, 1e-12);
  });
});
