/** [JANDER1927] and elementary kinetics: k t at a conversion (derived), and equal doses. */
import { describe, it } from 'vitest';
import { dose, minutesForDose, rateTimesTime, responseAt, doseForResponse } from '@wedgebook/core';
import { expectWithin, printedTo } from '../within.ts';

describe('[JANDER1927] integrated rate laws (derived)', () => {
  it.each([
    ['first-order', 0.5, 0.693147, 6],
    ['first-order', 0.9, 2.302585, 6],
    ['first-order', 0.99, 4.60517, 6],
    ['parabolic', 0.5, 0.25, 6],
    ['parabolic', 0.9, 0.81, 6],
    ['parabolic', 0.99, 0.9801, 6],
    ['jander', 0.5, 0.0425595, 7],
    ['jander', 0.9, 0.287126, 6],
    ['jander', 0.99, 0.615529, 6],
  ] as const)('%s at %f is %f', (law, conversion, product, decimals) => {
    expectWithin(rateTimesTime(law, conversion), product, printedTo(decimals));
  });

  it('the response families follow their rate laws at any half dose', () => {
    const halfDose = 0.7;
    for (const x of [0.5, 0.9, 0.99]) {
      for (const law of ['first-order', 'parabolic'] as const) {
        const response = { family: law, halfDose, steepness: 1 };
        const expected = (halfDose * rateTimesTime(law, x)) / rateTimesTime(law, 0.5);
        expectWithin(doseForResponse(x, response), expected, 1e-12, law);
        expectWithin(responseAt(expected, response), x, 1e-12, law);
      }
    }
  });
});

describe('dilutions of one dose with n = 1 (derived)', () => {
  it.each([
    [1, 2.5],
    [2, 3.75],
    [4, 6.25],
    [9, 12.5],
    [19, 25],
  ])('1+%i takes %f minutes for what 1+3 does in 5', (partsWater, minutes) => {
    const exponents = { concentrationExponent: 1, temperatureCoefficient: 2 };
    const wanted = dose({ partsWater: 3, minutes: 5, celsius: 20 }, exponents);
    expectWithin(minutesForDose(wanted, { partsWater, celsius: 20 }, exponents), minutes, 1e-12);
  });
});
