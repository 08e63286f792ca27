/** [CIE15] Lightness of print densities. */
import { describe, expect, it } from 'vitest';
import { densityFromLightness, lightnessFromDensity } from '@wedgebook/core';
import { expectWithin, printedTo } from '../within.ts';

describe('[CIE15] section 8.2.1.1, L*', () => {
  it('18 % reflectance is density 0.744727 and L* 49.496 (derived)', () => {
    expectWithin(-Math.log10(0.18), 0.744727, printedTo(6));
    expectWithin(lightnessFromDensity(0.744727), 49.496, printedTo(3));
  });

  it('a perfect white is L* 100, and L* 8 is the knee at Y/Yn = 216/24389', () => {
    expect(lightnessFromDensity(0)).toBe(100);
    expectWithin(lightnessFromDensity(-Math.log10(216 / 24389)), 8, 1e-12);
  });

  it('density 2.1 is L* 7.18, below the knee (derived: 24389/27 10^-2.1)', () => {
    expectWithin(lightnessFromDensity(2.1), (24389 / 27) * 10 ** -2.1, 1e-12);
    expectWithin(lightnessFromDensity(2.1), 7.175, printedTo(3));
  });

  it.each([0.05, 0.7, 1.5, 2.05, 2.4])('comes back from density %f', (density) => {
    expectWithin(densityFromLightness(lightnessFromDensity(density)), density, 1e-12);
  });
});
