/**
 * Generated study, named as such: the true law and dose-response are known, readings carry normal
 * errors of 0.01 and are printed to two decimals, and 95 % intervals must cover the truth. The
 * tolerance is three standard errors of a binomial share; the seed is fixed.
 */
import { describe, expect, it } from 'vitest';
import { seleniumDefaults } from '@wedgebook/data';
import {
  fitTreatment,
  gainAtBath,
  nominalTablet,
  treatedNetDensity,
  type Estimate,
  type GainLaw,
  type TreatedStrip,
} from '@wedgebook/core';
import { deviates } from '../deviates.ts';

const REPLICATES = 400;
const NOISE = 0.01;
const BASE = 0.1;
const MAXIMUM_GAIN = 1.22;
const HALF_DOSE = 0.7;
const MINUTES = [1, 2, 4, 8];
const logExposures = nominalTablet({ steps: 21, increment: 0.15 }).map((density) => -density);
const net = (x: number) => 0.6 * 0.25 * Math.log1p(Math.exp((x + 2.2) / 0.25));
const gainAt = (minutes: number) => 1 + (MAXIMUM_GAIN - 1) * (1 - 2 ** (-minutes / 2 / HALF_DOSE));

function trial(law: GainLaw, noise: () => number): TreatedStrip[] {
  const read = (density: number) => Math.round(100 * (density + NOISE * noise())) / 100;
  const strip = (densityOf: (x: number) => number) => ({
    logExposures,
    densities: logExposures.map((x) => read(BASE + densityOf(x))),
    unexposedDensities: [read(BASE), read(BASE), read(BASE)],
  });
  const untreated = strip(net);
  return MINUTES.map((minutes) => ({
    strip: `${minutes} min`,
    bath: { partsWater: 1, minutes, celsius: 20 },
    untreated,
    untreatedStrip: 'untreated',
    treated: strip((x) => treatedNetDensity(net(x), gainAt(minutes), law)),
  }));
}

/** Share of replicates whose interval of 1.96 standard errors holds the truth. */
function coverage(pairs: readonly (readonly [Estimate, number])[]): number {
  const held = pairs.filter(
    ([{ value, standardError }, truth]) => Math.abs(value - truth) <= 1.96 * standardError!,
  );
  return held.length / pairs.length;
}

function expectCovers(share: number, count: number, what: string): void {
  const slack = 3 * Math.sqrt((0.95 * 0.05) / count);
  console.log(`${what}: ${(100 * share).toFixed(1)} % of ${count}`);
  expect(share, what).toBeGreaterThan(0.95 - slack);
  expect(share, what).toBeLessThanOrEqual(1);
}

describe(
  'generated study: 95 % intervals of treatment cover the truth',
  { timeout: 60_000 },
  () => {
    it.each([
      ['proportional', { family: 'proportional', exponent: 1, referenceDensity: 1.2 }],
      ['power 1.25', { family: 'power', exponent: 1.25, referenceDensity: 1.2 }],
      [
        'intensifier-safe 1.6',
        { family: 'intensifier-safe', exponent: 1.6, referenceDensity: 1.2 },
      ],
    ] as const)('true law %s', (name, law) => {
      const noise = deviates(20261125);
      const fits = Array.from({ length: REPLICATES }, () =>
        fitTreatment(trial(law, noise), seleniumDefaults, { law: law.family }),
      );
      MINUTES.forEach((minutes, i) => {
        expectCovers(
          coverage(fits.map((fit) => [fit.treated[i]!.gain, gainAt(minutes)])),
          REPLICATES,
          `${name}, gain at ${minutes} min`,
        );
      });
      const firstOrder = fits.map((fit) => fit.doseResponse);
      expectCovers(
        coverage(firstOrder.map((r) => [r.maximumGain, MAXIMUM_GAIN])),
        REPLICATES,
        `${name}, greatest gain`,
      );
      expectCovers(
        coverage(firstOrder.map((r) => [r.halfDose, HALF_DOSE])),
        REPLICATES,
        `${name}, half dose`,
      );
      const bath = { partsWater: 1, minutes: 5, celsius: 20 };
      expectCovers(
        coverage(firstOrder.map((r) => [gainAtBath(r, bath).gain, gainAt(5)])),
        REPLICATES,
        `${name}, gain at 5 min, untested`,
      );
      if (law.family !== 'proportional') {
        expectCovers(
          coverage(fits.map((fit) => [fit.law.exponent, law.exponent])),
          REPLICATES,
          `${name}, exponent`,
        );
      }
    });

    it.each([
      ['proportional', 1],
      ['power', 1.03],
      ['power', 1.06],
    ] as const)('law not given, true law %s %f: errors include its choice', (family, exponent) => {
      const noise = deviates(20261126);
      const law = { family, exponent, referenceDensity: 1.2 };
      const fits = Array.from({ length: REPLICATES }, () =>
        fitTreatment(trial(law, noise), seleniumDefaults),
      );
      const kept = fits.filter((fit) => fit.law.family === 'proportional').length;
      console.log(`${family} ${exponent}: taken for proportional in ${kept} of ${REPLICATES}`);
      MINUTES.forEach((minutes, i) => {
        expectCovers(
          coverage(fits.map((fit) => [fit.treated[i]!.gain, gainAt(minutes)])),
          REPLICATES,
          `${family} ${exponent}, gain at ${minutes} min, law chosen from the readings`,
        );
      });
    });

    it('the law is recognised by AICc, and the plainest is kept where it is true', () => {
      const noise = deviates(7);
      const pick = (law: GainLaw) =>
        Array.from(
          { length: 40 },
          () => fitTreatment(trial(law, noise), seleniumDefaults).law.family,
        ).filter((family) => family === law.family).length;
      // AICc with a margin of 4 gives up the plain law in a few per cent of cases by chance.
      expect(pick({ family: 'proportional', exponent: 1, referenceDensity: 1.2 })).toBeGreaterThan(
        33,
      );
      expect(pick({ family: 'power', exponent: 1.25, referenceDensity: 1.2 })).toBeGreaterThan(38);
      expect(
        pick({ family: 'intensifier-safe', exponent: 1.8, referenceDensity: 1.2 }),
      ).toBeGreaterThan(33);
    });
  },
);
