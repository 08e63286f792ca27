import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { InvalidArgumentError } from '../errors.ts';
import { asDrawn } from './as-drawn.ts';
import { monotoneSmooth } from './monotone-smooth.ts';
import { randomNormal } from './random-normal.ts';
import { studentTQuantile } from './student-t-quantile.ts';
import { quadraticForm } from './quadratic-form.ts';

const STEPS = Array.from({ length: 31 }, (_, i) => -3 + 0.1 * i);
const UNEXPOSED = [-Infinity, -Infinity, -Infinity];

/** Two emulsions of unlike speed: a shape outside every family (invented). */
const twoEmulsions = (x: number): number =>
  x === -Infinity
    ? 0.2
    : 0.2 + 0.55 / (1 + Math.exp(-(x + 1.9) / 0.17)) + 0.85 / (1 + Math.exp(-(x + 0.7) / 0.24));

describe('monotoneSmooth', () => {
  it('[EM1996] with a great penalty on second differences is a straight line above the toe', () => {
    const x = STEPS;
    const y = x.map((at) => 1 + 0.5 * at);
    const { model, parameters } = monotoneSmooth(x, y, { penalty: 1e8 });
    expectWithin(model.gradient(-1, parameters), 0.5, 0.02);
  });

  it('follows two emulsions to a fraction of the scatter of single readings', () => {
    const z = randomNormal(31);
    const x = [...UNEXPOSED, ...STEPS];
    const y = x.map((at) => twoEmulsions(at) + 0.01 * z());
    const { model, parameters, residualStandardDeviation } = monotoneSmooth(x, y);
    const square = STEPS.reduce(
      (sum, at) => sum + (model.value(at, parameters) - twoEmulsions(at)) ** 2,
      0,
    );
    expect(Math.sqrt(square / STEPS.length)).toBeLessThan(0.0085);
    expectWithin(residualStandardDeviation!, 0.01, 0.004);
  });

  it('never falls, however wild the readings', () => {
    const z = randomNormal(37);
    for (let trial = 0; trial < 20; trial++) {
      const y = STEPS.map((at) => twoEmulsions(at) + 0.3 * z());
      const { model, parameters } = monotoneSmooth(STEPS, y);
      let before = -Infinity;
      for (let at = -5; at <= 1; at += 0.03) {
        const density = model.value(at, parameters);
        expect(density).toBeGreaterThanOrEqual(before - 1e-12);
        before = density;
      }
      expect(parameters.every(Number.isFinite)).toBe(true);
    }
  });

  it('solves the penalised problem: at the solution no allowed change lowers the sum', () => {
    const z = randomNormal(41);
    const y = STEPS.map((at) => twoEmulsions(at) + 0.05 * z());
    const { model, parameters, penalty } = monotoneSmooth(STEPS, y);
    const objective = (c: readonly number[]): number => {
      let sum = 0;
      STEPS.forEach((at, i) => (sum += (model.value(at, c) - y[i]!) ** 2));
      for (let j = 2; j < c.length; j++) {
        sum += penalty * (c[j]! - 2 * c[j - 1]! + c[j - 2]!) ** 2;
      }
      return sum;
    };
    const least = objective(parameters);
    for (let j = 0; j < parameters.length; j++) {
      for (const sign of [-1, 1]) {
        // Moves all coefficients from j on, which keeps the order unless increment j turns negative.
        const moved = parameters.map((c, k) => (k >= j ? c + sign * 1e-4 : c));
        const allowed = j === 0 || moved[j]! >= moved[j - 1]!;
        if (allowed) expect(objective(moved)).toBeGreaterThan(least - 1e-12);
      }
    }
  });

  it('covers the truth as its intervals state, on average over the curve', () => {
    const z = randomNormal(43);
    const x = [...UNEXPOSED, ...STEPS];
    let inside = 0;
    let all = 0;
    for (let trial = 0; trial < 60; trial++) {
      const y = x.map((at) => twoEmulsions(at) + 0.02 * z());
      const { model, parameters, covariance, degreesOfFreedom } = monotoneSmooth(x, y);
      const row = new Float64Array(parameters.length);
      const t = studentTQuantile(0.975, degreesOfFreedom);
      for (const at of STEPS) {
        const miss = model.derivatives(at, parameters, row) - twoEmulsions(at);
        if (Math.abs(miss) <= t * Math.sqrt(quadraticForm(row, covariance!))) inside++;
        all++;
      }
    }
    // [WAHBA1983]: 95 % across the function; neighbouring points go together, hence the room.
    expectWithin(inside / all, 0.95, 0.03);
  });

  it('weighs by 1 / sigma^2: a reading of weight 2 counts as two readings', () => {
    const z = randomNormal(41);
    const y = STEPS.map((x) => twoEmulsions(x) + 0.02 * z());
    const options = { penalty: 1, cells: 12 };
    const weights = STEPS.map((_, i) => (i === 7 ? 2 : 1));
    const weighted = monotoneSmooth(STEPS, y, { ...options, weights });
    const doubled = monotoneSmooth([...STEPS, STEPS[7]!], [...y, y[7]!], options);
    weighted.parameters.forEach((value, j) => {
      expectWithin(value, doubled.parameters[j]!, 1e-9, `coefficient ${j}`);
    });
    expectWithin(weighted.residualSumOfSquares, doubled.residualSumOfSquares, 1e-12);
    expect(() => monotoneSmooth(STEPS, y, { weights: [1] })).toThrow(InvalidArgumentError);
    expect(() => monotoneSmooth(STEPS, y, { weights: STEPS.map(() => 0) })).toThrow(/weights/);
  });

  it('takes a table without scatter', () => {
    const fit = monotoneSmooth(STEPS, STEPS.map(twoEmulsions));
    STEPS.forEach((at) => {
      expectWithin(fit.model.value(at, fit.parameters), twoEmulsions(at), 0.01);
    });
    const flat = monotoneSmooth(
      STEPS,
      STEPS.map(() => 0.3),
    );
    expectWithin(flat.model.value(-1, flat.parameters), 0.3, 1e-9);
  });

  it.each([
    [[-3, -2, -1], [0.1, 0.2, 0.3], {}],
    [STEPS, [1], {}],
    [STEPS, STEPS.map(() => NaN), {}],
    [[...STEPS.slice(1), Infinity], STEPS, {}],
    [STEPS, STEPS, { penalty: -1 }],
    [STEPS, STEPS, { penalty: NaN }],
    [STEPS, STEPS, { cells: 2.5 }],
  ])('refuses malformed arguments (case %#)', (x, y, options) => {
    expect(() => monotoneSmooth(x, y, options)).toThrow(InvalidArgumentError);
  });
});

