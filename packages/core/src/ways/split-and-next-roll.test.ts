import { describe, expect, it } from 'vitest';
import { builtInSplit } from '../../../../test/selenium-bath.ts';
import { WAYS_INPUT, wayFrom } from '../../../../test/ways-input.ts';
import { expectWithin, printedTo } from '../../../../test/within.ts';
import { fitContrastModel } from '../development/index.ts';
import {
  densityOfMixedExposure,
  exposureScaleOfMixture,
  softLogExposureFor,
} from '../paper/index.ts';
import { waysOut, type WaysInput } from './index.ts';

/** The three layers of the worked scales in test/published/variable-contrast-layers.test.ts. */
const THREE = {
  ...builtInSplit,
  paper: { ...builtInSplit.paper, softLogSpeeds: [0, -0.7814209, -1.5628418] },
};

describe('split exposure', () => {
  const at = (densityRange: number, split: WaysInput['split'] = builtInSplit) =>
    wayFrom(
      waysOut({ ...WAYS_INPUT, split, negative: { shadow: 0.1, highlight: 0.1 + densityRange } }),
      'split-exposure',
    );

  it('[VCSHEET] ends where the published sheet does: R 180 by soft light, R 40 by hard', () => {
    const { paper } = builtInSplit;
    expectWithin(100 * exposureScaleOfMixture(paper, -12), 180, 0.01, 'soft');
    expectWithin(100 * exposureScaleOfMixture(paper, 12), 40, 0.01, 'hard');
  });

  it('[derived] a range of 1.17452 takes hard light a tenth of the soft, one of 0.56476 as much', () => {
    for (const [densityRange, logRatio] of [
      [1.17452, -1],
      [0.56476, 0],
    ] as const) {
      const { split } = at(densityRange, THREE);
      // The scales are printed to 1e-5; they change by about 0.6 for a step of one in the ratio.
      expectWithin(split!.logRatio, logRatio, 1e-4, `ratio for ${densityRange}`);
      // The hard filter takes twice the time of the soft one for the same light.
      const share = 1 / (1 + 2 * 10 ** logRatio);
      expectWithin(split!.softTimeShare, share, 1e-4, 'share of the soft time');
    }
  });

  it('costs one stop where the soft filter does nearly all, near two where the hard one does', () => {
    // [NAVY] one stop for the soft settings, two for the hardest (published).
    expectWithin(at(1.799).exposureStops!, 1, 0.01, 'soft');
    expectWithin(at(0.4005).exposureStops!, 2, 0.05, 'hard');
    expect(at(0.74).exposureStops!).toBeGreaterThan(at(1.2).exposureStops!);
  });

  it('takes the user’s own paper in seconds of its filters: the ratio of times, no stops', () => {
    const own = { ...builtInSplit, origin: 'own', softFactor: null, hardFactor: null } as const;
    const { split, exposureStops } = at(0.8, own);
    expect(exposureStops).toBeNull();
    expect(split!.origin).toBe('own');
    expectWithin(split!.softTimeShare, 1 / (1 + 10 ** split!.logRatio), 1e-12);
    // A hard lamp half as strong takes twice the seconds, and nothing else changes.
    const { paper } = own;
    const weak = { ...own, paper: { ...paper, hardLogSpeed: paper.hardLogSpeed - Math.log10(2) } };
    expectWithin(at(0.8, weak).split!.logRatio, split!.logRatio + Math.log10(2), 1e-9);
    expectWithin(at(0.8, weak).shadowSeparation, at(0.8, own).shadowSeparation, 1e-9);
  });

  it('parts tones by the slope of the layers, which a small step of the negative shows too', () => {
    const split = at(0.8);
    if (split.paper.kind !== 'mixture') throw new Error('a mixture is expected');
    const { layers: paper, logRatio } = split.paper;
    const soft = softLogExposureFor(paper, logRatio, 0.04);
    const printed = (net: number) => {
      const softLogExposure = soft + 0.9 - net;
      return densityOfMixedExposure(paper, {
        softLogExposure,
        hardLogExposure: softLogExposure + logRatio,
      });
    };
    const slope = (net: number) => (printed(net - 1e-5) - printed(net + 1e-5)) / 2e-5;
    expectWithin(split.shadowSeparation, slope(0.1), 1e-6, 'shadow');
    expectWithin(split.highlightSeparation, slope(0.9), 1e-6, 'highlight');
  });
});

describe('the next roll', () => {
  const law = (minutes: number) => 0.95 * (1 - Math.exp(-0.12 * (minutes - 0.8)));
  const strips = (times: readonly number[]) => {
    const fit = fitContrastModel(
      times.map((minutes) => ({
        minutes,
        contrast: { value: law(minutes), standardError: 0.005 },
      })),
      { temperatureCoefficient: 2.5 },
    );
    if (fit.status !== 'ok') throw new Error(fit.reason);
    return fit.model;
  };
  const model = strips([4, 6, 9, 13, 18]);
  const next = (development: WaysInput['development'], printingRange: number) =>
    wayFrom(
      waysOut({
        ...WAYS_INPUT,
        target: { printingRange },
        ...(development === undefined ? {} : { development }),
      }),
      'next-roll',
    );

  it("takes the minutes from the film's own strips, with an error", () => {
    const { nextRoll, limit } = next({ model, minutes: 8, celsius: 20 }, 0.74 * 1.2);
    expect(nextRoll!.basis).toBe('strips');
    expectWithin(law(nextRoll!.minutes!.value), 1.2 * law(8), 1e-4, 'contrast');
    expect(nextRoll!.minutes!.standardError).toBeGreaterThan(0);
    expect(limit).toBeNull();
  });

  it('is sure of a small change, since both contrasts come from one law', () => {
    const errorAt = (factor: number) =>
      next({ model, minutes: 8, celsius: 20 }, 0.74 * factor).nextRoll!.minutes!.standardError!;
    expect(errorAt(1.02)).toBeLessThan(0.3 * errorAt(1.25));
  });

  it('says so where the film tends to less', () => {
    const { nextRoll, limit, warnings } = next({ model, minutes: 13, celsius: 20 }, 0.74 * 1.5);
    expect(nextRoll).toMatchObject({ minutes: null, timeFactor: null });
    expect(limit).toBe('beyond-film');
    expect(warnings.map(({ code }) => code)).toContain('contrast-not-reachable');
  });

  it('[derived] goes by the rule of half the limit without strips: N+1 is 1.263 times the time', () => {
    const { nextRoll, warnings } = next(undefined, (0.74 * 7) / 6);
    expect(nextRoll).toMatchObject({ basis: 'rule', minutes: null, fromMinutes: null });
    expectWithin(nextRoll!.timeFactor!, 1.263, printedTo(3), 'f 0.5');
    expectWithin(nextRoll!.plausibleFactor![0], 1.231, printedTo(3), 'f 0.4');
    expect(warnings.map(({ code }) => code)).toContain('value-unverified');
    const timed = next({ model: null, minutes: 8, celsius: 20 }, (0.74 * 7) / 6);
    expectWithin(timed.nextRoll!.minutes!.value, 8 * 1.263, 8 * printedTo(3), 'minutes');
  });
});
