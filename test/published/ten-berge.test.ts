/**
 * [TENBERGE] c^n t is constant. Ammonia, lethal concentrations by TNO (published): 28,130 mg/m³
 * for 10 min, 19,960 for 20, 14,170 for 40, 11,590 for 60; n = 2.02, constant to 0.12 %.
 */
import { describe, expect, it } from 'vitest';
import { dose, fitModel, straightLine } from '@wedgebook/core';
import { expectWithin, printedTo } from '../within.ts';

const TABLE = [
  [28130, 10],
  [19960, 20],
  [14170, 40],
  [11590, 60],
] as const;

describe('[TENBERGE] ammonia', () => {
  it('the published n makes the dose constant to 0.12 %', () => {
    const strongest = TABLE[0][0];
    const doses = TABLE.map(([concentration, minutes]) =>
      dose(
        { partsWater: strongest / concentration - 1, minutes, celsius: 20 },
        { concentrationExponent: 2.02, temperatureCoefficient: 2 },
      ),
    );
    const spread = (Math.max(...doses) - Math.min(...doses)) / Math.min(...doses);
    expect(spread).toBeLessThan(0.0025); // 0.12 % either way
  });

  it('the slope of log t over log c is the published n', () => {
    const x = TABLE.map(([concentration]) => Math.log10(concentration)).reverse();
    const y = TABLE.map(([, minutes]) => Math.log10(minutes)).reverse();
    const fit = fitModel(straightLine, x, y);
    expectWithin(-fit.parameters[1]!, 2.02, printedTo(2));
  });
});
