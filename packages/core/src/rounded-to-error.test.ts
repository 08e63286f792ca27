import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InvalidArgumentError, roundedToError } from './index.ts';

describe('roundedToError', () => {
  it('[JCGM100, examples from memory, unverified] writes number and uncertainty to one place', () => {
    // Section 7.2.6: 10.057 62 ohm with 27 milliohm is written 10.058 ohm; 7.2.2: 100.021 47 g.
    expect(roundedToError({ value: 10.05762, standardError: 0.027 }, 6)).toEqual({
      value: 10.058,
      standardError: 0.027,
      decimals: 3,
    });
    expect(roundedToError({ value: 100.021472, standardError: 0.00035 }, 6)).toEqual({
      value: 100.02147,
      standardError: 0.00035,
      decimals: 5,
    });
  });

  it.each([
    [3618.9, 240.8, 1, 3620, 240, 0],
    [3618.9, 99.6, 1, 3620, 100, 0],
    [43.36, 0.03, 1, 43.4, 0, 1],
    [43.36, 0.0999, 3, 43.36, 0.1, 2],
    [0, 0, 1, 0, 0, 1],
    [-3618.9, 24.8, 1, -3619, 25, 0],
  ])(
    '%f ± %f with at most %i decimals is %f ± %f',
    (value, standardError, most, v, e, decimals) => {
      expect(roundedToError({ value, standardError }, most)).toEqual({
        value: v,
        standardError: e,
        decimals,
      });
    },
  );

  it.each([
    [347.94, 348, 0],
    [92.9337, 92.9, 1],
    [12_345, 12_300, 0],
    [0, 0, 1],
  ])('gives %f without an error to three digits', (value, rounded, decimals) => {
    const given = { value, standardError: null };
    expect(roundedToError(given, 1)).toEqual({ value: rounded, standardError: null, decimals });
  });

  it('never moves a number by as much as a tenth of its error, nor the error by a twentieth', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
        (value, standardError) => {
          const rounded = roundedToError({ value, standardError }, 12);
          // Half a unit of the second digit is at most a twentieth of the error (derived).
          const most = 0.0501 * standardError;
          expect(Math.abs(rounded.value - value)).toBeLessThanOrEqual(most);
          expect(Math.abs((rounded.standardError ?? 0) - standardError)).toBeLessThanOrEqual(most);
        },
      ),
    );
  });

  it.each([NaN, Infinity])('refuses %f', (wrong) => {
    expect(() => roundedToError({ value: wrong, standardError: 1 }, 1)).toThrow(
      InvalidArgumentError,
    );
    expect(() => roundedToError({ value: 1, standardError: wrong }, 1)).toThrow(
      InvalidArgumentError,
    );
  });

  it('refuses a negative error', () => {
    expect(() => roundedToError({ value: 1, standardError: -1 }, 1)).toThrow(InvalidArgumentError);
  });
});
