import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { fitCurve } from '../curve/index.ts';
import { InvalidArgumentError } from '../errors.ts';
import { contrastOf, filmMeasures, isContrastMeasure, speedPointOf } from './index.ts';

/** Exact soft-toed curve of the checks: D = 0.15 + 0.70 · 0.25 ln(1 + exp((x + 2.00)/0.25)). */
const logExposures = Array.from({ length: 21 }, (_, i) => -3 + 0.15 * i);
const fit = fitCurve({
  logExposures,
  densities: logExposures.map((x) => 0.15 + 0.7 * 0.25 * Math.log1p(Math.exp((x + 2) / 0.25))),
  unexposedDensities: [0.15],
});
if (fit.status !== 'ok') throw new Error(fit.reason);
const { curve } = fit;
const measures = filmMeasures(curve, { exposureKind: 'absolute' });

describe('contrastOf', () => {
  it('gives what all measures together give', () => {
    expect(contrastOf(curve, 'contrast-index')).toEqual(measures.contrastIndex);
    expect(contrastOf(curve, 'gamma')).toEqual(measures.gamma);
    for (const { to, value } of measures.averageGradients) {
      expect(contrastOf(curve, `gradient-${to.slice(1)}`)).toEqual(value);
    }
    expect(speedPointOf(curve)).toEqual(measures.speedPoint?.logExposure);
  });

  it('[derived] finds the chords of the soft-toed curve, and one of another length', () => {
    expectWithin(contrastOf(curve, 'gradient-1.50')!.value, 0.603336, 1e-5);
    expectWithin(contrastOf(curve, 'gradient-2.0')!.value, 0.627259, 1e-5);
    expect(contrastOf(curve, 'gradient-0.75')!.value).toBeLessThan(0.603);
  });

  it('has no answer where the readings end too far away', () => {
    expect(contrastOf(curve, 'gradient-2.80')).toBeNull();
    expect(speedPointOf(curve, 2.5)).toBeNull();
  });

  it('knows its names', () => {
    for (const name of ['gamma', 'contrast-index', 'gradient-1.30', 'gradient-2']) {
      expect(isContrastMeasure(name)).toBe(true);
    }
    for (const name of ['gradient-', 'gradient-9', 'gradient-0', 'slope', '']) {
      expect(isContrastMeasure(name)).toBe(false);
    }
    expect(() => contrastOf(curve, 'gradient-9')).toThrow(InvalidArgumentError);
    expect(() => speedPointOf(curve, NaN)).toThrow(InvalidArgumentError);
  });
});
