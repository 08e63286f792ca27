import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../../test/within.ts';
import {
  densityOfMixedExposure,
  exposureScaleOfMixture,
  fitVariableContrast,
  mixtureDerivatives,
  type VariableContrastPaper,
  type VariableContrastReading,
} from '../../paper/index.ts';
import { splitExposure } from '../index.ts';

const paper: VariableContrastPaper = {
  minimumDensity: 0.06,
  netMaximumDensity: 2,
  layerContrast: 12,
  hardLogSpeed: 0.4,
  softLogSpeeds: [0.2, -0.5, -1.1],
};
const steps = Array.from({ length: 21 }, (_, i) => -2 + 0.15 * i);
const strip = (hardShift: number, softShift: number, noise = 0): VariableContrastReading[] =>
  steps.map((x, i) => {
    const exposure = { hardLogExposure: x + hardShift, softLogExposure: x + softShift };
    return {
      ...exposure,
      density: densityOfMixedExposure(paper, exposure) + noise * Math.sin(12.9898 * (i + 1)),
    };
  });
const softOnly = strip(-Infinity, 0, 0.005);
const hardOnly = strip(0, -Infinity, 0.005);

describe('densityOfMixedExposure', () => {
  it('is white without light and does not care how an exposure was split', () => {
    const dark = { hardLogExposure: -Infinity, softLogExposure: -Infinity };
    expect(densityOfMixedExposure(paper, dark)).toBe(0.06);
    const twice = { hardLogExposure: Math.log10(0.2 + 0.3), softLogExposure: -0.4 };
    const once = { hardLogExposure: Math.log10(0.5), softLogExposure: -0.4 };
    expect(densityOfMixedExposure(paper, twice)).toBe(densityOfMixedExposure(paper, once));
  });
  it('refuses what is no exposure', () => {
    expect(() =>
      densityOfMixedExposure(paper, { hardLogExposure: NaN, softLogExposure: 0 }),
    ).toThrow();
  });
});

describe('layers that drift', () => {
  const drifting: VariableContrastPaper = {
    ...paper,
    drift: { logContrast: 0.5, hardLogSpeed: -0.25 },
  };
  const read = (shift: { hardLogExposure: number; softLogExposure: number }, noise: number) =>
    steps.map((x, i): VariableContrastReading => {
      const exposure = {
        hardLogExposure: x + shift.hardLogExposure,
        softLogExposure: x + shift.softLogExposure,
      };
      const density = densityOfMixedExposure(drifting, exposure);
      return { ...exposure, density: density + noise * Math.sin(12.9898 * (i + 1)) };
    });

  it('are alike where the drift is nothing', () => {
    const same = { ...paper, drift: { logContrast: 0, hardLogSpeed: 0 } };
    const exposure = { hardLogExposure: -0.3, softLogExposure: 0.1 };
    expect(densityOfMixedExposure(same, exposure)).toBe(densityOfMixedExposure(paper, exposure));
  });

  it('have derivatives that agree with central differences', () => {
    const form = { layers: 3, drifts: true };
    const p = [0.06, 2, Math.log(12), 0.4, 0.2, 0.7, 0.6, 0.5, -0.25];
    const exposure = { hardLogExposure: -0.5, softLogExposure: -0.1 };
    const out = new Float64Array(p.length);
    const value = mixtureDerivatives(form, p, exposure, out, 0);
    expectWithin(value, densityOfMixedExposure(drifting, exposure), 1e-12);
    const h = 1e-6;
    p.forEach((each, j) => {
      const at = (to: number) =>
        mixtureDerivatives(form, p.with(j, to), exposure, new Float64Array(p.length), 0);
      expectWithin(out[j]!, (at(each + h) - at(each - h)) / (2 * h), 1e-7, `parameter ${j}`);
    });
  });

  it('are found where three strips show them, and the forms are weighed', () => {
    const shifts = [
      { hardLogExposure: -Infinity, softLogExposure: 0 },
      { hardLogExposure: -0.6, softLogExposure: 0 },
      { hardLogExposure: 0, softLogExposure: -Infinity },
    ];
    const fit = fitVariableContrast(shifts.flatMap((shift) => read(shift, 0.003)));
    expect(fit.form.drifts).toBe(true);
    const drift = fit.parameters.find(({ name }) => name === 'hardLogSpeedDrift');
    expectWithin(drift!.value, -0.25, 0.05);
    const whole = fit.companions.reduce((sum, { weight }) => sum + weight, fit.weight);
    // Forms of less than 2 % each are left out.
    expect(whole).toBeGreaterThan(0.9);
    expect(whole).toBeLessThanOrEqual(1 + 1e-9);
    const between = { hardLogExposure: -0.9, softLogExposure: -0.4 };
    expectWithin(
      densityOfMixedExposure(fit.paper!, between),
      densityOfMixedExposure(drifting, between),
      0.02,
    );
  });
});

