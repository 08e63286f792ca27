import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ansiGradeTable,
  laboratoryGradeTable,
  seleniumDefaults,
} from '../../../../test/selenium-bath.ts';
import { expectWithin } from '../../../../test/within.ts';
import { fitCurve } from '../curve/index.ts';
import { InvalidArgumentError, OutOfDomainError } from '../errors.ts';
import { completionCurve, sensitivityOf } from './completion-curve.ts';
import { defaultTreatment } from './default-model.ts';
import { gainAtBath } from './gain-at-dose.ts';
import { planTreatment } from './plan-treatment.ts';
import { predictTreatment } from './predict-treatment.ts';
import { toneBaseFog, treatedCurve, treatedReadings } from './treated-curve.ts';
import { densityAfter, treatmentEffect } from './treatment-effect.ts';
import type { TreatmentModel } from './treatment-model.ts';

const model = defaultTreatment(seleniumDefaults);
const options = { gradeTable: ansiGradeTable };
const bath = { partsWater: 1, celsius: 20 };
const withLaw = (law: Partial<TreatmentModel['law']>): TreatmentModel => ({
  ...model,
  law: { ...model.law, ...law },
});

describe('predictTreatment', () => {
  it('with no time in the bath changes nothing', () => {
    const p = predictTreatment(model, { densityRange: 0.9 }, { ...bath, minutes: 0 }, options);
    expectWithin(p.after.densityRange.value, 0.9, 1e-12);
    expect(p.after.paperGrade).toEqual(p.before.paperGrade);
  });

  it('carries the error of the range, and has no error from built-in numbers but a plausible interval', () => {
    const p = predictTreatment(
      model,
      { densityRange: 0.9, standardError: 0.02 },
      { ...bath, minutes: 6.5 },
      options,
    );
    const k = p.effect.gain.value;
    expectWithin(p.after.densityRange.standardError!, 0.02 * k, 1e-12);
    expect(p.plausibleRange[0]).toBeLessThan(p.after.densityRange.value);
    expect(p.plausibleRange[1]).toBeGreaterThan(p.after.densityRange.value);
  });

  it('lets a condenser see more of it, before and after', () => {
    const p = predictTreatment(
      model,
      { densityRange: 0.7 },
      { ...bath, minutes: 6.5 },
      { ...options, callierFactor: 1.2 },
    );
    expectWithin(p.before.printingRange.value, 0.84, 1e-12);
    expectWithin(p.after.printingRange.value / p.after.densityRange.value, 1.2, 1e-12);
    expect(p.before.paperGrade.band).toBe(3);
  });

  it('needs the shadow for laws that are not proportional, and says when it assumes it', () => {
    const power = withLaw({ family: 'power', exponent: { value: 1.3, standardError: null } });
    const p = predictTreatment(power, { densityRange: 1 }, { ...bath, minutes: 6 }, options);
    const codes = p.warnings.map(({ code }) => code);
    expect(codes).toContain('shadow-density-assumed');
    expect(codes).toContain('law-lowers-densities');
    const given = predictTreatment(
      power,
      { densityRange: 1, shadowNetDensity: 0.3 },
      { ...bath, minutes: 6 },
      options,
    );
    expect(given.warnings.map(({ code }) => code)).not.toContain('shadow-density-assumed');
  });

  it.each([NaN, 0, -1, 7, Infinity])('refuses a range of %f', (densityRange) => {
    expect(() =>
      predictTreatment(model, { densityRange }, { ...bath, minutes: 5 }, options),
    ).toThrow(InvalidArgumentError);
  });
});

describe('an intensifier in the model never lowers a density', () => {
  it.each([1.4, 0.7])('power %f', (exponent) => {
    const power = withLaw({ family: 'power', exponent: { value: exponent, standardError: null } });
    const effect = treatmentEffect(power, { ...bath, minutes: 3 });
    for (let u = 0; u < 3; u += 0.02) {
      expect(densityAfter(u, effect)).toBeGreaterThanOrEqual(u - 1e-12);
    }
  });
});

