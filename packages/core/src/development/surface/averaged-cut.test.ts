import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../../test/within.ts';
import { averagedCut, type WeightedLaw } from './averaged-cut.ts';
import { rivalWeight } from './law-weight.ts';
import { cutAt, cutCovariance, SURFACE_SIZE } from './surface-model.ts';

const frame = { hasShoulder: false, referenceCelsius: 20, centreMinutes: 8 };
const parameters = [0.1, 0.02, 0.9, 0.12, 0.7, -2.1, -0.1, -1.5, 0, 0, 0, -1.2, 2.5];
const covariance = Array.from({ length: SURFACE_SIZE ** 2 }, (_, at) =>
  at % (SURFACE_SIZE + 1) === 0 ? 1e-4 : 0,
);
const own: WeightedLaw = { law: 'first-order', parameters, covariance, weight: 0.75 };
// Another level of the slope, 0.6 at the middle time.
const withLevel = (level: number) => parameters.map((value, j) => (j === 2 ? level : value));
const rival: WeightedLaw = { ...own, law: 'log-linear', parameters: withLevel(0.6), weight: 0.25 };

describe('averagedCut', () => {
  it('is the cut of the law itself where there is no other', () => {
    const cut = cutAt({ ...frame, law: 'first-order' }, parameters, 9, 20);
    const averaged = averagedCut(frame, [{ ...own, weight: 1 }], 9, 20);
    expect(averaged?.parameters).toEqual(cut.parameters);
    expect(averaged?.covariance).toEqual(cutCovariance(cut, covariance));
  });

  it('[derived] lies between both, and counts their distance as error', () => {
    const [a, b] = [own, rival].map(({ law, parameters: p }) => cutAt({ ...frame, law }, p, 8, 20));
    const [slopeA = 0, slopeB = 0] = [a?.parameters[1], b?.parameters[1]];
    expectWithin(slopeB, 0.6, 1e-12);
    const averaged = averagedCut(frame, [own, rival], 8, 20);
    const slope = 0.75 * slopeA + 0.25 * 0.6;
    expectWithin(averaged?.parameters[1] ?? NaN, slope, 1e-12);
    const variance =
      0.75 * ((cutCovariance(a!, covariance)[5] ?? 0) + (slopeA - slope) ** 2) +
      0.25 * ((cutCovariance(b!, covariance)[5] ?? 0) + (0.6 - slope) ** 2);
    expectWithin(averaged?.covariance[5] ?? NaN, variance, 1e-12);
  });

  it('leaves out a rival that does not rise, and has nothing where the law in use does not', () => {
    const falls = { ...rival, parameters: withLevel(-1) };
    expect(averagedCut(frame, [own, falls], 8, 20)?.parameters).toEqual(
      cutAt({ ...frame, law: 'first-order' }, parameters, 8, 20).parameters,
    );
    expect(averagedCut(frame, [falls, own], 8, 20)).toBeNull();
  });
});

describe('rivalWeight', () => {
  it('is a half for laws that predict alike, and little for one that predicts far worse', () => {
    expect(rivalWeight(0.01, 0.01, 4)).toBe(0.5);
    // Twice the mean square, four strips: 1 / (1 + 2²).
    expect(rivalWeight(0.01, 0.02, 4)).toBe(0.2);
    expect(rivalWeight(0.01, Infinity, 3)).toBe(0);
    expect(rivalWeight(Infinity, Infinity, 3)).toBe(0);
    expect(rivalWeight(0, 0, 3)).toBe(0);
  });
});
