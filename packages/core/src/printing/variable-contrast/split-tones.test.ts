import { describe, expect, it } from 'vitest';
import { deviates } from '../../../../../test/deviates.ts';
import { expectWithin } from '../../../../../test/within.ts';
import { InvalidArgumentError } from '../../errors.ts';
import type { Estimate } from '../../estimate.ts';
import {
  densityOfMixedExposure,
  fitVariableContrast,
  leaveOneOut,
  type VariableContrastPaper,
  type VariableContrastReading,
} from '../../paper/index.ts';
import { LOG_STOP } from '../../readings/index.ts';
import {
  logSecondsOfLight,
  burnIn,
  nearestSplit,
  splitForPrint,
  splitTones,
  type LightExposures,
} from '../index.ts';

const paper: VariableContrastPaper = {
  minimumDensity: 0.06,
  netMaximumDensity: 2,
  layerContrast: 12,
  hardLogSpeed: 0.4,
  softLogSpeeds: [0.2, -0.5, -1.1],
};
const lights: LightExposures = { softLogExposure: 0.7, hardLogExposure: 0.45 };
const printed = (n: number, one: LightExposures = lights) =>
  densityOfMixedExposure(paper, {
    hardLogExposure: one.hardLogExposure - n,
    softLogExposure: one.softLogExposure - n,
  });

const steps = Array.from({ length: 21 }, (_, i) => -2 + 0.15 * i);
const strip = (hard: number, soft: number, noise: () => number): VariableContrastReading[] =>
  steps.map((x) => {
    const exposure = { hardLogExposure: x + hard, softLogExposure: x + soft };
    return { ...exposure, density: densityOfMixedExposure(paper, exposure) + noise() };
  });

describe('splitTones', () => {
  it('tells what one stop of each light does, as differences show', () => {
    for (const n of [0.3, 0.7, 1.1, 1.4]) {
      const [tone] = splitTones(paper, lights, [n]);
      expectWithin(tone!.printDensity, printed(n), 1e-12);
      const h = 1e-5;
      for (const [name, stepped] of [
        ['soft', { ...lights, softLogExposure: lights.softLogExposure + h }],
        ['hard', { ...lights, hardLogExposure: lights.hardLogExposure + h }],
      ] as const) {
        const slope = ((printed(n, stepped) - printed(n)) / h) * LOG_STOP;
        expectWithin(tone!.perStop[name], slope, 1e-4, `${name} at ${n}`);
      }
    }
  });

  it('shows that soft light governs the highlights and hard light the shadows', () => {
    const split = splitForPrint(
      fitVariableContrast([...strip(-Infinity, 0, () => 0), ...strip(0, -Infinity, () => 0)]),
      {
        highlight: { negativeDensity: { value: 1.3, standardError: null }, printDensity: 0.12 },
        shadow: { negativeDensity: { value: 0.3, standardError: null }, printDensity: 1.85 },
      },
    );
    if (split.status !== 'ok') throw new Error(split.status);
    expect(split.highlight.softShare).toBeGreaterThan(0.5);
    expect(split.shadow.softShare).toBeLessThan(split.highlight.softShare);
    expect(split.shadow.perStop.hard).toBeGreaterThan(0);
  });

  it('takes a light that is off', () => {
    const [tone] = splitTones(paper, { softLogExposure: 0.7, hardLogExposure: -Infinity }, [0.5]);
    expect(tone).toMatchObject({ softShare: 1, perStop: { hard: 0 } });
    expect(() => splitTones(paper, lights, [NaN])).toThrow(InvalidArgumentError);
  });
});

