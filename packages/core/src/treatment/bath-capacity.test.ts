import { describe, expect, it } from 'vitest';
import { expectWithin, printedTo } from '../../../../test/within.ts';
import { InvalidArgumentError } from '../errors.ts';
import { bathCapacity, type SeleniumBath } from './bath-capacity.ts';

const BATH: SeleniumBath = {
  volumeMillilitres: 1000,
  partsWater: 3,
  seleniumGramsPerLitre: 40,
  films: [],
};

describe('capacity of a selenium bath', () => {
  it('is whole before the first film', () => {
    const { left, slower, mixedGrams } = bathCapacity(BATH);
    expect(mixedGrams).toBe(10);
    expect(left).toEqual([1, 1, 1]);
    expect(slower).toEqual([1, 1, 1]);
  });

  it('falls by 0.476 g a square metre at density 1 and 1.3 g of silver (derived)', () => {
    const films = [{ areaSquareCentimetres: 1e4, meanNetDensity: 1 }];
    const { left, slower } = bathCapacity({ ...BATH, films });
    expectWithin(1 - left![1], 0.0476, printedTo(4), 'part taken');
    expectWithin(slower![1], 1 / left![1], 1e-12, 'slower');
    expect(left![0]).toBeGreaterThan(left![1]);
    expect(left![2]).toBeLessThan(left![1]);
  });

  it('is a matter of grams alone where the concentrate is not known', () => {
    const films = [{ areaSquareCentimetres: 1e4, meanNetDensity: 1 }];
    const capacity = bathCapacity({ ...BATH, seleniumGramsPerLitre: null, films });
    expect(capacity).toMatchObject({ mixedGrams: null, left: null, slower: null });
    expect(capacity.used.seleniumGrams[1]).toBeGreaterThan(0.4);
  });

  it('never falls below nothing', () => {
    const films = [{ areaSquareCentimetres: 1e6, meanNetDensity: 2 }];
    const { left, slower } = bathCapacity({ ...BATH, films });
    expect(left).toEqual([0, 0, 0]);
    expect(slower).toEqual([Infinity, Infinity, Infinity]);
  });

  it('slows down by the exponent of the concentration', () => {
    const films = [{ areaSquareCentimetres: 5e4, meanNetDensity: 1.5 }];
    const { left, slower } = bathCapacity({ ...BATH, films }, 2);
    expectWithin(slower![1], left![1] ** -2, 1e-12, 'slower');
  });

  it.each([
    { volumeMillilitres: 0 },
    { volumeMillilitres: NaN },
    { partsWater: -1 },
    { seleniumGramsPerLitre: 0 },
    { seleniumGramsPerLitre: NaN },
    { films: [{ areaSquareCentimetres: -1, meanNetDensity: 1 }] },
  ])('refuses %o', (changes) => {
    expect(() => bathCapacity({ ...BATH, ...changes })).toThrow(InvalidArgumentError);
    expect(() => bathCapacity(BATH, 0)).toThrow(InvalidArgumentError);
  });
});
