import { describe, expect, it } from 'vitest';
import { deviates } from '../../../../test/deviates.ts';
import { expectWithin } from '../../../../test/within.ts';
import { InvalidArgumentError, OutOfDomainError } from '../errors.ts';
import {
  activationEnergy,
  coefficientFromFactor,
  contrastAt,
  contrastFactor,
  developmentPlan,
  developmentTimeRatio,
  equivalentMinutes,
  exposureIndexAt,
  firstOrderFromThreeTimes,
  firstOrderFromTwoTimes,
  fitContrastModel,
  fitSpeedModel,
  minutesForContrast,
  requiredGradient,
  type ContrastModel,
  type ContrastModelOptions,
  type ContrastReading,
} from './index.ts';

const TIMES = [4, 6, 9, 13, 18];
const law = (minutes: number) => 0.95 * (1 - Math.exp(-0.12 * (minutes - 0.8)));
const reading = (minutes: number, value = law(minutes)): ContrastReading => ({
  minutes,
  contrast: { value, standardError: 0.005 },
});
const fitted = (
  readings: readonly ContrastReading[],
  options: Partial<ContrastModelOptions> = {},
): ContrastModel => {
  const fit = fitContrastModel(readings, { temperatureCoefficient: 2.5, ...options });
  if (fit.status !== 'ok') throw new Error(fit.reason);
  return fit.model;
};
describe('contrast against time', () => {
  it('keeps the first-order law where it is true, and takes the log-linear one where that is', () => {
    expect(fitted(TIMES.map((t) => reading(t))).family).toBe('first-order');
    const line = fitted(TIMES.map((t) => reading(t, 0.1 + 0.28 * Math.log(t))));
    expect(line.family).toBe('log-linear');
    expect(line.contrastInfinity).toBeNull();
    expectWithin(contrastAt(line, 11).value, 0.1 + 0.28 * Math.log(11), 1e-6);
    expectWithin(line.delayMinutes.value, Math.exp(-0.1 / 0.28), 1e-5);
  });

  it('does not mind the order of the strips and changes none of them', () => {
    const readings = Object.freeze(TIMES.map((t) => Object.freeze(reading(t))));
    const there = fitted(readings);
    const back = fitted([...readings].reverse());
    expectWithin(back.rate.value, there.rate.value, 1e-9);
  });

  it('counts what clock, thermometer and agitation do, as strips mistimed by 1.5 % scatter', () => {
    const normal = deviates(1905);
    // Three strips settle the law and leave nothing that could tell of the scatter.
    const runs = Array.from({ length: 1500 }, () => {
      const readings = [4, 8, 14].map((t) => ({
        minutes: t,
        contrast: {
          value: law(t * Math.exp(0.015 * normal())) + 0.003 * normal(),
          standardError: 0.003,
        },
      }));
      const at = (options: Partial<ContrastModelOptions>) =>
        contrastAt(fitted(readings, { family: 'first-order', ...options }), 8);
      return { counted: at({}), exact: at({ timingDeviation: 0 }) };
    });
    const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
    const middle = mean(runs.map(({ counted }) => counted.value));
    const scatter = Math.sqrt(mean(runs.map(({ counted }) => (counted.value - middle) ** 2)));
    const stated = (which: 'counted' | 'exact') =>
      Math.sqrt(mean(runs.map((run) => run[which].standardError! ** 2)));
    // 1,500 runs know their scatter to 1.8 %.
    expectWithin(stated('counted') / scatter, 1, 0.08);
    expect(stated('exact') / scatter).toBeLessThan(0.8);
  });

  it('tells the deviation that it counts, none for a guess, and refuses what cannot be', () => {
    const readings = TIMES.map((t) => reading(t));
    expect(fitted(readings).timingDeviation).toBe(0.015);
    expect(fitted(readings, { timingDeviation: 0.03 }).timingDeviation).toBe(0.03);
    expect(fitted([reading(8)]).timingDeviation).toBe(0);
    for (const timingDeviation of [NaN, -0.01, 0.6]) {
      expect(() => fitted(readings, { timingDeviation })).toThrow(InvalidArgumentError);
      const points = [{ minutes: 8, logExposure: { value: -2, standardError: 0.01 } }];
      expect(() => fitSpeedModel(points, { temperatureCoefficient: 2.5, timingDeviation })).toThrow(
        InvalidArgumentError,
      );
    }
  });

  it('95 % intervals cover the truth in a generated study, contrasts with errors of 0.01', () => {
    let contrastHeld = 0;
    let minutesHeld = 0;
    const count = 600;
    const normal = deviates(1920);
    for (let i = 0; i < count; i++) {
      const readings = TIMES.map((t) => ({
        minutes: t,
        contrast: { value: law(t) + 0.01 * normal(), standardError: 0.01 },
      }));
      const model = fitted(readings);
      const contrast = contrastAt(model, 11);
      if (Math.abs(contrast.value - law(11)) <= 1.96 * contrast.standardError!) contrastHeld++;
      const answer = minutesForContrast(model, law(7));
      if (answer.status !== 'ok') continue;
      const { value, standardError } = answer.minutes;
      if (Math.abs(value - 7) <= 1.96 * standardError!) minutesHeld++;
    }
    // Three standard errors of a share of 0.95 among 600 are 0.027.
    expect(contrastHeld / count).toBeGreaterThan(0.923);
    expect(minutesHeld / count).toBeGreaterThan(0.923);
  }, 30_000);

  it('with one time calls its answer a guess', () => {
    const fit = fitContrastModel([reading(8)], { temperatureCoefficient: 2.5 });
    if (fit.status !== 'ok') throw new Error(fit.reason);
    expect(fit.model.basis).toBe('scaled-guess');
    expect(fit.warnings.map(({ code }) => code)).toEqual(['development-scaled-guess']);
    expectWithin(contrastAt(fit.model, 8).value, law(8), 1e-12);
    expect(contrastAt(fit.model, 8).standardError).toBeNull();
  });

  it('with two times that no first-order law without delay can join takes the log-linear one', () => {
    const model = fitted([reading(4, 0.3), reading(8, 0.7)]);
    expect(model.family).toBe('log-linear');
    expectWithin(contrastAt(model, 8).value, 0.7, 1e-9);
  });

  it('gives no model where contrast falls with time, or there are no strips', () => {
    expect(
      fitContrastModel([reading(4, 0.8), reading(8, 0.6), reading(12, 0.5)], {
        temperatureCoefficient: 2.5,
      }),
    ).toMatchObject({ status: 'not-determined', reason: 'contrast-does-not-rise' });
    expect(fitContrastModel([], { temperatureCoefficient: 2.5 })).toMatchObject({
      status: 'not-determined',
      reason: 'no-strips',
    });
  });

  it('moves times with the temperature', () => {
    const model = fitted(TIMES.map((t) => reading(t)));
    const at = (celsius: number) => {
      const answer = minutesForContrast(model, 0.5, celsius);
      return answer.status === 'ok' ? answer.minutes.value : NaN;
    };
    expectWithin(at(24), equivalentMinutes(at(20), 20, 24, 2.5), 1e-9);
    expectWithin(contrastAt(model, at(24), 24).value, 0.5, 1e-9);
  });

  it.each([NaN, 0, -1, Infinity])('refuses %f minutes or contrast', (bad) => {
    const options = { temperatureCoefficient: 2.5 };
    expect(() => fitContrastModel([reading(bad, 0.5)], options)).toThrow(InvalidArgumentError);
    expect(() => fitContrastModel([reading(5, bad)], options)).toThrow(InvalidArgumentError);
    const model = fitted(TIMES.map((t) => reading(t)));
    expect(() => contrastAt(model, bad)).toThrow(InvalidArgumentError);
    expect(() => minutesForContrast(model, bad)).toThrow(InvalidArgumentError);
  });

  it.each([NaN, -10, 90])('refuses %f °C', (celsius) => {
    const model = fitted(TIMES.map((t) => reading(t)));
    expect(() => contrastAt(model, 8, celsius)).toThrow(InvalidArgumentError);
    expect(() => minutesForContrast(model, 0.5, celsius)).toThrow(InvalidArgumentError);
  });

  it('survives JSON', () => {
    const model = fitted(TIMES.map((t) => reading(t)));
    expect(JSON.parse(JSON.stringify(model))).toEqual(model);
  });
});