describe('nearestSplit', () => {
  const densities = [0.3, 0.8, 1.3];
  it('meets three tones exactly where one mixture prints all of them', () => {
    const aims = densities.map((n) => ({ negativeDensity: n, printDensity: printed(n) }));
    const split = nearestSplit(paper, aims);
    expectWithin(split.softLogExposure, lights.softLogExposure, 1e-6);
    expectWithin(split.hardLogExposure, lights.hardLogExposure, 1e-6);
    expectWithin(split.rootMeanSquare, 0, 1e-8);
    expect(split.lights).toBe('both');
  });

  it('comes nearest to three that no mixture prints, and tells the residuals', () => {
    const aims = densities.map((n, i) => ({
      negativeDensity: n,
      printDensity: printed(n) + [-0.05, 0.1, 0.02][i]!,
    }));
    const split = nearestSplit(paper, aims);
    const sumOf = (one: LightExposures) =>
      aims.reduce((sum, a) => sum + (printed(a.negativeDensity, one) - a.printDensity) ** 2, 0);
    const best = sumOf(split);
    expectWithin(split.rootMeanSquare, Math.sqrt(best / 3), 1e-9);
    for (const d of [-0.01, 0.01]) {
      expect(sumOf({ ...split, softLogExposure: split.softLogExposure + d })).toBeGreaterThan(best);
      expect(sumOf({ ...split, hardLogExposure: split.hardLogExposure + d })).toBeGreaterThan(best);
    }
    split.tones.forEach(({ residual, printDensity, wanted }) => {
      expectWithin(residual, printDensity - wanted, 1e-12);
    });
  });

  it('gives one light alone where that comes nearest', () => {
    const flat = [
      { negativeDensity: 0.3, printDensity: 1 },
      { negativeDensity: 1.3, printDensity: 0.8 },
    ];
    expect(nearestSplit(paper, flat)).toMatchObject({
      lights: 'soft',
      hardLogExposure: -Infinity,
    });
    const harsh = [
      { negativeDensity: 0.6, printDensity: 1.95 },
      { negativeDensity: 0.7, printDensity: 0.1 },
    ];
    expect(nearestSplit(paper, harsh)).toMatchObject({
      lights: 'hard',
      softLogExposure: -Infinity,
    });
  });

  it('refuses one aim, aims at one density and densities that the paper does not reach', () => {
    const aim = { negativeDensity: 0.5, printDensity: 1 };
    expect(() => nearestSplit(paper, [aim])).toThrow(InvalidArgumentError);
    expect(() => nearestSplit(paper, [aim, aim])).toThrow(InvalidArgumentError);
    expect(() => nearestSplit(paper, [aim, { negativeDensity: 1, printDensity: 3 }])).toThrow();
  });
});

describe('burnIn', () => {
  it('is the print with so much more of one light', () => {
    const burnt = burnIn(paper, lights, { hardStops: 1 }, [0.3, 1.2]);
    expect(burnt.softPart).toBe(0);
    expect(burnt.hardPart).toBe(1);
    burnt.tones.forEach(({ negativeDensity, before, after }) => {
      expectWithin(before.printDensity, printed(negativeDensity), 1e-12);
      const more = { ...lights, hardLogExposure: lights.hardLogExposure + LOG_STOP };
      expectWithin(after.printDensity, printed(negativeDensity, more), 1e-12);
      expect(after.lightness).toBeLessThan(before.lightness);
    });
  });
  it('dodges with less, and refuses what is no number of stops', () => {
    const [tone] = burnIn(paper, lights, { softStops: -0.5 }, [0.8]).tones;
    expect(tone!.after.printDensity).toBeLessThan(tone!.before.printDensity);
    for (const bad of [NaN, 11, -Infinity]) {
      expect(() => burnIn(paper, lights, { softStops: bad }, [1])).toThrow(InvalidArgumentError);
    }
  });
});

