/**
 * [IEC61966] The transfer curve of sRGB. Known: published (IEC 61966-2-1); the pairs are derived from it.
 */
import { describe, expect, it } from 'vitest';
import { densityFromLightness, displayGrey } from '@wedgebook/core';
import { expectWithin, printedTo } from '../within.ts';

describe('[IEC61966] grey of a print density', () => {
  it('18 % of the light is grey 117.6, and L* 50 is grey 118.9 (derived)', () => {
    expectWithin(displayGrey(-Math.log10(0.18)), 255 * (1.055 * 0.18 ** (1 / 2.4) - 0.055), 1e-9);
    expectWithin(displayGrey(-Math.log10(0.18)), 117.6, printedTo(1));
    expectWithin(displayGrey(densityFromLightness(50)), 118.9, printedTo(1));
  });

  it('the two branches meet at 0.0031308 within the rounding of the standard', () => {
    const knee = -Math.log10(0.0031308);
    expectWithin(displayGrey(knee - 1e-9), displayGrey(knee + 1e-9), 1e-4);
    expectWithin(displayGrey(knee), 255 * 0.04045, 0.001);
  });

  it('white is 255, nothing is lighter, and a paper white may be the white of the screen', () => {
    expectWithin(displayGrey(0), 255, 1e-9);
    expectWithin(displayGrey(-0.3), 255, 1e-9);
    expectWithin(displayGrey(0.06, { whiteDensity: 0.06 }), 255, 1e-9);
    expect(() => displayGrey(NaN)).toThrow();
  });
});
