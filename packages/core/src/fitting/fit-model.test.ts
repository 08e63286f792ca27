import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { InvalidArgumentError } from '../errors.ts';
import { fitModel } from './fit-model.ts';
import { modelByName } from './model-by-name.ts';
import { exponentialRise } from './models/exponential-rise.ts';
import { hurterDriffield } from './models/hurter-driffield.ts';
import { logLogistic4 } from './models/log-logistic-4.ts';
import { logistic4 } from './models/logistic-4.ts';
import { logistic5 } from './models/logistic-5.ts';
import { michaelisMenten } from './models/michaelis-menten.ts';
import { straightLine } from './models/straight-line.ts';
import { toeOnly } from './models/toe-only.ts';
import { toeShoulder } from './models/toe-shoulder.ts';
import { parametricBootstrap, percentileInterval } from './parametric-bootstrap.ts';
import { predictWithBand } from './predict-with-band.ts';
import { randomNormal } from './random-normal.ts';
import { robustLeastSquares } from './robust-least-squares.ts';
import { studentTQuantile } from './student-t-quantile.ts';

const STEPS = Array.from({ length: 21 }, (_, i) => -3 + 0.15 * i);

/** Truths that each family must find again from exact values, from the readings alone. */
const EXACT: readonly (readonly [string, readonly number[], readonly number[]])[] = [
  ['straight-line', [0.3, -1.7], [0, 1, 2, 5]],
  ['exponential-rise', [2.4, 0.03], [1, 5, 10, 20, 40, 80]],
  ['exponential-rise', [1e4, 2e-6], [1e5, 3e5, 6e5, 1e6]],
  ['log-logistic-3', [2.2, 7.5, 4], [0, 0.5, 1, 2, 4, 8, 16, 32]],
  ['log-logistic-4', [2.2, 0.6, 7.5, 4], [0, 0.5, 1, 2, 4, 8, 16, 32]],
  ['log-logistic-4', [-1.3, 1, 2, 20], [0, 2, 5, 10, 20, 40, 80, 160]],
  ['weibull-4', [1.2, 2, 1, 12], [0, 2, 5, 10, 20, 40, 80]],
  ['michaelis-menten', [212, 0.06], [0.02, 0.06, 0.11, 0.22, 0.56, 1.1]],
  ['toe-only', [0.15, 0.7, -2, 0.25], STEPS],
  ['toe-shoulder', [0.1, 0.65, -2.3, 0.15, -0.5, 0.22], STEPS],
  ['toe-shoulder', [0.08, 1.5, -2.1, 0.1, -0.75, 0.12], STEPS],
  ['toe-shoulder', [0.2, 0.5, -1.9, 0.3, -0.9, 0.15], STEPS],
  ['logistic-4', [0.1, 2.2, -1.4, 0.3], STEPS],
  ['logistic-5', [0.1, 2.2, -1.4, 0.3, 1.8], STEPS],
  ['hurter-driffield', [0.1, 0.9, 100, 0.01], STEPS],
];