describe('exposure index against time', () => {
  it('counts what timing does to a speed point that moves with time', () => {
    const normal = deviates(1907);
    const point = (t: number) => -2 - 0.6 * Math.log(t / 8);
    const runs = Array.from({ length: 2000 }, () => {
      const points = [5, 12].map((t) => ({
        minutes: t,
        logExposure: {
          value: point(t * Math.exp(0.015 * normal())) + 0.004 * normal(),
          standardError: 0.004,
        },
      }));
      return exposureIndexAt(fitSpeedModel(points, { temperatureCoefficient: 2.5 }), 8).exact;
    });
    const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
    const middle = mean(runs.map(({ value }) => value));
    const scatter = Math.sqrt(mean(runs.map(({ value }) => (value - middle) ** 2)));
    const stated = Math.sqrt(mean(runs.map(({ standardError }) => standardError! ** 2)));
    // 2,000 runs know their scatter to 1.6 %.
    expectWithin(stated / scatter, 1, 0.07);
  });

  const speed = fitSpeedModel(
    TIMES.map((minutes) => ({
      minutes,
      logExposure: { value: -2 - 0.1 * Math.log(minutes / 8), standardError: 0.01 },
    })),
    { temperatureCoefficient: 2.5 },
  );

  it('reads the speed point at the very time', () => {
    // log H_m = -2 at 8 minutes: 0.8 / 0.01 = 80.
    const index = exposureIndexAt(speed, 8);
    expectWithin(index.exact.value, 80, 1e-6);
    expect(index).toMatchObject({ arithmetic: 80, degrees: 20 });
    expect(index.exact.standardError).toBeGreaterThan(0);
    expect(exposureIndexAt(speed, 14).exact.value).toBeGreaterThan(80);
  });

  it('with one strip is the same at every time, without an error', () => {
    const one = fitSpeedModel([{ minutes: 8, logExposure: { value: -2, standardError: null } }], {
      temperatureCoefficient: 2.5,
    });
    expectWithin(exposureIndexAt(one, 12).exact.value, 80, 1e-9);
    expect(exposureIndexAt(one, 12).exact.standardError).toBeNull();
  });

  it('refuses nothing and nonsense', () => {
    const options = { temperatureCoefficient: 2.5 };
    expect(() => fitSpeedModel([], options)).toThrow(InvalidArgumentError);
    expect(() =>
      fitSpeedModel([{ minutes: NaN, logExposure: { value: -2, standardError: 1 } }], options),
    ).toThrow(InvalidArgumentError);
    expect(() => exposureIndexAt(speed, NaN)).toThrow(InvalidArgumentError);
  });

  it('stands beside each planned time', () => {
    const plan = developmentPlan(fitted(TIMES.map((t) => reading(t))), {
      normalContrast: 0.55,
      speed,
    });
    const indexes = plan.map(({ exposureIndex }) => exposureIndex?.exact.value ?? NaN);
    expect([...indexes].sort((a, b) => a - b)).toEqual(indexes);
    expectWithin(plan[2]!.speedChangeStops!, 0, 1e-12);
    expect(plan[4]!.speedChangeStops).toBeGreaterThan(0);
  });
});

