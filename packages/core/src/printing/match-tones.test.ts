import { describe, expect, it } from 'vitest';
import { ansiGradeTable, seleniumDefaults } from '../../../../test/selenium-bath.ts';
import { deviates } from '../../../../test/deviates.ts';
import { expectWithin } from '../../../../test/within.ts';
import { fitCurve } from '../curve/index.ts';
import { InvalidArgumentError } from '../errors.ts';
import { exactly } from '../estimate.ts';
import {
  generatedPaper,
  paperAtSetting,
  paperMap,
  paperMapFromGrades,
  paperResponse,
  printTone,
  type PaperMap,
} from '../paper/index.ts';
import { defaultTreatment, treatmentEffect } from '../treatment/index.ts';
import {
  callierFromPapers,
  callierFromPrints,
  callierFromTimes,
  logSecondsOfUnit,
  matchTones,
  sameGrade,
  secondsFromLog,
} from './index.ts';

const steps = Array.from({ length: 25 }, (_, i) => -1.2 + 0.125 * i);
function mapOf(noise: () => number = () => 0): PaperMap {
  const strips = [1.5, 1.25, 1.05, 0.85, 0.65].map((scale, i) => {
    const foot = Math.log(0.04 / 1.96);
    const k = (Math.log(9) - foot) / scale;
    const fit = fitCurve(
      {
        logExposures: steps,
        densities: steps.map((x) => 0.06 + 2 / (1 + Math.exp(-(k * (x + 0.4) + foot))) + noise()),
        unexposedDensities: [0.06 + noise(), 0.06 + noise()],
      },
      { family: 'logistic-4' },
    );
    if (fit.status !== 'ok') throw new Error(fit.reason);
    return { setting: String(i), curve: fit.curve };
  });
  const result = paperMap(strips);
  if (result.status !== 'ok') throw new Error(result.reason);
  return result.map;
}
const map = mapOf();
const wanted = (range: number, low = 0.1, high = 1.86) => ({
  shadow: { negativeDensity: { value: 0.35, standardError: 0.01 }, printDensity: high },
  highlight: {
    negativeDensity: { value: 0.35 + range, standardError: 0.01 },
    printDensity: low,
  },
});

