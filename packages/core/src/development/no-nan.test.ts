/** Whatever strips are given, no result of this room holds a NaN or an infinity. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { densityBand } from '../curve/index.ts';
import {
  developmentOrBath,
  developmentPlan,
  fitContrastModel,
  fitSpeedModel,
  fitSurface,
  nextDevelopment,
  surfaceCurve,
  zoneLadder,
} from './index.ts';

/** Paths of numbers that are not finite. */
function unfinite(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path}: ${value}`];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => unfinite(inner, `${path}.${key}`));
}

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const reading = fc.record({
  minutes: between(0.5, 60),
  celsius: fc.constantFrom(18, 20, 24),
  contrast: fc.record({
    value: between(0.02, 2),
    standardError: fc.option(between(0.002, 0.1)),
  }),
});

describe('development', () => {
  it('plans any contrasts without a NaN', () => {
    fc.assert(
      fc.property(
        fc.array(reading, { minLength: 1, maxLength: 6 }),
        between(0.2, 1.2),
        (readings, normalContrast) => {
          const fit = fitContrastModel(readings, { temperatureCoefficient: 2.5 });
          expect(unfinite(fit)).toEqual([]);
          if (fit.status !== 'ok') {
            expect(fit.warnings.length).toBeGreaterThan(0);
            return;
          }
          const speed = fitSpeedModel(
            readings.map(({ minutes, celsius }) => ({
              minutes,
              celsius,
              logExposure: { value: -2, standardError: null },
            })),
            { temperatureCoefficient: 2.5 },
          );
          const options = { normalContrast, speed };
          const changes = [-3, -2, -1, 0, 1, 2, 3];
          expect(unfinite(developmentPlan(fit.model, { ...options, changes }))).toEqual([]);
          expect(unfinite(developmentOrBath(fit.model, { ...options, greatestGain: 1.2 }))).toEqual(
            [],
          );
          expect(unfinite(nextDevelopment(fit.model, { contrasts: [normalContrast] }))).toEqual([]);
        },
      ),
      { numRuns: 150 },
    );
  }, 60_000);

  it('draws any surface without a NaN', () => {
    const strip = fc.record({
      minutes: between(1, 40),
      gamma: between(0.1, 1.5),
      toe: between(-2.4, -1.6),
      fog: between(0, 0.4),
      noise: fc.array(between(-0.03, 0.03), { minLength: 11, maxLength: 11 }),
    });
    const logExposures = Array.from({ length: 11 }, (_, i) => -3 + 0.3 * i);
    fc.assert(
      fc.property(fc.array(strip, { minLength: 2, maxLength: 4 }), (made) => {
        const strips = made.map(({ minutes, gamma, toe, fog, noise }) => ({
          minutes,
          readings: {
            logExposures,
            densities: logExposures.map(
              (x, i) => fog + gamma * 0.2 * Math.log1p(Math.exp((x - toe) / 0.2)) + (noise[i] ?? 0),
            ),
          },
        }));
        const fit = fitSurface(strips, { temperatureCoefficient: 2.5 });
        expect(unfinite(fit)).toEqual([]);
        if (fit.status !== 'ok') return;
        const cut = surfaceCurve(fit.surface, 10);
        expect(unfinite(cut)).toEqual([]);
        if (cut === null) return;
        expect(unfinite(densityBand(cut.curve, [-4, -2, 0, 1]))).toEqual([]);
        expect(unfinite(zoneLadder(cut.curve, { zoneOneLogExposure: -2 }))).toEqual([]);
      }),
      { numRuns: 40 },
    );
  }, 60_000);
});
