/**
 * [IVES1920] Constants of one plate in two developers (published, public domain, from a secondary
 * copy; that k is per minute is assumed): pyro-metol c_inf 1.45, k 0.320, factor 1.40 for 7 °C;
 * chlorhydroquinone-metol 2.12, 0.400, factor 2.0. Contrasts are generated from the constants and
 * the constants must come back.
 */
import { describe, expect, it } from 'vitest';
import {
  activationEnergy,
  coefficientFromFactor,
  contrastOf,
  equivalentMinutes,
  fitContrastModel,
  fitSurface,
  minutesForContrast,
  surfaceCurve,
} from '@wedgebook/core';
import { expectWithin, printedTo } from '../within.ts';

const DEVELOPERS = [
  ['pyro-metol', 1.45, 0.32, 1.4, 1.62],
  ['chlorhydroquinone-metol', 2.12, 0.4, 2, 2.69],
] as const;

describe.each(DEVELOPERS)('[IVES1920] %s', (_, limit, rate, factor, coefficient) => {
  it('factor over 7 °C is the coefficient for 10 °C (derived)', () => {
    expectWithin(coefficientFromFactor(factor, 7), coefficient, printedTo(2));
  });

  it('constants come back from contrasts at five times', () => {
    const readings = [1, 2, 3, 5, 8].map((minutes) => ({
      minutes,
      contrast: { value: limit * (1 - Math.exp(-rate * minutes)), standardError: 0.01 },
    }));
    const fit = fitContrastModel(readings, { temperatureCoefficient: coefficient });
    if (fit.status !== 'ok') throw new Error(fit.reason);
    expect(fit.model.family).toBe('first-order');
    expectWithin(fit.model.contrastInfinity!.value, limit, 1e-6);
    expectWithin(fit.model.rate.value, rate, 1e-6);
    expectWithin(fit.model.delayMinutes.value, 0, 1e-6);
  });

  it('coefficient and constants come back when strips differ in temperature', () => {
    const q = coefficientFromFactor(factor, 7);
    const readings = [
      [2, 18],
      [4, 18],
      [8, 18],
      [2, 25],
      [4, 25],
      [6, 25],
    ].map(([minutes, celsius]) => {
      const time = minutes! * q ** ((celsius! - 18) / 10);
      const value = limit * (1 - Math.exp(-rate * time));
      return { minutes: minutes!, celsius: celsius!, contrast: { value, standardError: 0.01 } };
    });
    const fit = fitContrastModel(readings, {
      temperatureCoefficient: 2.2,
      referenceCelsius: 18,
      family: 'first-order',
    });
    if (fit.status !== 'ok') throw new Error(fit.reason);
    expect(fit.model.temperatureCoefficient.origin).toBe('fitted');
    expectWithin(fit.model.temperatureCoefficient.value, q, 1e-5);
    expectWithin(fit.model.contrastInfinity!.value, limit, 1e-5);
    // Half of the limit: ln 2 / k at 18 °C, shorter by the factor at 25 °C.
    const warm = minutesForContrast(fit.model, limit / 2, 25);
    if (warm.status !== 'ok') throw new Error('not reachable');
    expectWithin(warm.minutes.value, Math.LN2 / rate / factor, 1e-5);
  });
});

describe('[IVES1920] a surface of strips at two temperatures', () => {
  const [, limit, rate, factor] = DEVELOPERS[0];
  const q = coefficientFromFactor(factor, 7);
  const gammaAt = (minutes: number, celsius: number) =>
    limit * (1 - Math.exp(-rate * minutes * q ** ((celsius - 18) / 10)));
  const logExposures = Array.from({ length: 11 }, (_, i) => -3 + 0.3 * i);
  // Fog 0.32, as published; the toe is of our own making and does not touch the slope.
  const strip = (minutes: number, celsius: number) => ({
    minutes,
    celsius,
    readings: {
      logExposures,
      densities: logExposures.map(
        (x) => 0.32 + gammaAt(minutes, celsius) * 0.2 * Math.log1p(Math.exp((x + 2) / 0.2)),
      ),
      unexposedDensities: [0.32],
    },
  });

  it('gives the factor of 7 °C back, and the gamma of a time and temperature nobody tested', () => {
    const strips = [
      ...[1.5, 3, 6].map((minutes) => strip(minutes, 18)),
      ...[1, 2, 4].map((minutes) => strip(minutes, 25)),
    ];
    const fit = fitSurface(strips, { temperatureCoefficient: 2.5, referenceCelsius: 18 });
    if (fit.status !== 'ok') throw new Error(fit.reason);
    expect(fit.surface.temperatureOrigin).toBe('fitted');
    // What is known beforehand of the law draws it by a few parts in a thousand.
    expectWithin((fit.surface.parameters.at(-1) ?? 0) ** 0.7, factor, printedTo(2));
    const { curve } = surfaceCurve(fit.surface, 2.5, 21)!;
    expectWithin(contrastOf(curve, 'gamma')!.value, gammaAt(2.5, 21), 0.005);
  });
});

describe('[FH1905] temperature', () => {
  it('q = 2 is an activation energy of 51 kJ/mol near 20 to 30 °C (derived)', () => {
    expectWithin(activationEnergy(2, 20), 51, printedTo(0));
  });

  it('t2 = t1 q^((T1 - T2)/10)', () => {
    expectWithin(equivalentMinutes(10, 20, 24, 2.5), 10 * 2.5 ** -0.4, 1e-12);
    expectWithin(equivalentMinutes(equivalentMinutes(7, 20, 26, 2.1), 26, 20, 2.1), 7, 1e-12);
  });
});