describe('matchTones', () => {
  it('[ISO6846] at the ends of the scale the range is the scale', () => {
    // Net 0.04 and 90 % of net 2.00 on white 0.06.
    const match = matchTones(map, wanted(1.05));
    if (match.status !== 'ok') throw new Error(match.status);
    expectWithin(match.exposureScale.value, 1.05, 1e-4, 'scale');
    expectWithin(match.position.value, 2, 2e-3, 'setting');
    expect(match.nearest.setting).toBe('2');
    expectWithin(match.nearest.shadowPrintDensity, 1.86, 1e-3, 'shadow');
    // Threshold at -0.4, highlight at 1.40 on the negative: 10 units of exposure.
    expectWithin(match.nearest.logExposure!.value, -0.4 + 1.4, 1e-4, 'exposure');
  });

  it('prints both tones as wanted at the exact setting, whatever they are', () => {
    for (const [range, low, high] of [
      [1.2, 0.15, 1.9],
      [0.8, 0.2, 1.6],
      [0.7, 0.3, 1.7],
    ] as const) {
      const aims = wanted(range, low, high);
      const match = matchTones(map, aims);
      if (match.status !== 'ok') throw new Error(match.status);
      const { paper, threshold } = paperAtSetting(map, match.position.value);
      for (const { negativeDensity, printDensity } of Object.values(aims)) {
        const above = match.exact.logExposure!.value - threshold!.value - negativeDensity.value;
        const white = paperResponse(paper).whiteDensity!;
        expectWithin(white + printTone(paper, above).netDensity, printDensity, 1e-6, 'tone');
      }
      expect(match.position.interval![0]).toBeLessThan(match.position.value);
    }
  });

  it('has intervals that hold the truth about as often as they say', { timeout: 60_000 }, () => {
    const noise = deviates(1920);
    let held = 0;
    const runs = 30;
    let exposures = 0;
    for (let i = 0; i < runs; i++) {
      const one = mapOf(() => 0.01 * noise());
      const aims = wanted(1.15);
      const shifted = {
        shadow: {
          ...aims.shadow,
          negativeDensity: { value: 0.35 + 0.01 * noise(), standardError: 0.01 },
        },
        highlight: {
          ...aims.highlight,
          negativeDensity: { value: 1.5 + 0.01 * noise(), standardError: 0.01 },
        },
      };
      const match = matchTones(one, shifted);
      const truth = matchTones(map, aims);
      if (match.status !== 'ok' || truth.status !== 'ok') throw new Error(match.status);
      const [low, high] = match.position.interval!;
      if (low <= truth.position.value && truth.position.value <= high) held++;
      const light = secondsFromLog(match.nearest.logExposure!).interval!;
      const right = 10 ** truth.nearest.logExposure!.value;
      if (light[0] <= right && right <= light[1]) exposures++;
    }
    // 95 % of 30 is 28.5; three standard errors are 3.6.
    expect(held).toBeGreaterThan(24);
    expect(exposures).toBeGreaterThan(24);
  });

  it('works from a published table, without exposures', () => {
    const match = matchTones(paperMapFromGrades(ansiGradeTable), wanted(1.05));
    if (match.status !== 'ok') throw new Error(match.status);
    expectWithin(match.position.value, 2, 1e-6);
    expect(match.nearest.logExposure).toBeNull();
    expect(match.position.standardError).toBeGreaterThan(0);
  });

  it('says which end is passed and what is nearest', () => {
    expect(matchTones(map, wanted(1.8))).toMatchObject({
      status: 'not-reachable',
      reason: 'softer-than-softest',
      nearest: { setting: '0' },
    });
    const hard = matchTones(map, wanted(0.4));
    expect(hard).toMatchObject({ reason: 'harder-than-hardest', nearest: { setting: '4' } });
    if (hard.status !== 'not-reachable') throw new Error(hard.status);
    expect(hard.nearest.shadowPrintDensity).toBeLessThan(1.86);
  });

  it('refuses tones in the wrong order and outside the paper, with what is possible', () => {
    expect(matchTones(map, wanted(-0.5))).toMatchObject({
      status: 'refused',
      reason: 'highlight-thinner-than-shadow',
      nearest: { shadow: { negativeDensity: { value: expect.closeTo(-0.15) as number } } },
    });
    expect(matchTones(map, wanted(1, 1.8, 0.2))).toMatchObject({
      reason: 'highlight-darker-than-shadow',
      nearest: { highlight: { printDensity: 0.2 } },
    });
    expect(matchTones(map, wanted(1, 0.1, 2.5))).toMatchObject({ reason: 'shadow-outside-paper' });
    const light = matchTones(map, wanted(1, 0.03));
    expect(light).toMatchObject({ reason: 'highlight-outside-paper' });
    expect(() => matchTones(map, wanted(NaN))).toThrow(InvalidArgumentError);
  });
});

describe('seconds', () => {
  it('come from one print whose time is known', () => {
    const { paper, threshold } = paperAtSetting(map, 2);
    // 12 s printed net 0.04 through density 1.2: the unit is 12 / 10^(-0.4 + 1.2) seconds.
    const c = logSecondsOfUnit(
      paper,
      { seconds: 12, negativeDensity: exactly(1.2), printDensity: exactly(0.1) },
      0.06,
    )!;
    expectWithin(c.value, Math.log10(12) - (threshold!.value + 1.2), 1e-5);
    expect(c.standardError).toBeNull();
    const light = { seconds: 12, negativeDensity: exactly(1.2), printDensity: exactly(0.05) };
    expect(logSecondsOfUnit(paper, light, 0.06)).toBeNull();
    expect(() => logSecondsOfUnit(paper, { ...light, seconds: 0 }, 0.06)).toThrow();
  });
  it('have an interval that is even in stops', () => {
    const { value, interval } = secondsFromLog({ value: 1, standardError: 0.05 });
    expectWithin(value, 10, 1e-12);
    expectWithin(interval![0] * interval![1], 100, 1e-9);
  });
});