describe('fitVariableContrast', () => {
  it('recovers a paper of the same kind from a soft and a hard strip', () => {
    const fit = fitVariableContrast([...softOnly, ...hardOnly]);
    expect(fit.status).toBe('ok');
    expectWithin(fit.paper?.netMaximumDensity ?? NaN, 2, 0.02);
    expectWithin(fit.paper?.hardLogSpeed ?? NaN, 0.4, 0.01);
    fit.paper?.softLogSpeeds.forEach((speed, i) => {
      expectWithin(speed, paper.softLogSpeeds[i] ?? NaN, 0.03);
    });
    for (const { standardError } of fit.parameters) expect(standardError).toBeGreaterThan(0);
  });

  it('predicts a mixture that it has not seen better than interpolation between the two scales', () => {
    const fit = fitVariableContrast([...softOnly, ...hardOnly]);
    if (fit.paper === null) throw new Error('no paper');
    const soft = exposureScaleOfMixture(paper, -8);
    const hard = exposureScaleOfMixture(paper, 8);
    for (const ratio of [-1, -0.5, 0, 0.5]) {
      const truth = exposureScaleOfMixture(paper, ratio);
      const predicted = exposureScaleOfMixture(fit.paper, ratio);
      // Interpolation in the share of hard light, the only rival without a third strip.
      const share = 10 ** ratio / (1 + 10 ** ratio);
      const interpolated = soft + (hard - soft) * share;
      expect(Math.abs(predicted - truth)).toBeLessThan(0.03);
      expect(Math.abs(predicted - truth)).toBeLessThan(Math.abs(interpolated - truth));
    }
  });

  it('says what is missing', () => {
    expect(fitVariableContrast(softOnly)).toMatchObject({ reason: 'one-light-only' });
    expect(fitVariableContrast([])).toMatchObject({ reason: 'too-few-readings' });
    expect(() =>
      fitVariableContrast([{ hardLogExposure: 0, softLogExposure: 0, density: NaN }]),
    ).toThrow();
    expect(() =>
      fitVariableContrast([{ hardLogExposure: -Infinity, softLogExposure: -Infinity, density: 1 }]),
    ).toThrow();
  });
});

describe('splitExposure', () => {
  const aims = {
    highlight: { negativeDensity: 1.3, printDensity: 0.12 },
    shadow: { negativeDensity: 0.3, printDensity: 1.8 },
  };
  it('gives both print densities', () => {
    const split = splitExposure(paper, aims);
    if (split.status !== 'ok') throw new Error(split.reason);
    for (const { negativeDensity, printDensity } of Object.values(aims)) {
      const density = densityOfMixedExposure(paper, {
        hardLogExposure: split.hardLogExposure - negativeDensity,
        softLogExposure: split.softLogExposure - negativeDensity,
      });
      expectWithin(density, printDensity, 1e-6);
    }
  });
  it('says when a negative is too long for soft light or too short for hard light', () => {
    const withRange = (range: number) =>
      splitExposure(paper, {
        ...aims,
        highlight: { negativeDensity: 0.3 + range, printDensity: 0.12 },
      });
    expect(withRange(2.6)).toMatchObject({ status: 'not-reachable', reason: 'softer-than-soft' });
    expect(withRange(0.2)).toMatchObject({ status: 'not-reachable', reason: 'harder-than-hard' });
  });
  it('refuses tones in the wrong order and densities that the paper does not reach', () => {
    expect(() =>
      splitExposure(paper, { highlight: aims.shadow, shadow: aims.highlight }),
    ).toThrow();
    expect(() =>
      splitExposure(paper, { ...aims, shadow: { negativeDensity: 0.3, printDensity: 2.5 } }),
    ).toThrow();
    expect(() =>
      splitExposure(paper, { ...aims, shadow: { negativeDensity: NaN, printDensity: 1.8 } }),
    ).toThrow();
  });
});