describe('fitModel', () => {
  it.each(EXACT)('%s finds %j again from exact values', (name, truth, x) => {
    const model = modelByName(name)!;
    const y = x.map((at) => model.value(at, truth));
    const fit = fitModel(model, x, y);
    truth.forEach((value, j) => {
      expectWithin(fit.parameters[j]! / value, 1, 1e-6, model.parameterNames[j]);
    });
  });

  it('takes readings in any order, unexposed ones among them', () => {
    const x = [-Infinity, ...STEPS, -Infinity];
    const truth = [0.1, 0.65, -2.3, 0.15, -0.5, 0.22];
    const z = randomNormal(3);
    const y = x.map((at) => toeShoulder.value(at, truth) + 0.01 * z());
    const forwards = fitModel(toeShoulder, x, y);
    const backwards = fitModel(toeShoulder, [...x].reverse(), [...y].reverse());
    forwards.parameters.forEach((value, j) => {
      expectWithin(backwards.parameters[j]!, value, 1e-7);
    });
    // Base + fog is better known than any single reading.
    expect(forwards.standardErrors[0]).toBeLessThan(0.01);
  });

  it('follows an exact hard toe to a thousandth', () => {
    // Curve A of the exact film curves (derived): two straight lines.
    const y = STEPS.map((x) => 0.12 + Math.max(0, 0.65 * (x + 2.4)));
    for (const model of [toeOnly, toeShoulder]) {
      const fit = fitModel(model, STEPS, y);
      STEPS.forEach((x, i) => {
        expectWithin(model.value(x, fit.parameters), y[i]!, 1e-3, `${model.name} at ${x}`);
      });
      expectWithin(fit.parameters[1]!, 0.65, 1e-3, 'slope');
    }
  });

  it('keeps a toe-shoulder curve on a logistic shape finite and close', () => {
    // Without a straight part slope and centres are not determined; the densities are.
    const y = STEPS.map((x) => logistic4.value(x, [0.1, 2.1, -1.5, 0.3]));
    const fit = fitModel(toeShoulder, STEPS, y);
    expect(fit.parameters[1]).toBeLessThan(10);
    expect(fit.parameters[4]! - fit.parameters[2]!).toBeGreaterThan(0.1);
    STEPS.forEach((x, i) => {
      expectWithin(toeShoulder.value(x, fit.parameters), y[i]!, 0.01, `at ${x}`);
    });
  });

  it('never lets a toe-shoulder curve fall by more than a hundredth', () => {
    // A narrow toe against a wide shoulder: the form could dip to the left of the toe.
    const z = randomNormal(5);
    for (let trial = 0; trial < 40; trial++) {
      const y = STEPS.map(
        (x) => 0.1 + 1.2 / (1 + Math.exp(-(x + 2.2) / (0.1 + 0.01 * trial))) + 0.01 * z(),
      );
      const { parameters } = fitModel(toeShoulder, STEPS, y);
      let highest = -Infinity;
      for (let x = -5; x <= 3; x += 0.02) {
        const density = toeShoulder.value(x, parameters);
        expect(highest - density).toBeLessThan(0.01);
        highest = Math.max(highest, density);
      }
    }
  });

  it('takes sigma as absolute or relative, as it is named', () => {
    const x = [0, 1, 2, 3, 4];
    const y = [1.02, 2.97, 5.01, 7.03, 8.96];
    const values = x.map(() => 0.05);
    const plain = fitModel(straightLine, x, y);
    const relative = fitModel(straightLine, x, y, { sigma: { kind: 'relative', values } });
    const absolute = fitModel(straightLine, x, y, { sigma: { kind: 'absolute', values } });
    // Slope error of a line with known sigma: sigma / sqrt(sum (x - mean)^2) = 0.05 / sqrt(10).
    expectWithin(absolute.standardErrors[1]!, 0.05 / Math.sqrt(10), 1e-12);
    expectWithin(relative.standardErrors[1]!, plain.standardErrors[1]!, 1e-12);
    expectWithin(relative.parameters[1]!, plain.parameters[1]!, 1e-12);
  });

  it('keeps fixed parameters of a model with inner ones', () => {
    const truth = [0.1, 0.65, -2.3, 0.15];
    const y = STEPS.map((x, i) => toeOnly.value(x, truth) + (i % 2 === 0 ? 0.01 : -0.01));
    const fit = fitModel(toeOnly, STEPS, y, {
      start: [0.1, 0.6, -2.2, 0.2],
      fixed: [true, false, false, true],
    });
    expect(fit.parameters[0]).toBe(0.1);
    expectWithin(fit.parameters[3]!, 0.2, 1e-15);
    expect(fit.standardErrors[0]).toBeNull();
    expect(fit.standardErrors[1]).toBeGreaterThan(0);
    expect(fit.degreesOfFreedom).toBe(19);
  });

  it('reports too few and indistinct readings instead of numbers without meaning', () => {
    const few = fitModel(toeShoulder, [-3, -2, -1], [0.1, 0.3, 0.9]);
    expect(few.report.status).toBe('too-few-data');
    expect(few.covariance).toBeNull();
    const same = fitModel(straightLine, [1, 1, 1, 1], [2, 2.1, 1.9, 2]);
    expect(same.report.status).toBe('rank-deficient');
    expect(same.standardErrors).toEqual([null, null]);
    expect(same.parameters.every(Number.isFinite)).toBe(true);
  });

  it.each([toeShoulder, toeOnly, logistic4, logistic5, hurterDriffield])(
    '$name on constant readings gives finite numbers',
    (model) => {
      const fit = fitModel(
        model,
        STEPS,
        STEPS.map(() => 0.3),
      );
      expect(fit.parameters.every(Number.isFinite)).toBe(true);
      expectWithin(model.value(-1.5, fit.parameters), 0.3, 0.01);
      for (const error of fit.standardErrors) expect(Number.isNaN(error)).toBe(false);
    },
  );

  it.each([toeShoulder, toeOnly, logistic4, logistic5, hurterDriffield])(
    '$name on falling readings gives finite numbers',
    (model) => {
      const fit = fitModel(
        model,
        STEPS,
        STEPS.map((x) => 1 - 0.3 * x),
      );
      expect(fit.parameters.every(Number.isFinite)).toBe(true);
      for (const error of fit.standardErrors) expect(Number.isNaN(error)).toBe(false);
    },
  );

  it.each([
    [[], []],
    [[1, 2], [1]],
    [
      [1, NaN],
      [1, 2],
    ],
    [
      [1, Infinity],
      [1, 2],
    ],
    [
      [1, -Infinity],
      [1, 2],
    ],
    [
      [1, 2],
      [1, Infinity],
    ],
  ])('refuses x = %j, y = %j', (x, y) => {
    expect(() => fitModel(straightLine, x, y)).toThrow(InvalidArgumentError);
  });

  it('refuses malformed options', () => {
    const [x, y] = [
      [1, 2, 3],
      [1, 2, 3],
    ] as const;
    expect(() => fitModel(straightLine, x, y, { start: [1] })).toThrow(/start/);
    expect(() =>
      fitModel(straightLine, x, y, { sigma: { kind: 'absolute', values: [1, 0, 1] } }),
    ).toThrow(/sigma/);
    expect(() =>
      fitModel(straightLine, x, y, { sigma: { kind: 'absolute', values: [1] } }),
    ).toThrow(/sigma/);
  });

  it('does not touch the readings', () => {
    const x = Object.freeze([3, 1, 2, 5]);
    const y = Object.freeze([1, 2, 3, 4]);
    fitModel(michaelisMenten, x, y);
    expect(x).toEqual([3, 1, 2, 5]);
  });
});

