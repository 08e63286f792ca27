/**
 * [GSE1979] Classes of intensification and reduction, with numbers worked out from their formulas
 * (derived): b 0.10, k 1.17, r 1.20.
 */
import { describe, expect, it } from 'vitest';
import { seleniumDefaults } from '@wedgebook/data';
import { fitTreatment, treatedNetDensity, type GainLaw } from '@wedgebook/core';
import { expectWithin, printedTo } from '../within.ts';

const BASE = 0.1;
const GAIN = 1.17;
const power = (exponent: number): GainLaw => ({ family: 'power', exponent, referenceDensity: 1.2 });
const after = (density: number, law: GainLaw, gain = GAIN) =>
  BASE + treatedNetDensity(density - BASE, gain, law);

describe('[GSE1979] proportional, super- and subproportional intensification (derived table)', () => {
  it.each([
    [0.3, 0.334, 0.2635, 0.4348],
    [0.8, 0.919, 0.8353, 1.0122],
    [1.2, 1.387, 1.3648, 1.4096],
    [1.5, 1.738, 1.7893, 1.6883],
  ])('density %f becomes %f, %f, %f', (density, proportional, superproportional, sub) => {
    const law: GainLaw = { family: 'proportional', exponent: 1, referenceDensity: 1.2 };
    expectWithin(after(density, law), proportional, printedTo(4), 'proportional');
    expectWithin(after(density, power(1)), proportional, printedTo(4), 'power of 1');
    expectWithin(after(density, power(1.2)), superproportional, printedTo(4), 'm 1.2');
    expectWithin(after(density, power(0.8)), sub, printedTo(4), 'm 0.8');
  });

  it.each([
    ['proportional', [0.334, 0.919, 1.387, 1.738], 'proportional', 1],
    ['superproportional', [0.2635, 0.8353, 1.3648, 1.7893], 'power', 1.2],
    ['subproportional', [0.4348, 1.0122, 1.4096, 1.6883], 'power', 0.8],
  ] as const)('the fit tells the %s column from its four densities', (_, treated, family, m) => {
    const logExposures = [1, 2, 3, 4];
    const model = fitTreatment(
      [
        {
          strip: 'table',
          bath: { partsWater: 1, minutes: 6, celsius: 20 },
          untreated: { logExposures, densities: [0.3, 0.8, 1.2, 1.5], unexposedDensities: [BASE] },
          treated: { logExposures, densities: treated, unexposedDensities: [BASE] },
        },
      ],
      seleniumDefaults,
    );
    expect(model.law.family).toBe(family);
    expectWithin(model.law.exponent.value, m, 5e-4, 'exponent');
    expectWithin(model.treated[0]!.gain.value, GAIN, 5e-4, 'gain');
  });

  it('the plain power law lowers a thin density, which no intensifier does; the safe form cannot', () => {
    expect(after(0.3, power(1.2))).toBeLessThan(0.3);
    const safe: GainLaw = { family: 'intensifier-safe', exponent: 1.2, referenceDensity: 1.2 };
    for (let density = BASE; density <= 3; density += 0.01) {
      expect(after(density, safe)).toBeGreaterThanOrEqual(density - 1e-12);
    }
    // Both agree at the reference density.
    expectWithin(treatedNetDensity(1.2, GAIN, safe), GAIN * 1.2, 1e-12);
  });
});

describe('[GSE1979] reducers', () => {
  it('a proportional reducer of one half takes half the silver everywhere (published, 1918)', () => {
    const law: GainLaw = { family: 'proportional', exponent: 1, referenceDensity: 1.2 };
    for (const u of [0.1, 0.7, 2]) expectWithin(treatedNetDensity(u, 0.5, law), u / 2, 1e-15);
  });

  it('a surface reducer takes the same everywhere and stops at the base', () => {
    const law: GainLaw = { family: 'shift', exponent: 1, referenceDensity: 1.2 };
    const gain = 1 - 0.3 / 1.2; // takes 0.30
    expectWithin(treatedNetDensity(1.5, gain, law), 1.2, 1e-12);
    expectWithin(treatedNetDensity(0.5, gain, law), 0.2, 1e-12);
    expect(treatedNetDensity(0.2, gain, law)).toBe(0);
  });
});
