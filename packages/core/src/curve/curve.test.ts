import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { InvalidArgumentError } from '../errors.ts';
import {
  compareFamilies,
  CURVE_FAMILIES,
  densityAt,
  densityBand,
  fitCurve,
  gradientAt,
  logExposureAt,
  type CharacteristicCurve,
  type CurveFamily,
} from './index.ts';

const logExposures = Array.from({ length: 21 }, (_, i) => -3 + 0.15 * i);
const softplus = (z: number) => Math.log1p(Math.exp(z));
const truth = (x: number) =>
  0.12 + 0.7 * 0.25 * softplus((x + 2.1) / 0.25) - 0.7 * 0.2 * softplus((x + 0.3) / 0.2);
/** A fixed wobble of about 0.005, so that residuals are not zero. */
const wobble = (i: number) => 0.006 * Math.sin(12.9898 * (i + 1));
const densities = logExposures.map((x, i) => truth(x) + wobble(i));

function curveOf(family: CurveFamily): CharacteristicCurve {
  const fit = fitCurve({ logExposures, densities, unexposedDensities: [0.12] }, { family });
  if (fit.status !== 'ok') throw new Error(fit.reason);
  return fit.curve;
}

describe.each(CURVE_FAMILIES)('a %s curve', (family) => {
  const curve = curveOf(family);

  it('follows the readings and never falls by more than they err', () => {
    // Logistic-4 is symmetric and cannot follow an asymmetric toe closer than this.
    const tolerance = family === 'logistic-4' || family === 'hurter-driffield' ? 0.08 : 0.02;
    let previous = -Infinity;
    for (let x = -3; x <= 0; x += 0.05) {
      const density = densityAt(curve, x);
      expectWithin(density, truth(x), tolerance, `density at ${x}`);
      expect(density).toBeGreaterThan(previous - 0.01);
      previous = density;
    }
  });

  it('inverts', () => {
    for (const density of [0.3, 0.8, 1.2]) {
      const x = logExposureAt(curve, density);
      expectWithin(densityAt(curve, x ?? NaN), density, 1e-9);
    }
    expect(logExposureAt(curve, -1)).toBeNull();
    expect(logExposureAt(curve, 50)).toBeNull();
  });

  it('has the gradient of its density', () => {
    for (const x of [-2.53, -1.97, -1.02, -0.11]) {
      const h = 1e-4;
      const difference =
        (8 * (densityAt(curve, x + h) - densityAt(curve, x - h)) -
          (densityAt(curve, x + 2 * h) - densityAt(curve, x - 2 * h))) /
        (12 * h);
      expectWithin(gradientAt(curve, x), difference, 1e-6, `gradient at ${x}`);
    }
  });

  it('is plain data: a copy is as good as the original', () => {
    const copy = JSON.parse(JSON.stringify(curve)) as CharacteristicCurve;
    expect(densityAt(copy, -1.3)).toBe(densityAt(curve, -1.3));
  });

  it('has a band, or says that it has no errors', () => {
    const [point] = densityBand(curve, [-1]);
    if (family === 'as-drawn') expect(point?.standardError).toBeNull();
    else {
      expect(point?.upper).toBeGreaterThan(point?.density ?? Infinity);
      expect(point?.standardError).toBeLessThan(0.05);
    }
  });
});

describe('fitCurve', () => {
  it('takes the readings in any order and does not change them', () => {
    const reversed = {
      logExposures: logExposures.toReversed(),
      densities: densities.toReversed(),
      unexposedDensities: [0.12],
    };
    const before = structuredClone(reversed);
    const fit = fitCurve(reversed);
    if (fit.status !== 'ok') throw new Error(fit.reason);
    expect(reversed).toEqual(before);
    const straight = curveOf('toe-shoulder');
    fit.curve.parameters.forEach((parameter, j) => {
      expectWithin(parameter, straight.parameters[j] ?? NaN, 1e-9);
    });
  });

  it('says that a strip is too short, or flat, rather than guess', () => {
    expect(fitCurve({ logExposures: [-2, -1, 0], densities: [0.1, 0.5, 1] })).toMatchObject({
      status: 'not-determined',
      reason: 'too-few-readings',
    });
    expect(fitCurve({ logExposures: [], densities: [] })).toMatchObject({
      status: 'not-determined',
    });
    expect(fitCurve({ logExposures, densities: logExposures.map(() => 0.1) })).toMatchObject({
      status: 'not-determined',
      reason: 'no-density-rise',
    });
    // Four readings of one step are not four steps.
    expect(fitCurve({ logExposures: [0, 0, 0, -1], densities: [1, 1.01, 1, 0.1] })).toMatchObject({
      status: 'not-determined',
      reason: 'too-few-readings',
    });
  });

  it('refuses readings that are no numbers, and arrays of different length', () => {
    for (const bad of [NaN, Infinity]) {
      expect(() => fitCurve({ logExposures: [bad, 0, 1, 2], densities: [0, 1, 2, 3] })).toThrow(
        InvalidArgumentError,
      );
      expect(() => fitCurve({ logExposures: [0, 1, 2, 3], densities: [0, 1, 2, bad] })).toThrow(
        InvalidArgumentError,
      );
    }
    expect(() => fitCurve({ logExposures: [0, 1], densities: [0] })).toThrow(InvalidArgumentError);
  });

  it('fits four steps without inventing a shoulder', () => {
    const fit = fitCurve({ logExposures: [-3, -2, -1, 0], densities: [0.1, 0.15, 0.7, 1.4] });
    if (fit.status !== 'ok') throw new Error(fit.reason);
    expect(fit.curve.parameters).toHaveLength(4);
    for (const parameter of fit.curve.parameters) expect(Number.isFinite(parameter)).toBe(true);
  });

  it('says when base + fog is extrapolated below every reading', () => {
    const upper = logExposures.filter((x) => x > -1.9);
    const fit = fitCurve({ logExposures: upper, densities: upper.map(truth) });
    expect(fit.warnings.map((w) => w.code)).toContain('base-fog-extrapolated');
  });
});

describe('compareFamilies', () => {
  it('puts the true family first and gives weights that add up to 1', () => {
    const compared = compareFamilies({ logExposures, densities, unexposedDensities: [0.12] });
    expect(compared.families.map(({ family }) => family)).toEqual([...CURVE_FAMILIES]);
    expect(['best', 'as-good']).toContain(compared.verdict);
    const total = compared.families.reduce((sum, { weight }) => sum + (weight ?? 0), 0);
    expectWithin(total, 1, 1e-12);
    expect(compared.families.at(-1)).toMatchObject({ family: 'as-drawn', weight: null });
  });
  it('says when a rival describes the strip better', () => {
    const logistic = logExposures.map(
      (x, i) => 0.1 + 1.8 / (1 + Math.exp(-(x + 1.5) / 0.25)) + wobble(i),
    );
    const compared = compareFamilies({ logExposures, densities: logistic }, 'hurter-driffield');
    expect(compared.verdict).toBe('rival-better');
    expect(compared.best).not.toBe('hurter-driffield');
  });
});
