import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { InvalidArgumentError, OutOfDomainError } from '../errors.ts';
import { rateTimesTime } from './conversion.ts';
import { concentrationOf, dose, doseRate, minutesForDose } from './dose.ts';
import {
  doseForResponse,
  RESPONSE_FAMILIES,
  responseAt,
  responseDerivatives,
  type Response,
} from './response.ts';
import { whitener } from './whitener.ts';

const EXPONENTS = { concentrationExponent: 1, temperatureCoefficient: 2 };

describe('dose', () => {
  it('doubles for 10 °C with a coefficient of 2, and is untouched at 20 °C', () => {
    const at = (celsius: number) => dose({ partsWater: 1, minutes: 4, celsius }, EXPONENTS);
    expect(at(20)).toBe(2);
    expectWithin(at(30), 4, 1e-12);
  });

  it('goes there and back between dose and minutes', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 50, noNaN: true }),
        fc.double({ min: 0.01, max: 60, noNaN: true }),
        fc.double({ min: 10, max: 40, noNaN: true }),
        fc.double({ min: 0.3, max: 3, noNaN: true }),
        (partsWater, minutes, celsius, concentrationExponent) => {
          const exponents = { concentrationExponent, temperatureCoefficient: 2.3 };
          const given = dose({ partsWater, minutes, celsius }, exponents);
          const back = minutesForDose(given, { partsWater, celsius }, exponents);
          expectWithin(back, minutes, 1e-9 * minutes);
        },
      ),
    );
  });

  it.each([NaN, -1, Infinity])('refuses %f minutes, parts or degrees', (bad) => {
    expect(() => dose({ partsWater: 1, minutes: bad, celsius: 20 }, EXPONENTS)).toThrow(
      InvalidArgumentError,
    );
    expect(() => concentrationOf(bad)).toThrow(InvalidArgumentError);
    expect(() => doseRate({ partsWater: 1, celsius: bad }, EXPONENTS)).toThrow(
      InvalidArgumentError,
    );
    expect(() => minutesForDose(bad, { partsWater: 1, celsius: 20 }, EXPONENTS)).toThrow(
      InvalidArgumentError,
    );
  });
});

describe.each(RESPONSE_FAMILIES)('response %s', (family) => {
  const response: Response = { family, halfDose: 0.8, steepness: 1.7 };

  it('is 0 without a dose, one half at the half dose, and never falls', () => {
    expect(responseAt(0, response)).toBe(0);
    expectWithin(responseAt(0.8, response), 0.5, 1e-12);
    let before = 0;
    for (let e = 0.05; e < 12; e += 0.05) {
      const now = responseAt(e, response);
      expect(now).toBeGreaterThanOrEqual(before);
      expect(now).toBeLessThanOrEqual(1);
      before = now;
    }
  });

  it('comes back from its inverse', () => {
    for (const part of [0, 0.1, 0.5, 0.95]) {
      expectWithin(responseAt(doseForResponse(part, response), response), part, 1e-12);
    }
  });

  it('has the derivatives of finite differences', () => {
    const h = 1e-6;
    for (const e of [0.1, 0.7, 2]) {
      const d = responseDerivatives(e, response);
      const slope = (at: (step: number) => number) => (at(h) - at(-h)) / (2 * h);
      expectWithin(
        d.byDose,
        slope((s) => responseAt(e + s, response)),
        1e-7,
      );
      expectWithin(
        d.byHalfDose,
        slope((s) => responseAt(e, { ...response, halfDose: 0.8 + s })),
        1e-7,
      );
      expectWithin(
        d.bySteepness,
        slope((s) => responseAt(e, { ...response, steepness: 1.7 + s })),
        1e-7,
      );
    }
  });

  it('refuses doses and parts that are none', () => {
    for (const bad of [NaN, -1, Infinity]) {
      expect(() => responseAt(bad, response)).toThrow(InvalidArgumentError);
      expect(() => responseAt(1, { ...response, halfDose: bad })).toThrow(InvalidArgumentError);
      expect(() => doseForResponse(bad, response)).toThrow(OutOfDomainError);
    }
    expect(() => doseForResponse(1.01, response)).toThrow(OutOfDomainError);
  });

  it('stays finite at great doses', () => {
    expect(responseAt(1e300, response)).toBe(1);
  });
});

describe('rateTimesTime', () => {
  it.each([NaN, -0.1, 1, 2])('refuses a conversion of %f', (conversion) => {
    expect(() => rateTimesTime('jander', conversion)).toThrow(OutOfDomainError);
  });
  it('is 0 at the start', () => {
    for (const law of ['first-order', 'parabolic', 'jander'] as const) {
      expect(Object.is(rateTimesTime(law, 0), 0)).toBe(true);
    }
  });
});

describe('whitener', () => {
  it('turns a covariance into the unit matrix', () => {
    // C = [[4, 2], [2, 5]] has L = [[2, 0], [1, 2]].
    const block = new Float64Array([4, 2, 2, 5]);
    const whiten = whitener([4, 2, 2, 5], 2);
    whiten(block, 2);
    const transposed = new Float64Array([block[0]!, block[2]!, block[1]!, block[3]!]);
    whiten(transposed, 2);
    [1, 0, 0, 1].forEach((expected, i) => {
      expectWithin(transposed[i]!, expected, 1e-12);
    });
  });
  it('refuses a covariance that is none', () => {
    expect(() => whitener([1, 2, 2, 1], 2)).toThrow(InvalidArgumentError);
    expect(() => whitener([NaN], 1)).toThrow(InvalidArgumentError);
  });
});