describe('planTreatment', () => {
  it('keeps its promise: predicting its minutes gives its range', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.3, max: 1.6, noNaN: true }),
        fc.integer({ min: 0, max: 5 }),
        fc.double({ min: 0.5, max: 15, noNaN: true }),
        fc.double({ min: 16, max: 28, noNaN: true }),
        (densityRange, grade, partsWater, celsius) => {
          const plan = planTreatment(
            model,
            { densityRange },
            { grade },
            { partsWater, celsius },
            options,
          );
          expect(plan.completion).toBeGreaterThanOrEqual(0);
          expect(plan.completion).toBeLessThanOrEqual(0.95);
          expect(Number.isFinite(plan.minutes)).toBe(true);
          const again = predictTreatment(model, { densityRange }, plan.bath, options);
          expect(again.after.densityRange.value).toBe(plan.prediction.after.densityRange.value);
          if (plan.reachable) {
            expect(again.after.paperGrade.band).toBe(grade);
            expectWithin(again.after.printingRange.value, plan.targetRange, 1e-9);
            expect(plan.gainNeeded).toBeLessThanOrEqual(plan.maximumGain.value);
          } else {
            expect(again.after.paperGrade.band).not.toBe(grade);
            expect(plan.warnings.map(({ code }) => code)).toContain('target-not-reachable');
          }
        },
      ),
    );
  });

  it('leaves alone a negative that is in its band already', () => {
    const plan = planTreatment(model, { densityRange: 1 }, { grade: 2 }, bath, options);
    expect(plan).toMatchObject({ reachable: true, aim: 'already-there', minutes: 0 });
    expect(plan.gainNeeded).toBe(1);
  });

  it('aims at the middle of the band, or as far into it as the bath goes', () => {
    const easy = planTreatment(model, { densityRange: 0.79 }, { grade: 3 }, bath, options);
    expect(easy.aim).toBe('band-middle');
    expectWithin(easy.prediction.after.printingRange.value, 0.875, 1e-9);
    const hard = planTreatment(model, { densityRange: 0.7 }, { grade: 3 }, bath, options);
    expect(hard.aim).toBe('in-band');
    expectWithin(hard.completion, 0.95, 1e-9);
  });

  it('cannot make a negative softer, and says so', () => {
    const plan = planTreatment(model, { densityRange: 1.3 }, { grade: 3 }, bath, options);
    expect(plan).toMatchObject({ reachable: false, reason: 'needs-reduction', minutes: 0 });
  });

  it('reaches a range as asked', () => {
    const plan = planTreatment(model, { densityRange: 0.95 }, { printingRange: 1.05 }, bath, {
      gradeTable: laboratoryGradeTable,
    });
    expect(plan.reachable).toBe(true);
    expectWithin(plan.prediction.after.printingRange.value, 1.05, 1e-9);
    expectWithin(plan.gainNeeded, 1.05 / 0.95, 1e-9);
  });

  it('takes twice the time at half the concentration', () => {
    const at = (partsWater: number) =>
      planTreatment(
        model,
        { densityRange: 0.9 },
        { grade: 2 },
        { partsWater, celsius: 20 },
        options,
      ).minutes;
    expectWithin(at(3) / at(1), 2, 1e-9);
  });

  it('with stain needs more of the silver', () => {
    const plan = planTreatment(model, { densityRange: 0.95 }, { printingRange: 1.0 }, bath, {
      ...options,
      stain: 0.3,
    });
    expectWithin(plan.gainNeeded, (1.0 / 0.95) * 1.3 - 0.3, 1e-9);
  });

  it.each([NaN, 0, -1])('refuses a target range of %f', (printingRange) => {
    expect(() =>
      planTreatment(model, { densityRange: 0.9 }, { printingRange }, bath, options),
    ).toThrow(InvalidArgumentError);
  });
  it('refuses a grade that the table does not have', () => {
    expect(() => planTreatment(model, { densityRange: 0.9 }, { grade: 7 }, bath, options)).toThrow(
      OutOfDomainError,
    );
  });
});

describe('completion against time', () => {
  it('rises from nothing to nearly all, and the gain with it', () => {
    const curve = completionCurve(model, bath, [0, 2, 6, 20]);
    expect(curve[0]!.gain.value).toBe(1);
    expect(curve.map(({ completion }) => completion.value)).toEqual(
      [...curve].map(({ completion }) => completion.value).sort((a, b) => a - b),
    );
    expectWithin(curve[2]!.completion.value, 0.95, 1e-9);
  });
  it('says what a minute and a degree more do', () => {
    const early = sensitivityOf(model, { ...bath, minutes: 1 });
    const late = sensitivityOf(model, { ...bath, minutes: 12 });
    expect(early.perMinute).toBeGreaterThan(late.perMinute);
    expect(early.perDegree).toBeGreaterThan(0);
  });
  it('refuses no times at all', () => {
    expect(() => completionCurve(model, bath, [])).toThrow(InvalidArgumentError);
  });
  it('plausible interval holds the gain, and the exponents do not widen it at the named bath', () => {
    const { gain, plausibleGain } = gainAtBath(model.doseResponse, { ...bath, minutes: 4 });
    expect(plausibleGain[0]).toBeLessThan(gain.value);
    expect(plausibleGain[1]).toBeGreaterThan(gain.value);
    const elsewhere = gainAtBath(model.doseResponse, { partsWater: 9, celsius: 20, minutes: 20 });
    const width = ([low, high]: readonly [number, number]) => high - low;
    expect(width(elsewhere.plausibleGain)).toBeGreaterThan(width(plausibleGain));
  });
});

