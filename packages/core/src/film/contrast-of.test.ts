import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { fitCurve } from '../curve/index.ts';
import { InvalidArgumentError } from '../errors.ts';
import {
  averageGradientBetweenDensities,
  chordName,
  chordOf,
  contrastOf,
  filmMeasures,
  isContrastMeasure,
  speedPointOf,
} from './index.ts';

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

  it('[derived] takes any end points: of a straight part they give its slope', () => {
    // A hard toe: D = 0.12 + 0.65 (x + 2.40) above it, so that every chord is 0.65.
    const line = fitCurve(
      {
        logExposures,
        densities: logExposures.map((x) => 0.12 + Math.max(0, 0.65 * (x + 2.4))),
        unexposedDensities: [0.12],
      },
      { family: 'as-drawn' },
    );
    if (line.status !== 'ok') throw new Error(line.reason);
    for (const name of ['gradient-1.20-from-0.20', 'gradient-net-0.30-to-1.20'] as const) {
      expectWithin(contrastOf(line.curve, name)!.value, 0.65, 1e-6, name);
    }
    expect(contrastOf(curve, 'gradient-net-0.10-to-2.90')).toBeNull();
    expect(() => contrastOf(curve, 'gradient-net-0.10-to-3.50')).toThrow(InvalidArgumentError);
    const named = averageGradientBetweenDensities(curve, 0.1, 0.9);
    expect(contrastOf(curve, 'gradient-net-0.10-to-0.90')).toEqual(named);
    expect(contrastOf(curve, 'gradient-1.30-from-0.10')).toEqual(
      contrastOf(curve, 'gradient-1.30'),
    );
  });

  it('names chords by their end points, and reads the names back', () => {
    for (const chord of [
      { kind: 'over', fromNet: 0.1, length: 1.5 },
      { kind: 'over', fromNet: 0.2, length: 1.25 },
      { kind: 'between', fromNet: 0.1, toNet: 0.9 },
    ] as const) {
      expect(chordOf(chordName(chord))).toEqual(chord);
    }
    expect(chordOf('gradient-2')).toEqual({ kind: 'over', fromNet: 0.1, length: 2 });
    for (const name of [
      'gradient-1.3-from-3',
      'gradient-net-0.90-to-0.10',
      'gradient-net-1-to-1',
    ]) {
      expect(chordOf(name), name).toBeNull();
    }
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