describe('splitForPrint', () => {
  const wanted = (shadow = 1.8, highlight = 0.12, range = 1) => ({
    highlight: {
      negativeDensity: { value: 0.3 + range, standardError: 0.01 },
      printDensity: highlight,
    },
    shadow: { negativeDensity: { value: 0.3, standardError: 0.01 }, printDensity: shadow },
  });
  const fitOf = (noise: () => number) =>
    fitVariableContrast([...strip(-Infinity, 0, noise), ...strip(0, -Infinity, noise)]);

  it(
    'has seconds whose stated errors agree with the scatter of repeated work',
    { timeout: 60_000 },
    () => {
      const normal = deviates(400);
      const runs = 60;
      const all = Array.from({ length: runs }, () => {
        const aims = wanted();
        const moved = {
          highlight: {
            ...aims.highlight,
            negativeDensity: { value: 1.3 + 0.01 * normal(), standardError: 0.01 },
          },
          shadow: {
            ...aims.shadow,
            negativeDensity: { value: 0.3 + 0.01 * normal(), standardError: 0.01 },
          },
        };
        const fit = fitOf(() => 0.01 * normal());
        const split = splitForPrint(fit, moved);
        const alone = splitForPrint({ ...fit, weight: 1, companions: [] }, moved);
        if (split.status !== 'ok' || alone.status !== 'ok') throw new Error(split.status);
        return { split, alone };
      });
      const middle = (values: readonly number[]) =>
        values.toSorted((a, b) => a - b)[values.length >> 1]!;
      const relative = ({ value, standardError }: Estimate) => standardError! / value;
      for (const name of ['softSeconds', 'hardSeconds'] as const) {
        const logs = all.map(({ split }) => Math.log(split[name].value));
        const mean = logs.reduce((a, b) => a + b, 0) / runs;
        const scatter = Math.sqrt(logs.reduce((a, b) => a + (b - mean) ** 2, 0) / (runs - 1));
        // Sixty runs know their scatter to 9 %; three times that.
        const stated = middle(all.map(({ alone }) => relative(alone[name])));
        expectWithin(stated / scatter, 1, 0.28, `${name} by the form in use`);
        // With the choice among forms they are wider, as a rule, and of the same order.
        const widened = middle(all.map(({ split }) => relative(split[name])));
        expect(widened).toBeGreaterThan(0.72 * scatter);
        expect(widened).toBeLessThan(3 * scatter);
      }
    },
  );

  it('scales with the unit and the size of the print', () => {
    const fit = fitOf(() => 0);
    const one = splitForPrint(fit, wanted());
    const larger = splitForPrint(fit, wanted(), {
      logSecondsOfUnit: { soft: 1, hard: 1 },
      timeFactor: 2.25,
    });
    if (one.status !== 'ok' || larger.status !== 'ok') throw new Error('no split');
    expectWithin(larger.softSeconds.value, 22.5 * one.softSeconds.value, 1e-6);
    expectWithin(larger.hardOverSoftStops.value, one.hardOverSoftStops.value, 1e-12);
    expect(() => splitForPrint(fit, wanted(), { timeFactor: 0 })).toThrow();
    // One light alone: what a print took tells the unit, and the unit gives the time back.
    const print = { seconds: 9, negativeDensity: 1.3, printDensity: 0.12 };
    const c = logSecondsOfLight(paper, 'soft', print);
    const alone = densityOfMixedExposure(paper, {
      softLogExposure: Math.log10(9) - c - 1.3,
      hardLogExposure: -Infinity,
    });
    expectWithin(alone, 0.12, 1e-9);
    const hard = logSecondsOfLight(paper, 'hard', print);
    const byHard = densityOfMixedExposure(paper, {
      hardLogExposure: Math.log10(9) - hard - 1.3,
      softLogExposure: -Infinity,
    });
    expectWithin(byHard, 0.12, 1e-9);
    expect(() => logSecondsOfLight(paper, 'hard', { ...print, seconds: 0 })).toThrow();
  });

  it('refuses what cannot be had, with what is nearest', () => {
    const fit = fitOf(() => 0);
    expect(splitForPrint(fit, wanted(1.8, 0.12, 2.6))).toMatchObject({
      status: 'not-reachable',
      reason: 'softer-than-soft',
    });
    expect(splitForPrint(fit, wanted(1.8, 0.12, -0.3))).toMatchObject({
      reason: 'highlight-thinner-than-shadow',
    });
    expect(splitForPrint(fit, wanted(2.4))).toMatchObject({ reason: 'shadow-outside-paper' });
    expect(splitForPrint(fitVariableContrast([]), wanted())).toEqual({ status: 'not-fitted' });
  });
});

describe('leaveOneOut', () => {
  it('predicts a mixed strip that was left out to the scatter of reading', () => {
    const normal = deviates(77);
    const noise = () => 0.01 * normal();
    const errors = leaveOneOut([
      { name: 'soft', readings: strip(-Infinity, 0, noise) },
      { name: 'hard', readings: strip(0, -Infinity, noise) },
      { name: 'mixed', readings: strip(-0.3, 0, noise) },
    ]);
    expect(errors.map(({ name }) => name)).toEqual(['soft', 'hard', 'mixed']);
    expect(errors[2]!.rootMeanSquare).toBeLessThan(0.02);
    expect(errors[2]!.greatest).toBeGreaterThan(0);
  });
  it('says where the rest does not suffice', () => {
    const errors = leaveOneOut([
      { name: 'soft', readings: strip(-Infinity, 0, () => 0) },
      { name: 'hard', readings: strip(0, -Infinity, () => 0) },
    ]);
    expect(errors).toMatchObject([
      { rootMeanSquare: null, reason: 'one-light-only' },
      { rootMeanSquare: null, reason: 'one-light-only' },
    ]);
  });
});
