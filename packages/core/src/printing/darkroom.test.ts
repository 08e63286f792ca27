import { describe, expect, it } from 'vitest';
import { expectWithin, printedTo } from '../../../../test/within.ts';
import { fitCurve } from '../curve/index.ts';
import { InvalidArgumentError, OutOfDomainError } from '../errors.ts';
import { generatedPaper } from '../paper/index.ts';
import {
  darkroomTable,
  distanceForMagnification,
  dryDown,
  dryDownPercent,
  followTone,
  fourQuadrants,
  magnificationAtDistance,
  safelightTest,
  splitTestPlan,
  timeForAperture,
  timeForMagnification,
  usefulSubjectRange,
  type ToneChain,
} from './index.ts';

describe('darkroomTable', () => {
  it('[published] on 25.4 s a dodge of a third is 5.2 s and a burn of a half is 10.5 s', () => {
    const steps = darkroomTable(
      [{ light: '2', seconds: 25.4 }],
      [
        { area: 'sky', light: '2', stops: 0.5 },
        { area: 'face', light: '2', stops: -1 / 3 },
      ],
    );
    expect(steps.map(({ kind, area }) => [kind, area])).toEqual([
      ['whole', ''],
      ['dodge', 'face'],
      ['burn', 'sky'],
    ]);
    expectWithin(steps[1]!.seconds, 5.2, printedTo(1));
    expectWithin(steps[2]!.seconds, 10.5, printedTo(1));
    expectWithin(steps[1]!.cumulativeSeconds, 25.4, 1e-9);
    expectWithin(steps[2]!.cumulativeSeconds, 25.4 + 10.5, 1e-9);
    expectWithin(steps[1]!.totalSeconds, 25.4 - 5.2, 1e-9);
  });

  it('keeps lights apart and tells what rounding to the timer does', () => {
    const steps = darkroomTable(
      [
        { light: 'soft', seconds: 6.3 },
        { light: 'hard', seconds: 4.7 },
      ],
      [{ area: 'corner', light: 'hard', stops: 1 }],
      0.5,
    );
    expect(steps.map(({ timerSeconds }) => timerSeconds)).toEqual([6.5, 4.5, 4.5]);
    expectWithin(steps[0]!.roundingStops, Math.log2(6.5 / 6.3), 1e-12);
    expectWithin(steps[2]!.roundingStops, Math.log2(9 / 9.4), 1e-12);
    expect(steps[2]!.totalSeconds).toBe(9);
    expect(steps[2]!.cumulativeSeconds).toBe(15.5);
  });

  it('refuses times, areas and timers that are none', () => {
    const whole = [{ light: 'soft', seconds: 5 }];
    expect(() => darkroomTable([{ light: 'soft', seconds: 0 }])).toThrow(InvalidArgumentError);
    expect(() => darkroomTable(whole, [{ area: 'a', light: 'hard', stops: 1 }])).toThrow();
    expect(() => darkroomTable(whole, [{ area: 'a', light: 'soft', stops: NaN }])).toThrow();
    expect(() => darkroomTable(whole, [], 0)).toThrow(InvalidArgumentError);
  });
});

describe('splitTestPlan', () => {
  it('puts the expected times in the middle, patches equal stops apart', () => {
    const plan = splitTestPlan(8, 12, 0.25, 7);
    expectWithin(plan.soft[3]!.totalSeconds, 8, 1e-12);
    expectWithin(plan.hard.patches[3]!.totalSeconds, 12, 1e-12);
    expect(plan.hard.softSeconds).toBe(8);
    expectWithin(plan.soft[4]!.totalSeconds / plan.soft[3]!.totalSeconds, 2 ** 0.25, 1e-12);
    expect(() => splitTestPlan(8, 12, 0.25, 6)).toThrow(InvalidArgumentError);
    expect(() => splitTestPlan(0, 12, 0.25, 7)).toThrow(InvalidArgumentError);
  });
});

describe('the enlarger', () => {
  it('[derived] life size in focus is four focal lengths, and the two functions are inverse', () => {
    expect(distanceForMagnification(1, 50)).toBe(200);
    for (const m of [1, 2, 3.7, 10]) {
      expectWithin(magnificationAtDistance(distanceForMagnification(m, 80), 80), m, 1e-9);
    }
    expect(() => magnificationAtDistance(199, 50)).toThrow(OutOfDomainError);
    expect(() => distanceForMagnification(0, 50)).toThrow(InvalidArgumentError);
  });
  it('[published] from magnification 2 to 4 takes 2.7778 times as long', () => {
    const [low, high] = [2, 4].map((m) => distanceForMagnification(m, 80));
    const factor = timeForMagnification(
      1,
      magnificationAtDistance(low!, 80),
      magnificationAtDistance(high!, 80),
    );
    expectWithin(factor, 2.7778, printedTo(4));
  });
  it('[published] 10 s at f/8 are 5 s at f/5.6 to the rounding of the f-number', () => {
    expectWithin(timeForAperture(10, 8, 5.6), 5, 0.11);
    expect(() => timeForAperture(10, 8, NaN)).toThrow(InvalidArgumentError);
  });
  it('[published] takes a tenth off for dry-down', () => {
    expectWithin(dryDown(20, 10).seconds, 18, 1e-12);
    expectWithin(dryDown(20, 10).stops, Math.log2(0.9), 1e-12);
    expect(dryDown(20, 0).stops).toBe(0);
    expectWithin(dryDownPercent(0.4, 0.4 - Math.log10(0.9), 1), 10, 1e-9);
    expect(dryDownPercent(0.4, 0.38, 1)).toBe(0);
    expect(() => dryDown(20, 60)).toThrow(InvalidArgumentError);
    expect(() => dryDownPercent(0.4, NaN, 1)).toThrow(InvalidArgumentError);
  });
});