describe('robust fits', () => {
  const truth = [0.1, 0.65, -2.3, 0.15, -0.5, 0.22];
  const z = randomNormal(17);
  const x = [-Infinity, -Infinity, ...STEPS];
  const clean = x.map((at) => toeShoulder.value(at, truth) + 0.01 * z());

  it('[HUBER1964] let one slip pull little and name it by its weight', () => {
    const spoilt = clean.map((y, i) => (i === 12 ? y + 0.3 : y));
    const best = fitModel(toeShoulder, x, clean);
    const plain = fitModel(toeShoulder, x, spoilt);
    const robust = fitModel(toeShoulder, x, spoilt, { solve: robustLeastSquares });
    const miss = (fit: typeof plain): number =>
      Math.max(
        ...STEPS.map((at) =>
          Math.abs(toeShoulder.value(at, fit.parameters) - toeShoulder.value(at, best.parameters)),
        ),
      );
    expect(miss(robust)).toBeLessThan(0.35 * miss(plain));
    const weights = robust.robustWeights!;
    expect(weights.indexOf(Math.min(...weights))).toBe(12);
    expect(weights[12]).toBeLessThan(0.2);
  });

  it('cost little on clean readings, and their errors stay alike', () => {
    const plain = fitModel(toeShoulder, x, clean);
    const robust = fitModel(toeShoulder, x, clean, { solve: robustLeastSquares });
    robust.parameters.forEach((value, j) => {
      // Within half a standard error.
      expectWithin(value, plain.parameters[j]!, 0.5 * plain.standardErrors[j]!);
      const ratio = robust.standardErrors[j]! / plain.standardErrors[j]!;
      expect(ratio).toBeGreaterThan(0.7);
      expect(ratio).toBeLessThan(1.4);
    });
  });

  it('take an exact fit for what it is', () => {
    const fit = fitModel(straightLine, [0, 1, 2, 3], [1, 3, 5, 7], { solve: robustLeastSquares });
    expectWithin(fit.parameters[1]!, 2, 1e-12);
    expect(fit.robustWeights).toEqual([1, 1, 1, 1]);
  });
});

