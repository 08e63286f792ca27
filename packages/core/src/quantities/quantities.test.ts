import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { expectWithin } from '../../../../test/within.ts';
import { WedgebookError } from '../errors.ts';
import {
  mixingSheet,
  parseDilution,
  parseExposure,
  parseTemperature,
  parseTime,
  parseVolume,
  QuantityError,
  readingsOfColon,
  usFluidOunces,
} from './index.ts';

const faultOf = (read: () => unknown): string => {
  try {
    read();
  } catch (error) {
    if (error instanceof QuantityError) return error.fault;
    throw error;
  }
  return 'none';
};

describe('volumes', () => {
  it.each([
    ['250 ml', 250],
    ['250ml', 250],
    ['1.5 l', 1500],
    ['1,5 L', 1500],
    ['1/2 litre', 500],
    ['1 1/2 liters', 1500],
    ['½ l', 500],
    ['8 fl oz', 8 * 29.5735295625],
    ['8 oz', 8 * 29.5735295625],
    ['1 quart', 946.352946],
    ['25 cl', 250],
    ['1e3 ml', 1000],
  ])('%s is %f ml', (text, millilitres) => {
    // [NIST811]: 1 US fl oz = 29.5735295625 ml (published); mathjs keeps seven figures of it.
    expectWithin(parseVolume(text), millilitres, 2e-6 * millilitres);
  });

  it('a bare number takes the default unit, or is refused', () => {
    expect(parseVolume('250', 'ml')).toBe(250);
    expect(faultOf(() => parseVolume('250'))).toBe('unit-missing');
  });
});

describe('temperatures', () => {
  it.each([
    ['68 degF', 20],
    ['68 °F', 20],
    ['68F', 20],
    ['75.2 f', 24],
    ['20 °C', 20],
    ['20C', 20],
    ['20,5 c', 20.5],
    ['293.15 K', 20],
    ['-5 °C', -5],
    ['−5 °C', -5],
  ])('%s is %f °C', (text, celsius) => {
    expectWithin(parseTemperature(text), celsius, 1e-9);
  });
});

describe('times', () => {
  it.each([
    ['1/4 s', 0.25],
    ['1/125 s', 0.008],
    ['6:30', 390],
    ['6:05', 365],
    ['6 min 30 s', 390],
    ['6\' 30"', 390],
    ['6.5 min', 390],
    ['90 sec', 90],
    ['1 h', 3600],
  ])('%s is %f s', (text, seconds) => {
    expectWithin(parseTime(text), seconds, 1e-9);
  });

  it.each(['6:75', '30 s 6 min', '6:30:10', '5 min 90 s'])('%s is refused', (text) => {
    expect(faultOf(() => parseTime(text))).not.toBe('none');
  });
});

describe('exposures', () => {
  it('12 lux s is 12 lux-seconds', () => {
    expectWithin(parseExposure('12 lux s'), 12, 1e-9);
    expectWithin(parseExposure('0.4 lx s'), 0.4, 1e-9);
  });
});

describe('dilutions', () => {
  it.each([
    ['1+9', 9],
    ['1 + 3', 3],
    ['2+7', 3.5],
    ['1+0', 0],
    ['stock', 0],
  ])('%s is 1 + %f', (text, partsWater) => {
    expect(parseDilution(text)).toBe(partsWater);
  });

  it('1:9 is asked about, never guessed', () => {
    expect(faultOf(() => parseDilution('1:9'))).toBe('ambiguous-dilution');
    expect(readingsOfColon('1:9')).toEqual({ asParts: 9, asOneInWhole: 8 });
  });

  it.each(['0+9', '1+', '9', 'a+b', '1+9+2', '1:0.5'])('%s is no dilution', (text) => {
    expect(faultOf(() => parseDilution(text))).not.toBe('none');
    expect(faultOf(() => readingsOfColon(text))).toBe('not-a-dilution');
  });
});

describe('mixing sheet', () => {
  it('a litre of 1+3 is 250 ml of concentrate in 750 ml of water', () => {
    const sheet = mixingSheet(1000, 3);
    expect(sheet.concentrate.millilitres).toBe(250);
    expect(sheet.water.millilitres).toBe(750);
    expectWithin(sheet.concentrate.usFluidOunces, 8.4535, 5e-5);
    expectWithin(sheet.total.usFluidOunces, 33.814, 5e-4);
  });

  it('parts always make the whole', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 1e5, noNaN: true }),
        fc.double({ min: 0, max: 100, noNaN: true }),
        (total, parts) => {
          const { concentrate, water } = mixingSheet(total, parts);
          expectWithin(concentrate.millilitres + water.millilitres, total, 1e-9 * total);
          expectWithin(water.millilitres / concentrate.millilitres, parts, 1e-6 * (1 + parts));
        },
      ),
    );
  });

  it.each([
    [0, 3],
    [NaN, 3],
    [Infinity, 3],
    [100, -1],
    [100, NaN],
  ])('%f ml of 1+%f is refused', (total, parts) => {
    expect(() => mixingSheet(total, parts)).toThrow(/must be/);
  });

  it('refuses a volume that is no number', () => {
    expect(faultOf(() => usFluidOunces(NaN))).toBe('not-a-number');
  });
});

describe('nonsense is refused with a reason', () => {
  it.each([
    ['', 'empty'],
    ['   ', 'empty'],
    ['ml', 'not-a-number'],
    ['12 parsnips', 'unknown-unit'],
    ['12 kg', 'wrong-dimension'],
    ['12 s', 'wrong-dimension'],
    ['1,000 ml', 'ambiguous-number'],
    ['-3 ml', 'out-of-range'],
    ['1e9 l', 'out-of-range'],
    ['1/0 l', 'not-a-number'],
    ['1.2.3 ml', 'not-a-number'],
    ['250 ml; import("x")', 'unknown-unit'],
    ['250 ml(1)', 'unknown-unit'],
    ['cos(0) ml', 'not-a-number'],
    ['250 constructor', 'unknown-unit'],
    ['250 __proto__', 'unknown-unit'],
    ['9'.repeat(200), 'too-long'],
  ])('"%s": %s', (text, fault) => {
    expect(faultOf(() => parseVolume(text))).toBe(fault);
  });

  it('whatever is typed, the answer is a number within limits or a QuantityError', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 30 }), (text) => {
        for (const parse of [parseVolume, parseTemperature, parseTime, parseExposure]) {
          try {
            expect(Number.isFinite(parse(text, undefined))).toBe(true);
          } catch (error) {
            expect(error).toBeInstanceOf(QuantityError);
            expect(error).toBeInstanceOf(WedgebookError);
          }
        }
      }),
      { numRuns: 2000 },
    );
  });
});
