/** Lack of fit, suspect readings, the default path and lines: judging a fit. */
import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { InvalidArgumentError } from '../errors.ts';
import { fitDefaultCurve } from './fit-default-curve.ts';
import { fitModel } from './fit-model.ts';
import { fitToeShoulder } from './fit-toe-shoulder.ts';
import { lackOfFit } from './lack-of-fit.ts';
import { likelySlip } from './likely-slip.ts';
import { lineThrough } from './line-through.ts';
import { straightLine } from './models/straight-line.ts';
import { toeShoulder } from './models/toe-shoulder.ts';
import { randomNormal } from './random-normal.ts';
import { suspectReadings } from './suspect-readings.ts';
import { tangentBasis } from './tangent-basis.ts';

const STEPS = Array.from({ length: 21 }, (_, i) => -3 + 0.15 * i);
const X = [-Infinity, -Infinity, -Infinity, ...STEPS];
const TRUTH = [0.1, 0.65, -2.3, 0.15, -0.5, 0.22];

function judge(x: readonly number[], y: readonly number[], model = straightLine) {
  const fit = fitModel(model, x, y);
  return lackOfFit(x, fit.residuals, tangentBasis(model, x, fit));
}

describe('lackOfFit', () => {
  it('[DS1998] splits pure error from lack of fit as by hand', () => {
    // Means 1, 3, 2 at x = 0, 1, 2, each read twice at +-0.1. The line is 1.5 + 0.5 x, the means
    // miss it by -0.5, 1, -0.5: SS lack = 2 * 1.5 = 3 on 1, SS pure = 6 * 0.01 = 0.06 on 3.
    const x = [0, 0, 1, 1, 2, 2];
    const y = [0.9, 1.1, 2.9, 3.1, 1.9, 2.1];
    const { pureError } = judge(x, y);
    expectWithin(pureError!.ratio, 3 / 0.02, 1e-9);
    expect(pureError!.lackDegreesOfFreedom).toBe(1);
    expect(pureError!.pureDegreesOfFreedom).toBe(3);
    expectWithin(pureError!.pureStandardDeviation, Math.sqrt(0.02), 1e-12);
    expect(pureError!.probability).toBeLessThan(0.002);
  });

  it('[DW1950] gives d of a short series as by hand', () => {
    // About a line fitted to 0, 1, 0, 1, 0: residuals -0.4, 0.6, -0.4, 0.6, -0.4.
    const { runs } = judge([0, 1, 2, 3, 4], [0, 1, 0, 1, 0]);
    expectWithin(runs!.statistic, 4 / (3 * 0.16 + 2 * 0.36), 1e-12);
    expect(runs!.probability).toBeGreaterThan(0.9);
  });

  it('gives probabilities that are even under the right model', () => {
    const z = randomNormal(51);
    const trials = 400;
    const found: number[] = [];
    for (let trial = 0; trial < trials; trial++) {
      const y = X.map((x) => toeShoulder.value(x, TRUTH) + 0.01 * z());
      found.push(judge(X, y, toeShoulder).probability!);
    }
    for (const p of [0.05, 0.25, 0.5, 0.75, 0.95]) {
      const share = found.filter((value) => value < p).length / trials;
      expectWithin(share, p, 4 * Math.sqrt((p * (1 - p)) / trials), `P(p < ${p})`);
    }
  });

  it('finds a bend that a straight line misses', () => {
    const z = randomNormal(53);
    const x = Array.from({ length: 15 }, (_, i) => i / 14);
    const y = x.map((at) => at * at + 0.02 * z());
    expect(judge(x, y).probability).toBeLessThan(0.001);
  });

  it('has nothing to say on three readings or an exact fit', () => {
    expect(judge([0, 1, 2], [0, 1, 0]).probability).toBeNull();
    expect(judge([0, 1, 2, 3, 4], [0, 1, 2, 3, 4]).pureError).toBeNull();
  });
});

describe('fitToeShoulder', () => {
  it('draws no shoulder where the readings go straight on', () => {
    const z = randomNormal(57);
    for (let trial = 0; trial < 20; trial++) {
      const y = X.map((x) =>
        x === -Infinity ? 0.15 : 0.15 + 0.175 * Math.log1p(Math.exp((x + 2) / 0.25)) + 0.01 * z(),
      );
      const { model, shoulder, fit } = fitToeShoulder(X, y);
      if (shoulder === 'determined') {
        // By chance the last readings may bend; then the error must be a sound one.
        expect(fit.standardErrors[4]).toBeLessThan(1);
      } else {
        expect(model.name).toBe('toe-only');
        expectWithin(fit.parameters[1]!, 0.7, 0.05);
      }
    }
  });

  it('draws the shoulder where there is one', () => {
    const y = X.map((x) => toeShoulder.value(x, TRUTH));
    const { shoulder, fit } = fitToeShoulder(X, y);
    expect(shoulder).toBe('determined');
    TRUTH.forEach((value, j) => {
      expectWithin(fit.parameters[j]!, value, 1e-6);
    });
  });
});

