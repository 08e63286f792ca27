import { describe, expect, it } from 'vitest';
import { ansiGradeTable, seleniumDefaults } from '../../../../test/selenium-bath.ts';
import { expectWithin } from '../../../../test/within.ts';
import { InvalidArgumentError } from '../errors.ts';
import { defaultTreatment } from './default-model.ts';
import { fitTreatment } from './fit-treatment.ts';
import { nextTrial } from './next-trial.ts';
import { planTreatment } from './plan-treatment.ts';
import { predictTreatment } from './predict-treatment.ts';
import { seleniumUsed, SELENIUM_PER_SILVER } from './selenium-budget.ts';
import { washingMinutes } from './washing.ts';

const model = defaultTreatment(seleniumDefaults);
const planned = { partsWater: 3, minutes: 6, celsius: 20 };

describe('nextTrial', () => {
  it('knows more after any trial, and most after the best', () => {
    const { errorNow, trials } = nextTrial(model, seleniumDefaults, planned);
    expect(trials).toHaveLength(20);
    const after = trials.map(({ errorAfter }) => errorAfter);
    expect(after).toEqual([...after].sort((a, b) => a - b));
    for (const error of after) expect(error).toBeLessThanOrEqual(errorNow);
    expect(after[0]).toBeLessThan(0.5 * errorNow);
  });

  it('before anything is known, a trial at the planned bath itself tells about as much as any', () => {
    const { trials } = nextTrial(model, seleniumDefaults, planned, {
      candidates: [planned, { ...planned, minutes: 0.3 }, { ...planned, minutes: 60 }],
    });
    expect(trials[0]!.bath).toEqual(planned);
  });

  it('learns nothing, and gives finite figures, from a piece that had no time in the bath', () => {
    const idle = {
      strip: 'idle',
      partsWater: 1,
      bathMinutes: 0,
      bathCelsius: 20,
      dose: 0,
      gain: { value: 1, standardError: 0 },
      pairs: 1,
      baseFogChange: null,
    };
    const before = nextTrial(model, seleniumDefaults, planned);
    expect(nextTrial({ ...model, treated: [idle] }, seleniumDefaults, planned)).toEqual(before);
  });

  it('after a finished trial asks for a short one where the time is what matters', () => {
    const xs = [-2, -1.5, -1, -0.5, 0, 0.5];
    const strip = (gain: number) => ({
      logExposures: xs,
      densities: xs.map((_, i) => 0.1 + gain * 0.25 * i),
      unexposedDensities: [0.1, 0.1],
    });
    const fitted = fitTreatment(
      [
        {
          strip: 'to the end',
          bath: { partsWater: 3, minutes: 40, celsius: 20 },
          untreated: strip(1),
          treated: strip(1.19),
        },
      ],
      seleniumDefaults,
    );
    const { trials } = nextTrial(fitted, seleniumDefaults, planned, {
      candidates: [
        { ...planned, minutes: 40 },
        { ...planned, minutes: 4 },
      ],
    });
    expect(trials[0]!.bath.minutes).toBe(4);
  });

  it('refuses an error that is none and an empty list', () => {
    for (const gainError of [NaN, 0, -1]) {
      expect(() => nextTrial(model, seleniumDefaults, planned, { gainError })).toThrow(
        InvalidArgumentError,
      );
    }
    expect(() => nextTrial(model, seleniumDefaults, planned, { candidates: [] })).toThrow(
      InvalidArgumentError,
    );
  });
});

describe('how sure the minutes are', () => {
  const options = { gradeTable: ansiGradeTable };
  const bath = { partsWater: 1, celsius: 20 };

  it('built-in numbers give a plausible interval and no standard error', () => {
    const plan = planTreatment(model, { densityRange: 0.79 }, { grade: 3 }, bath, options);
    expect(plan.minutesError!.standardError).toBeNull();
    const [low, high] = plan.minutesError!.plausible;
    expect(low).toBeLessThan(plan.minutes);
    // At the low end of the built-in gain the middle of the band is out of reach.
    expect(high).toBeNull();
  });

  it('a plan that needs nothing, or cannot be, has none', () => {
    for (const densityRange of [1.05, 0.4]) {
      const plan = planTreatment(model, { densityRange }, { grade: 2 }, bath, options);
      expect(plan.minutesError).toBeNull();
    }
  });

  it('fitted errors agree with what the gain does about the planned time', () => {
    const xs = Array.from({ length: 12 }, (_, i) => -2 + 0.2 * i);
    const strip = (gain: number, shift: number) => ({
      logExposures: xs,
      densities: xs.map((_, i) => 0.1 + gain * 0.12 * i + (i % 2 ? shift : -shift)),
      unexposedDensities: [0.1, 0.1],
    });
    const gainOf = (minutes: number) => 1 + 0.22 * (1 - 2 ** (-minutes / 1.6));
    const fitted = fitTreatment(
      [1, 2, 4, 8].map((minutes) => ({
        strip: String(minutes),
        bath: { ...bath, minutes },
        untreated: strip(1, 0.004),
        treated: strip(gainOf(minutes), -0.004),
        untreatedStrip: 'u',
      })),
      seleniumDefaults,
      { family: 'first-order' },
    );
    const plan = planTreatment(fitted, { densityRange: 0.92 }, { grade: 2 }, bath, options);
    expect(plan.aim).toBe('band-middle');
    const error = plan.minutesError!.standardError!;
    const gainAt = (minutes: number) =>
      predictTreatment(fitted, { densityRange: 0.92 }, { ...bath, minutes }, options).effect.gain;
    const slope = (gainAt(plan.minutes + 0.01).value - gainAt(plan.minutes).value) / 0.01;
    expectWithin(error, gainAt(plan.minutes).standardError! / slope, 0.02 * error);
  });
});

describe('selenium budget', () => {
  it('binds 0.476 g of selenium to 1.3 g of silver (derived)', () => {
    expectWithin(1.3 * SELENIUM_PER_SILVER, 0.476, 5e-4);
  });
  it('adds films up', () => {
    const sheet = { areaSquareCentimetres: 500, meanNetDensity: 0.6 };
    const one = seleniumUsed([sheet]);
    const two = seleniumUsed([sheet, sheet]);
    expectWithin(two.seleniumGrams[1], 2 * one.seleniumGrams[1], 1e-12);
    expectWithin(one.silverGrams[1], 0.05 * 0.6 * 1.3, 1e-12);
    expect(seleniumUsed([]).seleniumGrams).toEqual([0, 0, 0]);
  });
  it.each([NaN, 0, -1, Infinity])('refuses an area of %f', (areaSquareCentimetres) => {
    expect(() => seleniumUsed([{ areaSquareCentimetres, meanNetDensity: 0.5 }])).toThrow(
      InvalidArgumentError,
    );
  });
});

describe('washing', () => {
  it('takes a minute for each halving, and none below the limit', () => {
    expectWithin(washingMinutes(1.4), Math.log2(100), 1e-12);
    expect(washingMinutes(0.01)).toBe(0);
  });
  it.each([NaN, 0, -1, Infinity])('refuses %f', (bad) => {
    expect(() => washingMinutes(bad)).toThrow(InvalidArgumentError);
    expect(() => washingMinutes(1, bad)).toThrow(InvalidArgumentError);
    expect(() => washingMinutes(1, 0.014, bad)).toThrow(InvalidArgumentError);
  });
});