describe('predictWithBand', () => {
  it('has the limits of a straight line known in closed form', () => {
    const x = [0, 1, 2, 3, 4, 5];
    const y = [1.1, 2.9, 5.2, 6.8, 9.1, 11.05];
    const fit = fitModel(straightLine, x, y);
    const [at] = predictWithBand(straightLine, fit, [4], 0.9);
    const s = fit.residualStandardDeviation!;
    // s sqrt(1 / n + (x - mean)^2 / Sxx), mean 2.5, Sxx 17.5.
    const error = s * Math.sqrt(1 / 6 + 1.5 ** 2 / 17.5);
    const t = studentTQuantile(0.95, 4);
    expectWithin(at!.standardError!, error, 1e-12);
    expectWithin(at!.upper! - at!.value, t * error, 1e-12);
    expectWithin(at!.value - at!.observationLower!, t * Math.hypot(error, s), 1e-12);
  });

  it('has no limits without errors, and refuses what has no value', () => {
    const exact = fitModel(straightLine, [0, 1], [0, 1]);
    expect(predictWithBand(straightLine, exact, [3])[0]!.lower).toBeNull();
    expect(() => predictWithBand(straightLine, exact, [NaN])).toThrow(InvalidArgumentError);
    expect(() => predictWithBand(straightLine, exact, [1], 1)).toThrow(/confidence/);
  });
});

describe('parametricBootstrap', () => {
  it('[ET1993] agrees with the delta method where the model is nearly linear', () => {
    const z = randomNormal(23);
    const x = [1, 2, 4, 6, 8, 10, 14, 20];
    const y = x.map((at) => exponentialRise.value(at, [2, 0.2]) + 0.02 * z());
    const fit = fitModel(exponentialRise, x, y);
    const { parameters, failed } = parametricBootstrap(exponentialRise, x, fit);
    expect(failed).toBe(0);
    fit.standardErrors.forEach((error, j) => {
      const values = parameters.map((row) => row[j]!);
      const mean = values.reduce((sum, v) => sum + v, 0) / values.length;
      const spread = Math.sqrt(
        values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (values.length - 1),
      );
      // 1,000 sets know a standard deviation to 1 / sqrt(2000) = 2.2 %; four times that, and bias.
      expectWithin(spread / error!, 1, 0.12, `parameter ${j}`);
      const { lower, upper } = percentileInterval(values);
      expect(lower).toBeLessThan(fit.parameters[j]!);
      expect(upper).toBeGreaterThan(fit.parameters[j]!);
    });
  });

  it('repeats itself and refuses fits without scatter', () => {
    const x = [0, 2, 5, 10, 20, 40];
    const y = [7.8, 7.5, 6, 3.2, 1.1, 0.7];
    const fit = fitModel(logLogistic4, x, y);
    const options = { replicates: 5, seed: 4 };
    expect(parametricBootstrap(logLogistic4, x, fit, options)).toEqual(
      parametricBootstrap(logLogistic4, x, fit, options),
    );
    const exact = fitModel(straightLine, [0, 1], [0, 1]);
    expect(() => parametricBootstrap(straightLine, [0, 1], exact)).toThrow(/degrees of freedom/);
    expect(() => parametricBootstrap(logLogistic4, x, fit, { replicates: 0 })).toThrow(
      /replicates/,
    );
    expect(() => percentileInterval([])).toThrow(/values/);
    expect(() => percentileInterval([1], 2)).toThrow(/confidence/);
  });
});
