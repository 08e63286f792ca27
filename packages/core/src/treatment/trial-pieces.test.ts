/**
 * Generated study: frames read at two spots before and after a bath of known gain, every reading
 * with an error of 0.01, as a densitometer in practice has. Named as generated; the truth is the
 * outside check.
 */
import { describe, expect, it } from 'vitest';
import { deviates } from '../../../../test/deviates.ts';
import { ansiGradeTable, seleniumDefaults } from '../../../../test/selenium-bath.ts';
import { expectWithin } from '../../../../test/within.ts';
import type { Estimate } from '../estimate.ts';
import { fitTreatment, type TreatedStrip } from './fit-treatment.ts';
import { PROPORTIONAL, treatedNetDensity, type GainLaw } from './gain-law.ts';
import { planTreatment } from './plan-treatment.ts';

const REPLICATES = 400;
const ERROR = 0.01;
const SPOTS = [0.35, 1];

/** Gain of first order, the greatest 1.2, half dose 0.7. */
const gainAt = (minutes: number): number => 1 + 0.2 * (1 - 2 ** (-minutes / 2 / 0.7));

function pieces(
  minutes: readonly number[],
  deviate: () => number,
  law: GainLaw = PROPORTIONAL,
): TreatedStrip[] {
  const read = (net: number): number => 0.12 + net + ERROR * deviate();
  const strip = (gain: number) => ({
    logExposures: SPOTS.map((_, i) => i),
    densities: SPOTS.map((net) => read(treatedNetDensity(net, gain, law))),
    unexposedDensities: [read(0)],
  });
  return minutes.map((time, i) => ({
    strip: `piece ${i}`,
    bath: { partsWater: 1, minutes: time, celsius: 20 },
    untreated: strip(1),
    treated: strip(gainAt(time)),
  }));
}

const covers = ({ value, standardError }: Estimate, truth: number): boolean =>
  Math.abs(value - truth) <= 1.96 * (standardError ?? 0);

describe('trial pieces of two spots', { timeout: 60_000 }, () => {
  it('one piece: 95 % intervals of its gain cover the truth in about 95 % of cases', () => {
    const deviate = deviates(41);
    let covered = 0;
    for (let i = 0; i < REPLICATES; i++) {
      const { treated } = fitTreatment(pieces([6.5], deviate), seleniumDefaults);
      if (covers(treated[0]!.gain, gainAt(6.5))) covered++;
    }
    console.log(`gain of one piece: covered in ${((100 * covered) / REPLICATES).toFixed(1)} %`);
    // Binomial error of 400 cases at 95 % is 1.1 %; three of them below, and no needless width.
    expect(covered / REPLICATES).toBeGreaterThan(0.917);
  });

  it.each([0.8, 1.2])('one piece of a bath by the power %f: the error knows of other laws', (m) => {
    const deviate = deviates(44);
    const law = { family: 'power', exponent: m, referenceDensity: 1.2 } as const;
    let covered = 0;
    for (let i = 0; i < REPLICATES; i++) {
      const model = fitTreatment(pieces([6.5], deviate, law), seleniumDefaults);
      expect(model.law.reason).toBe('too-few');
      if (covers(model.treated[0]!.gain, gainAt(6.5))) covered++;
    }
    console.log(`power ${m}, gain of one piece: ${((100 * covered) / REPLICATES).toFixed(1)} %`);
    expect(covered / REPLICATES).toBeGreaterThan(0.917);
  });

  it('two doses: both gains are covered, and the greatest gain with its rate told apart', () => {
    const deviate = deviates(42);
    let covered = 0;
    let fitted = 0;
    for (let i = 0; i < REPLICATES; i++) {
      const model = fitTreatment(pieces([1.5, 8], deviate), seleniumDefaults);
      covered += model.treated.filter(({ gain, bathMinutes }) =>
        covers(gain, gainAt(bathMinutes)),
      ).length;
      if (model.doseResponse.origin.maximumGain === 'fitted') fitted++;
    }
    console.log(`gains of two doses: covered in ${((50 * covered) / REPLICATES).toFixed(1)} %`);
    expect(covered / (2 * REPLICATES)).toBeGreaterThan(0.917);
    expect(fitted / REPLICATES).toBeGreaterThan(0.9);
  });

  it('the interval of planned minutes covers the minutes that the true bath needs', () => {
    const deviate = deviates(43);
    // A gain of 1.12: 1.4 log2(1 / (1 - 0.12 / 0.2)) minutes in 1+1 (derived).
    const truth = 1.4 * Math.log2(1 / (1 - 0.12 / 0.2));
    let [planned, covered] = [0, 0];
    for (let i = 0; i < REPLICATES / 2; i++) {
      const model = fitTreatment(pieces([1, 2, 4, 8, 8], deviate), seleniumDefaults);
      const { reachable, minutesError } = planTreatment(
        model,
        { densityRange: 0.75, shadowNetDensity: 0.15 },
        { printingRange: 0.75 * 1.12 },
        { partsWater: 1, celsius: 20 },
        { gradeTable: ansiGradeTable },
      );
      if (!reachable || minutesError === null) continue;
      planned++;
      const [least, most] = minutesError.plausible;
      if (truth >= least && truth <= (most ?? Infinity)) covered++;
    }
    console.log(`planned ${planned} times, covered ${((100 * covered) / planned).toFixed(1)} %`);
    expect(planned).toBeGreaterThan(REPLICATES / 4);
    expect(covered / planned).toBeGreaterThan(0.9);
  });

  it('more pieces narrow the error of the greatest gain', () => {
    const errorOf = (minutes: readonly number[]): number => {
      const errors = Array.from({ length: 20 }, (_, seed) => {
        const model = fitTreatment(pieces(minutes, deviates(100 + seed)), seleniumDefaults);
        return model.doseResponse.maximumGain.standardError ?? Infinity;
      });
      return errors.sort((a, b) => a - b)[10] ?? Infinity;
    };
    const [one, four] = [errorOf([1.5, 8]), errorOf([1.5, 1.5, 8, 8, 8, 8])];
    expect(four).toBeLessThan(one);
    // A readings' error of 0.01 in both nets of 1 gives sqrt(2) 0.01 and a little for base + fog.
    const single = fitTreatment(pieces([8], deviates(1)), seleniumDefaults).treated[0]!.gain;
    expectWithin(single.standardError!, 0.021, 0.004, 'error of one gain');
  });
});