describe('fitDefaultCurve', () => {
  it('keeps the family where it fits, with the smooth curve as companion', () => {
    const z = randomNormal(59);
    let kept = 0;
    for (let trial = 0; trial < 50; trial++) {
      const y = X.map((x) => toeShoulder.value(x, TRUTH) + 0.01 * z());
      const { members } = fitDefaultCurve(X, y);
      if (members[0].family === 'toe-shoulder') kept++;
      expectWithin(
        members.reduce((sum, { weight }) => sum + weight, 0),
        1,
        1e-12,
      );
      for (const { covariance } of members) expect(covariance).not.toBeNull();
    }
    // The lack-of-fit test errs one time in twenty, and then the weights must agree.
    expect(kept).toBeGreaterThanOrEqual(47);
  });

  it('hears less of readings with little weight, and takes equal weights for none', () => {
    const z = randomNormal(63);
    const y = X.map((x) => toeShoulder.value(x, TRUTH) + 0.01 * z());
    const bad = y.map((value, i) => (i === 12 ? value + 0.5 : value));
    const weights = y.map((_, i) => (i === 12 ? 1e-8 : 1));
    const without = fitDefaultCurve(
      X.filter((_, i) => i !== 12),
      y.filter((_, i) => i !== 12),
    );
    const weighted = fitDefaultCurve(X, bad, { weights });
    weighted.toeShoulder.fit.parameters.forEach((value, j) => {
      expectWithin(value, without.toeShoulder.fit.parameters[j]!, 1e-5, `parameter ${j}`);
    });
    const plain = fitDefaultCurve(X, y);
    const equal = fitDefaultCurve(X, y, { weights: y.map(() => 4) });
    plain.members.forEach(({ parameters, covariance }, m) => {
      parameters.forEach((value, j) => {
        expectWithin(equal.members[m]!.parameters[j]!, value, 1e-6);
      });
      covariance!.forEach((value, j) => {
        expectWithin(equal.members[m]!.covariance![j]!, value, 1e-4 * Math.abs(value) + 1e-9);
      });
    });
  });

  it('draws the smooth curve through two emulsions', () => {
    const z = randomNormal(61);
    const y = X.map(
      (x) =>
        0.2 +
        (x === -Infinity
          ? 0
          : 0.55 / (1 + Math.exp(-(x + 1.9) / 0.17)) + 0.85 / (1 + Math.exp(-(x + 0.7) / 0.24))) +
        0.005 * z(),
    );
    const { members, reason, lackOfFit: test } = fitDefaultCurve(X, y);
    expect(reason).toBe('family-misses');
    expect(members[0].family).toBe('monotone-smooth');
    expect(test.probability).toBeLessThan(0.05);
  });

  it('needs no smooth curve for exact readings, nor one of five steps', () => {
    const exact = fitDefaultCurve(
      X,
      X.map((x) => toeShoulder.value(x, TRUTH)),
    );
    expect(exact.members).toHaveLength(1);
    expect(exact.reason).toBe('family-fits');
    // A straight part with a corner: what rounding leaves of it runs in sequences of one sign.
    for (const x0 of [-2.258, -2.86, -2.11]) {
      const x = Array.from({ length: 31 }, (_, i) => -4 + 0.15 * i);
      const y = x.map((at) => 0.1 + Math.max(0, 0.62 * (at - x0)));
      expect(fitDefaultCurve(x, y).reason).toBe('family-fits');
    }
    const few = fitDefaultCurve([-3, -2.4, -1.8, -1.2, -0.6], [0.1, 0.14, 0.4, 0.8, 1.2]);
    expect(few.members).toHaveLength(1);
    expect(few.members[0].parameters.every(Number.isFinite)).toBe(true);
  });
});