describe('the treated curve', () => {
  const xs = Array.from({ length: 21 }, (_, i) => -3 + 0.15 * i);
  const fit = fitCurve({
    logExposures: xs,
    densities: xs.map((x) => 0.12 + 0.6 * 0.25 * Math.log1p(Math.exp((x + 2) / 0.25))),
    unexposedDensities: [0.12, 0.12],
  });
  if (fit.status !== 'ok') throw new Error(fit.reason);
  const effect = treatmentEffect(model, { ...bath, minutes: 6.5 });

  it('stands a gain above base + fog, with a gradient a gain steeper', () => {
    const k = effect.gain.value;
    for (const point of treatedCurve(fit.curve, effect, [-2.5, -1.5, -0.3])) {
      const base = point.untreatedDensity - (point.density - point.untreatedDensity) / (k - 1);
      expectWithin(base, 0.12, 1e-3);
    }
    const [a, b] = treatedCurve(fit.curve, effect, [-1.5, -1.5 + 1e-5]);
    expectWithin((b!.density - a!.density) / 1e-5, a!.gradient, 1e-4);
  });

  it('can tone the fog too', () => {
    expect(toneBaseFog(0.2, effect)).toBe(0.2);
    expectWithin(toneBaseFog(0.2, effect, 0.1), 0.1 + 0.1 * effect.gain.value, 1e-12);
    expect(() => toneBaseFog(0.2, effect, 0.3)).toThrow(InvalidArgumentError);
  });

  it('predicts readings and keeps unread cells unread', () => {
    const [a, none] = treatedReadings([1.12, null], 0.12, effect);
    expectWithin(a!, 0.12 + effect.gain.value, 1e-12);
    expect(none).toBeNull();
  });

  it('refuses exposures that are none', () => {
    expect(() => treatedCurve(fit.curve, effect, [NaN])).toThrow(InvalidArgumentError);
    expect(treatedCurve(fit.curve, effect, [])).toEqual([]);
  });
});

describe('planning for a paper or a density range', () => {
  const negative = { densityRange: 0.9 };

  it('a density range is reached as a density range, whatever the enlarger sees of it', () => {
    for (const [callierFactor, stain] of [
      [1, 0],
      [1.3, 0],
      [1.2, 0.2],
    ] as const) {
      const plan = planTreatment(model, negative, { densityRange: 1 }, bath, {
        ...options,
        callierFactor,
        stain,
      });
      expect(plan.aim).toBe('range');
      expectWithin(plan.prediction.after.densityRange.value, 1, 1e-9, `Q ${callierFactor}`);
    }
  });

  it('the same figure asked of the enlarger takes less bath where condenser light lengthens it', () => {
    const asked = (target: { densityRange: number } | { printingRange: number }) =>
      planTreatment(model, negative, target, bath, { ...options, callierFactor: 1.08 }).minutes;
    expect(asked({ printingRange: 1 })).toBeLessThan(asked({ densityRange: 1 }));
  });

  it('an error of the scale, and of the negative, widens the interval of the minutes', () => {
    const plan = (standardError: number | null, ofNegative: number | null = null) =>
      planTreatment(
        model,
        { ...negative, standardError: ofNegative },
        { printingRange: 1, standardError },
        bath,
        options,
      );
    const exact = plan(null);
    expect(exact.minutesError!.standardError).toBeNull();
    const measured = plan(0.01);
    // k = 1/0.9 = 1.111, its error 1.111 x 0.01; dt/dk from a step of a thousandth (derived).
    const slope =
      (planTreatment(model, negative, { printingRange: 1.0009 }, bath, options).minutes -
        exact.minutes) /
      0.001;
    expectWithin(
      measured.minutesError!.standardError!,
      slope * 0.0111,
      0.02 * slope * 0.0111,
      'error',
    );
    expect(measured.minutesError!.plausible[0]).toBeLessThan(exact.minutesError!.plausible[0]);
    expectWithin(
      plan(0.01, 0.009).minutesError!.standardError!,
      Math.SQRT2 * measured.minutesError!.standardError!,
      1e-6,
      'both',
    );
  });

  it.each([0, -1, NaN, 7])('refuses a density range of %s', (densityRange) => {
    expect(() => planTreatment(model, negative, { densityRange }, bath, options)).toThrow(
      InvalidArgumentError,
    );
  });
});