describe('the Callier factor', () => {
  it('is the slope of log time over density', () => {
    const patches = [0.2, 0.6, 1, 1.4].map((density) => ({
      density,
      seconds: 8 * 10 ** (1.25 * (density - 0.2)),
    }));
    const exact = callierFromTimes(patches);
    expectWithin(exact.value, 1.25, 1e-12);
    expectWithin(exact.standardError!, 0, 1e-12);
    expect(callierFromTimes(patches.slice(0, 2)).standardError).toBeNull();
    expect(() => callierFromTimes(patches.slice(0, 1))).toThrow(InvalidArgumentError);
    expect(() => callierFromTimes([{ density: 0, seconds: 0 }, patches[1]!])).toThrow();
  });

  it('is the ratio of the ranges that one paper sees under two lights', () => {
    const paper = generatedPaper(1.2);
    const pair = (range: number) => ({
      highlightPrintDensity: {
        value: 0.06 + printTone(paper, 0.1).netDensity,
        standardError: 0.01,
      },
      shadowPrintDensity: {
        value: 0.06 + printTone(paper, 0.1 + range).netDensity,
        standardError: 0.01,
      },
    });
    const q = callierFromPrints(paper, pair(0.8), pair(1), 0.06)!;
    expectWithin(q.value, 1.25, 1e-9);
    expect(q.standardError).toBeGreaterThan(0);
    const reversed = pair(-0.05);
    expect(callierFromPrints(paper, pair(0.8), reversed, 0.06)).toBeNull();
  });

  it('by prints of one negative is as sure as the prints and the paper’s strip make it', () => {
    // [derived] A logistic paper, D = 0.06 + 2 / (1 + exp(-4.5 x)); its inverse gives the true prints.
    const density = (x: number) => 0.06 + 2 / (1 + Math.exp(-4.5 * x));
    const truth = 1.25;
    const spots = { highlight: -0.45, diffuseRange: 0.65 };
    const normal = deviates(29);
    const reading = (x: number) => ({ value: density(x) + 0.01 * normal(), standardError: 0.01 });
    const pair = (range: number) => ({
      highlightPrintDensity: reading(spots.highlight),
      shadowPrintDensity: reading(spots.highlight + range),
    });
    const runs = Array.from({ length: 250 }, () => {
      const xs = Array.from({ length: 21 }, (_, i) => -1.5 + 0.15 * i);
      const fit = fitCurve(
        { logExposures: xs, densities: xs.map((x) => density(x) + 0.01 * normal()) },
        { family: 'logistic-4' },
      );
      if (fit.status !== 'ok') throw new Error(fit.reason);
      const paper = { kind: 'strip', exposureScale: 1.05, curve: fit.curve } as const;
      const of = callierFromPrints(
        paper,
        pair(spots.diffuseRange),
        pair(truth * spots.diffuseRange),
        0.06,
      )!;
      return { of, exactPrints: callierFromPrints(paper, exact(0.65), exact(0.8125), 0.06)! };
    });
    function exact(range: number) {
      return {
        highlightPrintDensity: exactly(density(spots.highlight)),
        shadowPrintDensity: exactly(density(spots.highlight + range)),
      };
    }
    for (const which of ['of', 'exactPrints'] as const) {
      const values = runs.map((run) => run[which].value);
      const mean = values.reduce((a, b) => a + b, 0) / runs.length;
      const scatter = Math.sqrt(
        values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (runs.length - 1),
      );
      const stated = Math.sqrt(
        runs.reduce((sum, run) => sum + run[which].standardError! ** 2, 0) / runs.length,
      );
      expectWithin(mean, truth, (4 * scatter) / Math.sqrt(runs.length), which);
      // 250 runs know their scatter to 4.5 %.
      expectWithin(stated / scatter, 1, 0.18, which);
    }
  });

  it('is the ratio of the scales of two papers that print a negative alike', () => {
    const q = callierFromPapers(
      { value: 1.2, standardError: 0.03 },
      { value: 1, standardError: 0.04 },
    );
    expectWithin(q.value, 1.2, 1e-12);
    expectWithin(q.standardError!, 1.2 * Math.hypot(0.025, 0.04), 1e-12);
    expect(() => callierFromPapers(exactly(0), exactly(1))).toThrow(InvalidArgumentError);
  });
});

