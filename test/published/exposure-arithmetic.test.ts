/**
 * Exposure at the enlarger. Known: published for the time over density (L. P. Clerc, Photography:
 * 12 s at 1.5 becomes 30 s at 1.9), for magnification, stops and test strip (teaching tables);
 * derived for flare (160:1 with a factor 2.5) and pre-flash (R 105 with half the threshold).
 */
import { describe, it } from 'vitest';
import {
  exposureScaleWithFlash,
  flareOfFactor,
  testStrip,
  timeForDensity,
  timeForMagnification,
  timeInStops,
  withFlare,
} from '@wedgebook/core';
import { expectWithin, printedTo } from '../within.ts';

describe('[CLERC] time and density', () => {
  it('published: 12 s at density 1.5 is 30 s at 1.9, to the second', () => {
    expectWithin(timeForDensity(12, 1.5, 1.9), 30, printedTo(0));
    expectWithin(timeForDensity(12, 1.5, 1.9), 30.14, printedTo(2));
  });
});

describe('magnification and stops (published)', () => {
  it('from 2 to 4 times and from 2 to 2.8 times', () => {
    expectWithin(timeForMagnification(1, 2, 4), 2.7778, printedTo(4));
    expectWithin(timeForMagnification(1, 2, 2.8), 1.6044, printedTo(4));
  });
  it('half a stop more on 16 s is 6.6 s', () => {
    expectWithin(timeInStops(16, 0.5) - 16, 6.6, printedTo(1));
  });
  it('on a base of 25.4 s, a dodge of a third is 5.2 s and a burn of a half is 10.5 s', () => {
    expectWithin(25.4 - timeInStops(25.4, -1 / 3), 5.2, printedTo(1));
    expectWithin(timeInStops(25.4, 0.5) - 25.4, 10.5, printedTo(1));
  });
  it('a test strip from 4 s in thirds of a stop', () => {
    const printed = [4, 5.04, 6.35, 8, 10.08, 12.7, 16, 20.16, 25.4, 32];
    testStrip(4, 1 / 3, 10).forEach((patch, i) => {
      expectWithin(patch.totalSeconds, printed[i]!, printedTo(2));
    });
  });
});

describe('flare and flash (derived)', () => {
  it('160:1 with a flare factor of 2.5', () => {
    expectWithin(flareOfFactor(160, 2.5), 0.00952381, printedTo(8));
  });
  it('160:1 with flare equal to the lowest luminance spans log10(161 / 2) = 1.906', () => {
    expectWithin(withFlare(Math.log10(160), 1) - withFlare(0, 1), 1.906, printedTo(3));
  });
  it('R 105 with a flash of half the threshold exposure becomes R 133.1', () => {
    expectWithin(100 * exposureScaleWithFlash(1.05, 0.5), 133.1, printedTo(1));
  });
});
