import { describe, expect, it } from 'vitest';
import { leastSquares, randomNormal } from '../fitting/index.ts';
import { fitPairs, pairGroups } from './fit-pairs.ts';
import { gainDerivatives, REFERENCE_NET_DENSITY, type GainLawFamily } from './gain-law.ts';
import { pairBlocks, projectedResiduals, type StripPairs } from './pair-blocks.ts';
import type { BaseFog } from './pair-strips.ts';

const ERROR = 0.006;

/** Toned strips in groups that share an untreated one, read with an error of 0.006. */
function strips(groups: number, each: number, exponent: number, seed: number): StripPairs[] {
  const normal = randomNormal(seed);
  const law = { family: 'power', exponent, referenceDensity: REFERENCE_NET_DENSITY } as const;
  const fog = (value: number): BaseFog => ({
    value,
    standardError: ERROR,
    source: 'read',
    weight: 2,
  });
  return Array.from({ length: groups * each }, (_, strip): StripPairs => {
    const group = Math.floor(strip / each);
    const untreatedNoise = randomNormal(1000 + group);
    const untreatedFog = 0.12 + 0.003 * group;
    const gain = 1.06 + 0.02 * (strip % 7);
    const pairs = Array.from({ length: 12 }, (__, step) => {
      const density = 0.08 + 0.12 * step;
      return {
        logExposure: -2 + 0.15 * step,
        untreated: density + ERROR * untreatedNoise(),
        treated: gainDerivatives(density, gain, law).value + ERROR * normal(),
        untreatedCount: 1,
        treatedCount: 1,
      };
    });
    return {
      untreatedKey: `untreated ${group}`,
      paired: {
        pairs,
        untreatedBaseFog: fog(untreatedFog),
        treatedBaseFog: fog(untreatedFog + 0.01),
        unpaired: 0,
        replicateError: null,
      },
    };
  });
}

/** The joint fit of all strips, as the definition has it. */
function together(family: GainLawFamily, all: readonly StripPairs[], exponent: boolean) {
  const blocks = pairBlocks(all);
  const start = exponent ? [...blocks.start, 1] : blocks.start;
  return leastSquares(
    {
      residualCount: blocks.rowCount,
      start,
      evaluate: projectedResiduals(family, blocks, start.length),
    },
    { weightKind: 'absolute' },
  );
}

describe('groups of strips that share an exponent at most', () => {
  it.each([
    ['proportional', false],
    ['power', true],
    ['intensifier-safe', true],
  ] as const)('are fitted one by one as they are all at once: %s', (family, exponent) => {
    const all = strips(3, 2, 1.08, 7);
    const joint = together(family, all, exponent);
    const apart = fitPairs(family, pairGroups(all));
    expect(joint.report.status).toBe('converged');
    expect(apart.settled).toBe(true);
    expect(apart.parameters).toHaveLength(joint.parameters.length);
    const size = joint.parameters.length;
    joint.parameters.forEach((value, i) => {
      const error = ERROR * (joint.standardErrors[i] ?? NaN);
      expect(Math.abs((apart.parameters[i] ?? NaN) - value)).toBeLessThan(1e-4 * error);
      for (let j = 0; j < size; j++) {
        const scale = (joint.standardErrors[i] ?? NaN) * (joint.standardErrors[j] ?? NaN);
        const difference =
          (apart.covariance[i * size + j] ?? NaN) - (joint.covariance?.[i * size + j] ?? NaN);
        expect(Math.abs(difference)).toBeLessThan(1e-4 * scale);
      }
    });
    expect(Math.abs(apart.residualSumOfSquares / joint.residualSumOfSquares - 1)).toBeLessThan(
      1e-9,
    );
  });

  it('takes work in proportion to their number: years of trials', () => {
    const all = strips(60, 3, 1.05, 11);
    const fit = fitPairs('power', pairGroups(all));
    expect(fit.settled).toBe(true);
    const exponent = fit.parameters.at(-1) ?? NaN;
    const error = ERROR * Math.sqrt(fit.covariance.at(-1) ?? NaN);
    // Four standard errors: one run in 16,000 would lie outside by chance.
    expect(Math.abs(exponent - 1.05)).toBeLessThan(4 * error);
    expect(error).toBeLessThan(0.002);
  });
});
