/** [STAINSHEET] Image stain roughly follows silver; the numbers are derived from that. */
import { describe, expect, it } from 'vitest';
import { ansiGradeTable, seleniumDefaults } from '@wedgebook/data';
import { defaultTreatment, effectiveGain, predictTreatment } from '@wedgebook/core';
import { expectWithin, printedTo } from '../within.ts';

describe('[STAINSHEET] stain of 0.375 of the silver density (derived)', () => {
  it('silver intensified by 1.17 with the stain kept gains 1.1236 in all', () => {
    expectWithin(effectiveGain(1.17, { stain: 0.375 }), 1.1236, printedTo(4));
  });

  it('losing the stain alone costs 27 %', () => {
    expectWithin(effectiveGain(1, { stain: 0.375, stainKept: 0 }), 1 - 0.27, printedTo(2));
  });

  it('the prediction warns, and the net gain can be a loss', () => {
    const prediction = predictTreatment(
      defaultTreatment(seleniumDefaults),
      { densityRange: 0.9 },
      { partsWater: 1, minutes: 6.5, celsius: 20 },
      { gradeTable: ansiGradeTable, stain: 0.375, stainKept: 0 },
    );
    expect(prediction.after.densityRange.value).toBeLessThan(0.9);
    expect(prediction.warnings.map(({ code }) => code)).toContain('stain-may-be-lost');
  });
});
