import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import {
  exposureScaleWithFlash,
  flareGradient,
  flareOfFactor,
  highlightExposureChange,
  stopsBetween,
  testStrip,
  timeForDensity,
  timeForMagnification,
  timeInStops,
  withFlare,
} from './index.ts';

describe('exposure arithmetic', () => {
  it('adds up: stops there and back, densities there and back', () => {
    expectWithin(timeInStops(timeInStops(7, 1.3), -1.3), 7, 1e-12);
    expectWithin(timeForDensity(timeForDensity(7, 0.4, 1.1), 1.1, 0.4), 7, 1e-12);
    expectWithin(stopsBetween(8, timeInStops(8, 0.7)), 0.7, 1e-12);
    expectWithin(timeForMagnification(timeForMagnification(7, 2, 5), 5, 2), 7, 1e-12);
  });
  it('covers a test strip so that the sum of the added times is the darkest patch', () => {
    const patches = testStrip(4, 1 / 3, 7);
    const sum = patches.reduce((total, patch) => total + patch.additionalSeconds, 0);
    expectWithin(sum, patches.at(-1)?.totalSeconds ?? NaN, 1e-12);
    expectWithin(patches[3]?.totalSeconds ?? NaN, 8, 1e-12);
  });
  it('gives one stop for 0.30 of density', () => {
    expectWithin(highlightExposureChange(1, 1.30103), 1, 1e-6);
  });
  it.each([NaN, 0, -1, Infinity])('refuses a time of %f', (seconds) => {
    expect(() => timeForDensity(seconds, 0, 1)).toThrow();
    expect(() => timeInStops(seconds, 1)).toThrow();
    expect(() => stopsBetween(seconds, 1)).toThrow();
    expect(() => timeForMagnification(seconds, 1, 2)).toThrow();
    expect(() => testStrip(seconds, 1, 5)).toThrow();
  });
  it('refuses strips of one patch and densities that are no numbers', () => {
    expect(() => testStrip(4, 0.5, 1)).toThrow();
    expect(() => timeForDensity(4, NaN, 1)).toThrow();
    expect(() => highlightExposureChange(NaN, 1)).toThrow();
  });
});

describe('flare', () => {
  it('has the gradient of its sum', () => {
    const h = 1e-6;
    for (const x of [-2, -1, 0]) {
      const difference = (withFlare(x + h, 0.05) - withFlare(x - h, 0.05)) / (2 * h);
      expectWithin(flareGradient(x, 0.05), difference, 1e-8);
    }
  });
  it('turns the scene ratio into the lower one it was made for', () => {
    const flare = flareOfFactor(160, 2.5);
    expectWithin((1 + flare) / (1 / 160 + flare), 64, 1e-9);
  });
  it('refuses what it cannot mean', () => {
    expect(() => withFlare(0, -1)).toThrow();
    expect(() => withFlare(NaN, 0)).toThrow();
    expect(() => flareOfFactor(2, 3)).toThrow();
    expect(() => exposureScaleWithFlash(1, 1)).toThrow();
    expect(() => exposureScaleWithFlash(NaN, 0.5)).toThrow();
  });
});