describe('safelightTest', () => {
  const fogged = (tau: number, gradient = 1, scatter = 0.002) =>
    [0, 0, 1, 2, 4, 7, 10].map((minutes, i) => ({
      minutes,
      density: 0.3 + gradient * Math.log10(1 + minutes / tau) + scatter * Math.sin(7 * i),
    }));
  it('[derived] finds the time at which added light raises the patch by 0.02', () => {
    const result = safelightTest(fogged(100, 1, 0));
    if (result.status !== 'ok') throw new Error(result.status);
    expectWithin(result.fogMinutes.value, 100 * (10 ** 0.02 - 1), 1e-6);
    const steep = safelightTest(fogged(100, 2, 0), { gradient: 2 });
    if (steep.status !== 'ok') throw new Error(steep.status);
    expectWithin(steep.fogMinutes.value, 100 * (10 ** 0.01 - 1), 1e-6);
  });
  it('stays on the safe side of scatter', () => {
    const result = safelightTest(fogged(100));
    if (result.status !== 'ok') throw new Error(result.status);
    expect(result.safeMinutes).toBeLessThan(result.fogMinutes.value);
    expect(result.safeMinutes).toBeLessThan(100 * (10 ** 0.02 - 1));
    expect(result.patchInRange).toBe(true);
  });
  it('claims no more than was tried where no fog is seen', () => {
    expect(safelightTest(fogged(1e5, 1, 0.0005))).toMatchObject({
      status: 'no-fog-seen',
      atLeastMinutes: 10,
    });
  });
  it('says what is missing, and when the patch was not where fog shows', () => {
    expect(safelightTest(fogged(100).slice(2))).toMatchObject({ reason: 'no-covered-part' });
    expect(safelightTest(fogged(100).slice(0, 4))).toMatchObject({ reason: 'too-few' });
    const light = fogged(100).map((one) => ({ ...one, density: one.density - 0.2 }));
    expect(safelightTest(light)).toMatchObject({ patchInRange: false });
    expect(() => safelightTest([{ minutes: -1, density: 0.3 }])).toThrow(InvalidArgumentError);
    expect(() => safelightTest(fogged(100), { gradient: 0 })).toThrow(InvalidArgumentError);
  });
});

const chain: ToneChain = (() => {
  const logExposures = Array.from({ length: 25 }, (_, i) => -3.2 + 0.15 * i);
  const densities = logExposures.map((x) => 0.12 + 0.14 * Math.log1p(Math.exp((x + 2.2) / 0.2)));
  const fit = fitCurve({ logExposures, densities, unexposedDensities: [0.12] });
  if (fit.status !== 'ok') throw new Error(fit.reason);
  return {
    film: fit.curve,
    logExposureAtZero: -1.2,
    cameraFlareExposure: 0.002,
    printing: {
      baseFog: 0.12,
      effect: null,
      callierFactor: 1,
      enlargerFlare: 0,
      paper: generatedPaper(1.05),
      paperWhiteDensity: 0.06,
      printLogExposure: 1.25,
    },
  };
})();

describe('usefulSubjectRange', () => {
  it('ends where a stop makes less than the lightness asked for', () => {
    const range = usefulSubjectRange(chain, { leastLightnessPerStop: 3 });
    if (range.status !== 'ok') throw new Error(range.status);
    for (const { tone } of [range.shadow, range.highlight]) {
      expectWithin(tone.lightnessGradient * Math.log10(2), 3, 1e-4);
    }
    expect(range.stops).toBeGreaterThan(4);
    expect(range.highlight.lostTo).toBe('paper');
  });

  it('names flare, and film, where they lose the shadows', () => {
    const flared = usefulSubjectRange({ ...chain, cameraFlareExposure: 0.05 });
    const plain = usefulSubjectRange({ ...chain, cameraFlareExposure: 0 });
    if (flared.status !== 'ok' || plain.status !== 'ok') throw new Error('no range');
    expect(flared.shadow.lostTo).toBe('camera-flare');
    expect(['film', 'paper']).toContain(plain.shadow.lostTo);
  });

  it('says when nothing is separated, or the search ended first', () => {
    expect(usefulSubjectRange(chain, { leastLightnessPerStop: 50 })).toEqual({ status: 'none' });
    const cut = usefulSubjectRange(chain, { from: -0.3, to: 0.2 });
    expect(cut).toMatchObject({ shadow: { lostTo: null }, highlight: { lostTo: null } });
    expect(() => usefulSubjectRange(chain, { from: 1, to: 0 })).toThrow(InvalidArgumentError);
    expect(() => usefulSubjectRange(chain, { leastLightnessPerStop: NaN })).toThrow();
  });
});

describe('fourQuadrants', () => {
  it('[JONES1920] leads every tone once round through all four', () => {
    const { camera, film, paper, reproduction, tones } = fourQuadrants(chain, -2, 1.5, 36);
    expect(tones).toHaveLength(36);
    tones.forEach((tone, i) => {
      expect(camera[i]!.y).toBe(film[i]!.x);
      expect(film[i]!.y).toBe(paper[i]!.x);
      expect(paper[i]!.y).toBe(reproduction[i]!.y);
      expect(reproduction[i]!.x).toBe(camera[i]!.x);
      expect(tone.printDensity).toBe(followTone(chain, tone.logLuminance).printDensity);
    });
    expect(() => fourQuadrants(chain, 1, -1)).toThrow(InvalidArgumentError);
    expect(() => fourQuadrants(chain, -1, 1, 1)).toThrow(InvalidArgumentError);
  });
});
