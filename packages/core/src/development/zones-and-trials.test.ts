import { describe, expect, it } from 'vitest';
import { deviates } from '../../../../test/deviates.ts';
import { expectWithin, printedTo } from '../../../../test/within.ts';
import { fitCurve, type CharacteristicCurve } from '../curve/index.ts';
import { InvalidArgumentError } from '../errors.ts';
import { generatedPaper } from '../paper/index.ts';
import { LOG_STOP } from '../readings/index.ts';
import {
  fitContrastModel,
  nextDevelopment,
  zoneLadder,
  zoneName,
  type ContrastModel,
} from './index.ts';

/**
 * Published zone series of a fine-grained film, condenser aim: net densities of zones 0 to X
 * (secondary copy).
 */
const SERIES = [0.02, 0.11, 0.21, 0.34, 0.48, 0.62, 0.76, 0.97, 1.18, 1.33, 1.44];
const BASE_FOG = 0.1;

function curveOf(series: readonly number[]): CharacteristicCurve {
  const fit = fitCurve(
    {
      logExposures: series.map((_, zone) => LOG_STOP * (zone - 1)),
      densities: series.map((net) => BASE_FOG + net),
    },
    { family: 'as-drawn' },
  );
  if (fit.status !== 'ok') throw new Error(fit.reason);
  return fit.curve;
}

describe('zone ladder', () => {
  it('[published zone series] gives every zone its density back, a stop apart', () => {
    const rungs = zoneLadder(curveOf(SERIES), { zoneOneLogExposure: 0 });
    expect(rungs.map(({ zone }) => zoneName(zone))).toEqual(
      '0 I II III IV V VI VII VIII IX X'.split(' '),
    );
    rungs.forEach(({ density, zone }) => {
      expectWithin(density.value, BASE_FOG + (SERIES[zone] ?? 0), printedTo(2), zoneName(zone));
    });
    expect(rungs.every(({ print }) => print === null)).toBe(true);
  });

  it('[derived] the slope from zone I to zone VIII is 0.508 by straight interpolation', () => {
    const rungs = zoneLadder(curveOf(SERIES), { zoneOneLogExposure: 0, zones: [1, 8] });
    const [one, eight] = rungs.map(({ netDensity }) => netDensity);
    expectWithin(((eight ?? 0) - (one ?? 0)) / 2.1, 0.508, 0.002); // 2.10 for 7 stops of 0.30
  });

  it('[ISO6846], [CIE15] prints zone VIII just darker than white: net 0.04, L* 91.4 on white 0.06', () => {
    const [eight] = zoneLadder(curveOf(SERIES), {
      zoneOneLogExposure: 0,
      zones: [8],
      paper: generatedPaper(1.07),
    });
    expectWithin(eight!.print!.density.value, 0.1, 1e-9);
    expectWithin(eight!.print!.lightness.value, 116 * 10 ** (-0.1 / 3) - 16, 1e-9);
    expectWithin(eight!.print!.lightness.value, 91.4, printedTo(1));
  });

  it('prints zone I at 90 % of the maximum where the range from I to VIII is the paper’s scale', () => {
    const [one] = zoneLadder(curveOf(SERIES), {
      zoneOneLogExposure: 0,
      zones: [1],
      paper: generatedPaper(1.07), // 1.18 - 0.11
      paperWhiteDensity: 0,
    });
    expectWithin(one!.print!.density.value, 0.9 * 2, 1e-6);
  });

  it('counts the error of the Callier factor, and none at the zone that prints white', () => {
    const normal = deviates(23);
    const noisy = fitCurve({
      logExposures: SERIES.map((_, zone) => LOG_STOP * (zone - 1)),
      densities: SERIES.map((net) => BASE_FOG + net + 0.01 * normal()),
    });
    if (noisy.status !== 'ok') throw new Error(noisy.reason);
    const options = { zoneOneLogExposure: 0, paper: generatedPaper(1.3), zones: [2, 5, 8] };
    const printsOf = (callierFactor: number, callierFactorError: number | null) =>
      zoneLadder(noisy.curve, { ...options, callierFactor, callierFactorError }).map(
        ({ print }) => print!.density,
      );
    const [stated, without] = [printsOf(1.25, 0.02), printsOf(1.25, null)];
    const drawn = Array.from({ length: 400 }, () => printsOf(1.25 + 0.02 * normal(), null));
    [0, 1].forEach((i) => {
      const values = drawn.map((run) => run[i]!.value);
      const mean = values.reduce((a, b) => a + b, 0) / values.length;
      const scatter = Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / 399);
      const byFactor = Math.sqrt(stated[i]!.standardError! ** 2 - without[i]!.standardError! ** 2);
      // 400 draws know their scatter to 3.5 %.
      expectWithin(byFactor / scatter, 1, 0.15);
    });
    expectWithin(stated[2]!.standardError!, without[2]!.standardError!, 1e-12);
  });

  it('raises the shadows with flare and leaves the highlights', () => {
    const curve = curveOf(SERIES);
    const plain = zoneLadder(curve, { zoneOneLogExposure: 0 });
    const flared = zoneLadder(curve, { zoneOneLogExposure: 0, flareExposure: 1 });
    expectWithin(flared[1]!.logExposure, LOG_STOP, 1e-12); // one stop: as much again
    expectWithin(flared[1]!.density.value, plain[2]!.density.value, 1e-9);
    expect(flared[9]!.density.value - plain[9]!.density.value).toBeLessThan(0.01);
  });

  it('says which zones lie outside the readings', () => {
    const rungs = zoneLadder(curveOf(SERIES), { zoneOneLogExposure: 1.5 * LOG_STOP });
    expect(rungs.filter(({ extrapolated }) => extrapolated).map(({ zone }) => zone)).toEqual([
      9, 10,
    ]);
  });

  it.each([
    ['zoneOneLogExposure', { zoneOneLogExposure: NaN }],
    ['zones', { zoneOneLogExposure: 0, zones: [NaN] }],
    ['flareExposure', { zoneOneLogExposure: 0, flareExposure: -1 }],
    ['callierFactor', { zoneOneLogExposure: 0, callierFactor: 0 }],
  ])('refuses a bad %s', (name, options) => {
    expect(() => zoneLadder(curveOf(SERIES), options)).toThrow(InvalidArgumentError);
    expect(() => zoneLadder(curveOf(SERIES), options)).toThrow(name);
  });
});