describe('suspectReadings', () => {
  const fitter = (x: readonly number[], y: readonly number[]) => fitToeShoulder(x, y);
  const clean = (seed: number): number[] => {
    const z = randomNormal(seed);
    return X.map((x) => Number((toeShoulder.value(x, TRUTH) + 0.005 * z()).toFixed(2)));
  };

  it('stays quiet on good readings', () => {
    let alarms = 0;
    for (let seed = 100; seed < 200; seed++) {
      alarms += suspectReadings(X, clean(seed), fitter).length;
    }
    // One in a hundred is asked for; four standard errors above that.
    expect(alarms).toBeLessThanOrEqual(5);
  });

  it.each([
    ['digits swapped', 12, (y: number) => swapLastDigits(y), 'digits-swapped'],
    ['the point lost', 14, (y: number) => Math.round(100 * y), 'decimal-point'],
    ['a digit mistaken', 16, (y: number) => changeTenths(y), 'digit-mistaken'],
  ] as const)('finds %s and the number that would fit', (_, index, slip, kind) => {
    const y = clean(7);
    const meant = y[index]!;
    y[index] = slip(meant);
    expect(Math.abs(y[index] - meant)).toBeGreaterThan(0.05);
    const before = [...y];
    const suspects = suspectReadings(X, y, fitter);
    expect(suspects.map((suspect) => suspect.index)).toEqual([index]);
    expect(suspects[0]!.slip).toEqual({ kind, meant });
    expectWithin(suspects[0]!.expected, meant, 0.03);
    expect(suspects[0]!.written).toBe(before[index]);
    expect(y).toEqual(before);
  });

  it('finds two slips that hide each other', () => {
    const y = clean(9);
    y[10] = y[10]! + 0.35;
    y[11] = y[11]! + 0.31;
    const found = suspectReadings(X, y, fitter).map(({ index }) => index);
    expect([...found].sort((a, b) => a - b)).toEqual([10, 11]);
  });

  it('names the reading of a neighbouring step', () => {
    expect(likelySlip(0.61, 0.514, 0.02, [0.41, 0.62])).toEqual({
      kind: 'neighbouring-step',
      meant: 0.51,
    });
  });

  it('offers no slip where none leads there', () => {
    expect(likelySlip(0.55, 0.81, 0.02)).toBeNull();
  });

  it('refuses lists of unlike length', () => {
    expect(() => suspectReadings([1], [1, 2], fitter)).toThrow(InvalidArgumentError);
  });

  function changeTenths(y: number): number {
    const text = y.toFixed(2);
    return Number(text.slice(0, 2) + String((Number(text.charAt(2)) + 5) % 10) + text.charAt(3));
  }

  function swapLastDigits(y: number): number {
    const text = y.toFixed(2);
    return Number(text.slice(0, 2) + text.charAt(3) + text.charAt(2));
  }
});

describe('lineThrough', () => {
  const x = [0, 1, 2, 3, 4, 5, 6];
  const y = [1, 3, 5, 7, 9, 11, 13];

  it.each(['least-squares', 'theil-sen', 'huber'] as const)(
    '%s finds a straight line',
    (method) => {
      const line = lineThrough(x, y, method);
      expectWithin(line.slope, 2, 1e-12);
      expectWithin(line.intercept, 1, 1e-12);
    },
  );

  it.each(['theil-sen', 'huber'] as const)('%s is little moved by one bad reading', (method) => {
    const spoilt = y.map((value, i) => value + (i === 5 ? 20 : 0.01 * (i % 2)));
    const pulled = Math.abs(lineThrough(x, spoilt).slope - 2);
    expect(Math.abs(lineThrough(x, spoilt, method).slope - 2)).toBeLessThan(pulled / 5);
  });

  it('agrees with fitModel in values and errors, far from the origin too', () => {
    const far = x.map((value) => value + 1e6);
    const noisy = y.map((value, i) => value + (i % 3) * 0.1);
    const near = fitModel(straightLine, x, noisy);
    const line = lineThrough(far, noisy);
    expectWithin(line.slope, near.parameters[1]!, 1e-9);
    expectWithin(line.slopeStandardError!, near.standardErrors[1]!, 1e-9);
    const same = lineThrough(x, noisy);
    expectWithin(same.intercept, near.parameters[0]!, 1e-12);
    expectWithin(same.interceptStandardError!, near.standardErrors[0]!, 1e-12);
  });

  it.each([
    [
      [1, 1],
      [2, 3],
    ],
    [
      [1, NaN],
      [2, 3],
    ],
    [[1], [2, 3]],
  ])('refuses x = %j, y = %j', (a, b) => {
    expect(() => lineThrough(a, b)).toThrow(InvalidArgumentError);
  });
});