describe('asDrawn', () => {
  it('goes through every reading and averages replicates', () => {
    const { model, parameters, covariance } = asDrawn(
      [-1, -2, -1, 0, -Infinity],
      [0.7, 0.2, 0.8, 1.3, 0.1],
    );
    expect(model.value(-2, parameters)).toBe(0.2);
    expectWithin(model.value(-1, parameters), 0.75, 1e-15);
    expect(model.value(0, parameters)).toBe(1.3);
    expect(model.value(-Infinity, parameters)).toBe(0.1);
    expect(covariance).toBeNull();
  });

  it('[FC1980] rises wherever the readings rise', () => {
    // A step among flat parts makes an ordinary cubic overshoot.
    const y = [0, 0, 0, 1, 1, 1.001, 3];
    const { model, parameters } = asDrawn([0, 1, 2, 3, 4, 5, 6], y);
    let before = -Infinity;
    for (let x = 0; x <= 6; x += 0.01) {
      const density = model.value(x, parameters);
      expect(density).toBeGreaterThanOrEqual(before - 1e-12);
      before = density;
    }
    expect(model.value(1.5, parameters)).toBe(0);
  });

  it('draws a straight line straight', () => {
    const { model, parameters } = asDrawn([0, 1, 3, 4], [0, 0.5, 1.5, 2]);
    for (const x of [0.3, 1.7, 3.2]) expectWithin(model.value(x, parameters), 0.5 * x, 1e-14);
  });

  it.each([
    [
      [1, 1],
      [0, 1],
    ],
    [[1, 2], [0]],
    [
      [1, 2],
      [0, NaN],
    ],
  ])('refuses x = %j, y = %j', (x, y) => {
    expect(() => asDrawn(x, y)).toThrow(InvalidArgumentError);
  });
});