describe('what to test next', () => {
  const law = (t: number): number => 0.95 * (1 - Math.exp(-0.12 * (t - 0.8)));
  const line = (t: number): number => 0.1 + 0.28 * Math.log(t);
  const modelOf = (
    family: ContrastModel['family'],
    times: readonly number[],
    of: (t: number) => number,
  ): ContrastModel => {
    const fit = fitContrastModel(
      times.map((minutes) => ({ minutes, contrast: { value: of(minutes), standardError: 0.015 } })),
      { temperatureCoefficient: 2.5, family },
    );
    if (fit.status !== 'ok') throw new Error(fit.reason);
    return fit.model;
  };

  it.each([
    ['first-order', law, [4, 7, 11, 15]],
    ['log-linear', line, [4, 7, 11, 15]],
  ] as const)('says what a fit with the new strip would: %s', (family, of, times) => {
    const now = modelOf(family, times, of);
    const contrasts = [0.5, 0.6];
    const next = nextDevelopment(now, { contrasts, candidates: [20] });
    // The same strip, fitted: another way to the same error.
    const after = nextDevelopment(modelOf(family, [...times, 20], of), { contrasts })!;
    expectWithin(next!.trials[0]!.errorAfter, after.errorNow, 0.01 * after.errorNow);
    expect(after.errorNow).toBeLessThan(next!.errorNow);
  });

  it('asks for a long time where only short ones were tried and the plan is long', () => {
    const model = modelOf('first-order', [4, 5, 6], law);
    const next = nextDevelopment(model, { contrasts: [law(12)] });
    expect(next!.trials[0]!.minutes).toBeGreaterThan(10);
    const errors = next!.trials.map(({ errorAfter }) => errorAfter);
    expect(errors).toEqual([...errors].sort((a, b) => a - b));
    expect(errors.at(-1)).toBeLessThanOrEqual(next!.errorNow);
  });

  it('has no answer for a guess, or where the plan is out of reach', () => {
    const guess = fitContrastModel(
      [{ minutes: 8, contrast: { value: 0.5, standardError: 0.01 } }],
      {
        temperatureCoefficient: 2.5,
      },
    );
    if (guess.status !== 'ok') throw new Error(guess.reason);
    expect(nextDevelopment(guess.model, { contrasts: [0.6] })).toBeNull();
    const model = modelOf('first-order', [4, 7, 11, 15], law);
    expect(nextDevelopment(model, { contrasts: [2] })).toBeNull();
  });

  it.each([NaN, 0, 2])('refuses an error of %f', (contrastError) => {
    const model = modelOf('first-order', [4, 7, 11, 15], law);
    expect(() => nextDevelopment(model, { contrasts: [0.6], contrastError })).toThrow(
      InvalidArgumentError,
    );
  });
});
