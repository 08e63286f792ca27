/**
 * The built-in selenium bath against common practice of the trade (practice, no single source): at
 * 1+1 and about 20 °C it is complete in 6 to 7 minutes, and a negative moves by about one grade.
 * Grades by [ANSI1966].
 */
import { describe, expect, it } from 'vitest';
import { ansiGradeTable, seleniumDefaults } from '@wedgebook/data';
import { defaultTreatment, planTreatment, predictTreatment } from '@wedgebook/core';
import { expectWithin } from '../within.ts';

const model = defaultTreatment(seleniumDefaults);
const bath = { partsWater: 1, minutes: 6.5, celsius: 20 };
const options = { gradeTable: ansiGradeTable };
const middleOf = (grade: number) => {
  const { lower, upper } = ansiGradeTable.bands.find((band) => band.grade === grade)!;
  return (lower + upper) / 2;
};

describe('the built-in selenium bath agrees with practice', () => {
  it('is at least 95 % complete at 1+1, 20 °C, 6.5 minutes', () => {
    const { effect } = predictTreatment(model, { densityRange: 1 }, bath, options);
    expect(effect.completion.value).toBeGreaterThanOrEqual(0.95);
    expect(effect.completion.value).toBeLessThan(0.99);
  });

  it.each([
    [4, 3],
    [3, 2],
  ])('turns a grade-%i negative into a grade-%i one', (before, after) => {
    const p = predictTreatment(model, { densityRange: middleOf(before) }, bath, options);
    expect(p.before.paperGrade.band).toBe(before);
    expect(p.after.paperGrade.band).toBe(after);
  });

  it('gains 1.15 to 1.22, one zone (7/6) or one grade (derived)', () => {
    const { effect } = predictTreatment(model, { densityRange: 1 }, bath, options);
    expect(effect.gain.value).toBeGreaterThan(1.15);
    expect(effect.gain.value).toBeLessThan(1.22);
  });

  it('plans that step in 2 to 10 minutes at 1+1 and says that it rests on built-in numbers', () => {
    const plan = planTreatment(
      model,
      { densityRange: middleOf(4) },
      { grade: 3 },
      { partsWater: 1, celsius: 20 },
      options,
    );
    expect(plan.reachable).toBe(true);
    expect(plan.prediction.after.paperGrade.band).toBe(3);
    expect(plan.minutes).toBeGreaterThanOrEqual(2);
    expect(plan.minutes).toBeLessThanOrEqual(10);
    expect(plan.warnings.map(({ code }) => code)).toContain('dose-response-default');
  });

  it('cannot carry a grade-5 negative to grade 2', () => {
    const plan = planTreatment(
      model,
      { densityRange: middleOf(5) },
      { grade: 2 },
      { partsWater: 1, celsius: 20 },
      options,
    );
    expect(plan.reachable).toBe(false);
    expect(plan.reason).toBe('needs-more-gain');
    expect(plan.gainNeeded).toBeGreaterThan(plan.maximumGain.value);
  });

  it('a second bath after completion adds nearly nothing (from memory, unverified)', () => {
    const after = (minutes: number) =>
      predictTreatment(model, { densityRange: 1 }, { ...bath, minutes }, options).effect.gain.value;
    expectWithin(after(26) / after(13), 1, 0.005);
  });

  it('bounds a fitted gain at 1.449, grains swelling as spheres by 0.744 (derived)', () => {
    expectWithin(seleniumDefaults.bounds.maximumGain.value, 1.744 ** (2 / 3), 1e-12);
  });
});
