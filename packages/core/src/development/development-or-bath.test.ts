import { describe, expect, it } from 'vitest';
import { deviates } from '../../../../test/deviates.ts';
import { expectWithin } from '../../../../test/within.ts';
import { fitCurve, logExposureAt, type CharacteristicCurve } from '../curve/index.ts';
import { InvalidArgumentError } from '../errors.ts';
import { LOG_STOP } from '../readings/index.ts';
import {
  contrastForPaper,
  developmentOrBath,
  developmentPlan,
  fitContrastModel,
  fitSpeedModel,
  type ContrastModel,
} from './index.ts';

const law = (minutes: number) => 0.95 * (1 - Math.exp(-0.12 * (minutes - 0.8)));
const TIMES = [4, 6, 9, 13, 18];

function model(): ContrastModel {
  const fit = fitContrastModel(
    TIMES.map((minutes) => ({
      minutes,
      contrast: { value: law(minutes), standardError: 0.005 },
    })),
    { temperatureCoefficient: 2.5 },
  );
  if (fit.status !== 'ok') throw new Error(fit.reason);
  return fit.model;
}

/** D = 0.1 + 0.6 · 0.2 ln(1 + exp((x + 2)/0.2)). */
function curve(): CharacteristicCurve {
  const logExposures = Array.from({ length: 21 }, (_, i) => -3 + 0.15 * i);
  const fit = fitCurve({
    logExposures,
    densities: logExposures.map((x) => 0.1 + 0.12 * Math.log1p(Math.exp((x + 2) / 0.2))),
    unexposedDensities: [0.1],
  });
  if (fit.status !== 'ok') throw new Error(fit.reason);
  return fit.curve;
}

describe('N+n by development or by a bath', () => {
  const speed = fitSpeedModel(
    TIMES.map((minutes) => ({
      minutes,
      logExposure: { value: -2 - 0.1 * Math.log(minutes / 8), standardError: 0.01 },
    })),
    { temperatureCoefficient: 2.5 },
  );
  const options = { normalContrast: 0.55, speed, greatestGain: 1.2, curve: curve() };

  it('reaches the same contrast by both, 7/6 of that of N for N+1', () => {
    const compared = developmentOrBath(model(), options);
    expectWithin(compared.gainAskedFor, 7 / 6, 1e-12);
    expectWithin(compared.development.contrast, (0.55 * 7) / 6, 1e-12);
    expectWithin(compared.bath.contrast, compared.development.contrast, 1e-12);
    expectWithin(law(compared.development.minutes!.value), (0.55 * 7) / 6, 1e-4);
    expectWithin(law(compared.bath.minutes!.value), 0.55, 1e-4);
  });

  it('development gains speed and the bath hardly any', () => {
    const { development, bath } = developmentOrBath(model(), options);
    const plan = developmentPlan(model(), { normalContrast: 0.55, speed, changes: [1] });
    expectWithin(development.speedChangeStops!, plan[0]!.speedChangeStops!, 1e-12);
    // Published: gain k carries the speed point from net 0.10 to net 0.10 / k.
    const own = curve();
    const moved = logExposureAt(own, 0.2)! - logExposureAt(own, 0.1 + 0.1 / (7 / 6))!;
    expectWithin(bath.speedChangeStops!, moved / LOG_STOP, 1e-3);
    expect(bath.exposureIndex!.exact.value).toBeLessThan(development.exposureIndex!.exact.value);
  });

  it('says where a way falls short, and by how much', () => {
    const weak = developmentOrBath(model(), { ...options, greatestGain: 1.1 });
    expect(weak.bath).toMatchObject({ reachable: false, gain: 1.1 });
    const far = developmentOrBath(model(), { ...options, normalContrast: 0.85, greatestGain: 1.3 });
    expect(far.development).toMatchObject({ reachable: false, minutes: null });
    expectWithin(far.development.contrast, model().contrastInfinity!.value, 1e-12);
    expect(far.bath.reachable).toBe(true);
  });

  it('without speed points or a curve says nothing of speed', () => {
    const { development, bath } = developmentOrBath(model(), {
      normalContrast: 0.55,
      greatestGain: 1.2,
    });
    expect(development).toMatchObject({ exposureIndex: null, speedChangeStops: null });
    expect(bath.speedChangeStops).toBeNull();
  });

  it.each([
    ['change', { change: 0 }],
    ['change', { change: NaN }],
    ['greatestGain', { greatestGain: 0.9 }],
    ['greatestGain', { greatestGain: NaN }],
  ])('refuses a bad %s', (name, bad) => {
    expect(() => developmentOrBath(model(), { ...options, ...bad })).toThrow(InvalidArgumentError);
    expect(() => developmentOrBath(model(), { ...options, ...bad })).toThrow(name);
  });
});

describe('contrast for a paper', () => {
  it('[derived] 1.05 over 2.20 less 0.40 is 0.583', () => {
    const { contrast, imageStops } = contrastForPaper({
      exposureScale: 1.05,
      subjectRangeStops: 2.2 / LOG_STOP,
      flareFactor: 10 ** 0.4,
    });
    expectWithin(contrast, 0.583, 5e-4);
    expectWithin(imageStops, 1.8 / LOG_STOP, 1e-9);
  });

  it('asks a condenser negative for less', () => {
    const diffuse = contrastForPaper({ exposureScale: 1.05, subjectRangeStops: 7 });
    const condenser = contrastForPaper({
      exposureScale: 1.05,
      subjectRangeStops: 7,
      callierFactor: 1.25,
    });
    expectWithin(condenser.contrast, diffuse.contrast / 1.25, 1e-12);
    expectWithin(condenser.densityRange, 0.84, 1e-12);
  });

  it('is as sure as scale and factor are together', () => {
    const normal = deviates(19);
    const scene = { exposureScale: 1.05, subjectRangeStops: 7, callierFactor: 1.25 };
    const errors = { exposureScaleError: 0.02, callierFactorError: 0.03 };
    const contrasts = Array.from(
      { length: 10_000 },
      () =>
        contrastForPaper({
          ...scene,
          exposureScale: scene.exposureScale + errors.exposureScaleError * normal(),
          callierFactor: scene.callierFactor + errors.callierFactorError * normal(),
        }).contrast,
    );
    const mean = contrasts.reduce((a, b) => a + b, 0) / contrasts.length;
    const scatter = Math.sqrt(
      contrasts.reduce((sum, c) => sum + (c - mean) ** 2, 0) / (contrasts.length - 1),
    );
    const { contrastError } = contrastForPaper({ ...scene, ...errors });
    // 10,000 draws know their scatter to 0.7 %.
    expectWithin(contrastError! / scatter, 1, 0.03);
    expect(contrastForPaper(scene).contrastError).toBeNull();
  });

  it.each([
    ['subjectRangeStops', { subjectRangeStops: NaN }],
    ['flareFactor', { flareFactor: 0.5 }],
    ['callierFactor', { callierFactor: 0 }],
    ['callierFactorError', { callierFactorError: -0.1 }],
    ['exposureScaleError', { exposureScaleError: NaN }],
    ['exposureScale', { exposureScale: -1 }],
    ['subjectLogRange', { subjectRangeStops: 1, flareFactor: 4 }],
  ])('refuses a bad %s', (name, bad) => {
    const scene = { exposureScale: 1.05, subjectRangeStops: 7, ...bad };
    expect(() => contrastForPaper(scene)).toThrow(InvalidArgumentError);
    expect(() => contrastForPaper(scene)).toThrow(name);
  });
});