describe('the same grade after a bath', () => {
  const printing = {
    baseFog: 0.1,
    callierFactor: 1.1,
    enlargerFlare: 0.005,
    paper: generatedPaper(1.05),
    paperWhiteDensity: 0.06,
  };
  const effect = treatmentEffect(defaultTreatment(seleniumDefaults), {
    partsWater: 3,
    minutes: 8,
    celsius: 20,
  });
  const densities = Array.from({ length: 23 }, (_, i) => 0.1 + 0.05 * i);
  const aim = { negativeDensity: 1, printDensity: 0.12 };

  it('holds the highlight, asks for more exposure, and lightens nothing that is denser', () => {
    const same = sameGrade(printing, effect, aim, densities);
    if (same.status !== 'ok') throw new Error(same.status);
    const at = same.tones.find(({ negativeDensity }) => Math.abs(negativeDensity - 1) < 1e-9)!;
    expectWithin(at.printBefore, 0.12, 1e-9);
    expectWithin(at.printAfter, 0.12, 1e-9);
    // Without flare it is Q (k - 1) u / 0.30103 stops: 1.1 x (k - 1) x 0.9.
    const plain = sameGrade({ ...printing, enlargerFlare: 0 }, effect, aim, densities);
    if (plain.status !== 'ok') throw new Error(plain.status);
    const stops = (1.1 * (effect.gain.value - 1) * 0.9) / Math.log10(2);
    expectWithin(plain.exposureChangeStops.value, stops, 1e-9);
    for (const tone of same.tones) {
      if (tone.negativeDensity < 1) {
        expect(tone.printAfter).toBeGreaterThanOrEqual(tone.printBefore - 1e-9);
      }
    }
  });

  it('gains separation where it says, by differences of the printed lightness', () => {
    const same = sameGrade(printing, effect, aim, densities);
    if (same.status !== 'ok') throw new Error(same.status);
    expect(same.gains.length).toBeGreaterThan(0);
    const inside = (density: number) =>
      same.gains.some(([low, high]) => density >= low && density <= high);
    same.tones.forEach(({ separationBefore, separationAfter, negativeDensity }, i) => {
      expect(separationAfter > separationBefore).toBe(inside(negativeDensity));
      const [before, after] = [same.tones[i - 1], same.tones[i + 1]];
      if (!before || !after) return;
      const chord = (after.lightnessAfter - before.lightnessAfter) / 0.1;
      // The grid is coarse and separation bends; a tenth of it.
      expectWithin(separationAfter, chord, 0.1 * Math.max(20, chord), `at ${negativeDensity}`);
    });
  });

  it('carries the error of the gain', () => {
    const known = { ...effect, gain: { ...effect.gain, standardError: 0.02 } };
    const same = sameGrade({ ...printing, enlargerFlare: 0 }, known, aim, densities);
    if (same.status !== 'ok') throw new Error(same.status);
    const expected = (1.1 * 0.9 * 0.02) / Math.log10(2);
    expectWithin(same.exposureChangeStops.standardError!, expected, 1e-6);
  });

  it('says what the paper reaches, and refuses densities out of order', () => {
    const dark = { ...aim, printDensity: 2.3 };
    expect(sameGrade(printing, effect, dark, densities)).toMatchObject({ status: 'outside-paper' });
    expect(() => sameGrade(printing, effect, aim, [1, 0.5])).toThrow(InvalidArgumentError);
    expect(() => sameGrade(printing, effect, aim, [])).toThrow(InvalidArgumentError);
  });
});