describe('developmentPlan', () => {
  const model = fitted(TIMES.map((t) => reading(t)));
  const codesOf = (row: { warnings: readonly { code: string }[] }) =>
    row.warnings.map(({ code }) => code);

  it('names rows and warns near the limit, under five minutes and outside the trials', () => {
    const plan = developmentPlan(model, { normalContrast: 0.6, changes: [-3, 0, 1.5, 3] });
    expect(plan.map(({ development }) => development)).toEqual(['N-3', 'N', 'N+1.5', 'N+3']);
    expect(codesOf(plan[2]!)).toContain('near-contrast-limit');
    expect(plan[3]).toMatchObject({ reachable: false, minutes: null, exposureIndex: null });
    const short = developmentPlan(model, { normalContrast: 0.25, changes: [0] })[0]!;
    expect(codesOf(short)).toEqual(
      expect.arrayContaining(['short-development', 'time-extrapolated']),
    );
  });

  it.each([NaN, 0, -1, 20])('refuses a normal contrast of %f', (normalContrast) => {
    expect(() => developmentPlan(model, { normalContrast })).toThrow(InvalidArgumentError);
  });
  it('refuses a change as great as the textural scale', () => {
    expect(() => developmentPlan(model, { normalContrast: 0.5, changes: [7] })).toThrow(
      InvalidArgumentError,
    );
  });
});

describe('arithmetic of development', () => {
  it.each([NaN, Infinity, -1])('refuses %f', (bad) => {
    expect(() => equivalentMinutes(bad, 20, 24, 2)).toThrow(InvalidArgumentError);
    expect(() => equivalentMinutes(5, 20, 24, bad)).toThrow(InvalidArgumentError);
    expect(() => coefficientFromFactor(bad, 7)).toThrow(InvalidArgumentError);
    expect(() => activationEnergy(bad)).toThrow(InvalidArgumentError);
    expect(() => firstOrderFromTwoTimes(bad, 0.4, 0.6)).toThrow(InvalidArgumentError);
    expect(() => firstOrderFromThreeTimes(4, bad, [0.4, 0.6, 0.7])).toThrow(InvalidArgumentError);
    expect(() => requiredGradient(bad, 2.2)).toThrow(InvalidArgumentError);
    expect(() => requiredGradient(1, bad)).toThrow(InvalidArgumentError);
    expect(() => contrastFactor(1, bad)).toThrow(InvalidArgumentError);
  });
  it('refuses contrasts that no such law has', () => {
    expect(() => firstOrderFromThreeTimes(4, 4, [0.4, 0.5, 0.7])).toThrow(OutOfDomainError);
    expect(() => firstOrderFromThreeTimes(4, 4, [0.4, 0.3, 0.2])).toThrow(OutOfDomainError);
    expect(() => developmentTimeRatio(0.9, 2)).toThrow(OutOfDomainError);
    expect(() => developmentTimeRatio(NaN, 1)).toThrow(OutOfDomainError);
    expect(() => equivalentMinutes(5, 0, 90, 2)).toThrow(InvalidArgumentError);
    expect(() => coefficientFromFactor(2, 0)).toThrow(InvalidArgumentError);
  });
});
