import { Matrix, inverse, QrDecomposition } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { InvalidArgumentError } from '../errors.ts';
import { leastSquaresInUnits } from './least-squares-in-units.ts';
import { leastSquares } from './least-squares.ts';
import type { LeastSquaresProblem } from './least-squares-types.ts';
import { linearLeastSquares } from './linear-least-squares.ts';
import { polynomialLeastSquares } from './polynomial-least-squares.ts';
import { randomNormal } from './random-normal.ts';

/** y = A p as a least-squares problem. */
function linearProblem(
  rows: readonly (readonly number[])[],
  y: readonly number[],
  rest: Partial<LeastSquaresProblem> = {},
): LeastSquaresProblem {
  const count = rows[0]!.length;
  return {
    residualCount: y.length,
    start: new Array<number>(count).fill(0),
    evaluate(p, residuals, jacobian) {
      rows.forEach((row, i) => {
        residuals[i] = row.reduce((sum, a, j) => sum + a * p[j]!, -y[i]!);
        jacobian.set(row, i * count);
      });
    },
    ...rest,
  };
}

const z = randomNormal(11);
const ROWS = Array.from({ length: 12 }, () => [1, z(), z(), z()]);
const Y = ROWS.map(([a, b, c, d]) => 2 * a! - b! + 0.5 * c! + 3 * d! + 0.1 * z());

describe('leastSquares on a linear problem', () => {
  it('agrees with the QR solution of ml-matrix', () => {
    const reference = new QrDecomposition(new Matrix(ROWS)).solve(Matrix.columnVector(Y));
    const fit = leastSquares(linearProblem(ROWS, Y));
    fit.parameters.forEach((value, j) => {
      expectWithin(value, reference.get(j, 0), 1e-12, `parameter ${j}`);
    });
    expect(fit.report.status).toBe('converged');
    expect(fit.report.rank).toBe(4);
  });

  it('has the covariance s^2 (A-transpose A)^-1 of ml-matrix', () => {
    const a = new Matrix(ROWS);
    const unscaled = inverse(a.transpose().mmul(a));
    const fit = leastSquares(linearProblem(ROWS, Y));
    const variance = fit.residualStandardDeviation! ** 2;
    for (let i = 0; i < 4; i++) {
      for (let j = 0; j < 4; j++) {
        expectWithin(fit.covariance![i * 4 + j]!, variance * unscaled.get(i, j), 1e-14);
      }
    }
    expect(fit.degreesOfFreedom).toBe(8);
  });

  it('weighs by 1 / sigma^2: a reading of weight 2 counts as two readings', () => {
    const weights = Y.map((_, i) => (i === 3 ? 2 : 1));
    const weighted = leastSquares(linearProblem(ROWS, Y, { weights }));
    const doubled = leastSquares(linearProblem([...ROWS, ROWS[3]!], [...Y, Y[3]!]));
    weighted.parameters.forEach((value, j) => {
      expectWithin(value, doubled.parameters[j]!, 1e-12);
    });
    expectWithin(weighted.residualSumOfSquares, doubled.residualSumOfSquares, 1e-14);
  });

  it('takes absolute weights at their word and relative ones up to a factor', () => {
    const weights = Y.map(() => 100);
    const absolute = leastSquares(linearProblem(ROWS, Y, { weights }), { weightKind: 'absolute' });
    const relative = leastSquares(linearProblem(ROWS, Y, { weights }));
    const plain = leastSquares(linearProblem(ROWS, Y));
    const ratio = 0.1 / plain.residualStandardDeviation!;
    plain.standardErrors.forEach((error, j) => {
      expectWithin(relative.standardErrors[j]!, error!, 1e-13);
      expectWithin(absolute.standardErrors[j]!, error! * ratio, 1e-13);
    });
  });

  it('leaves out readings of weight 0 and does not count them', () => {
    const weights = Y.map((_, i) => (i < 2 ? 0 : 1));
    const fit = leastSquares(linearProblem(ROWS, Y, { weights }));
    const without = leastSquares(linearProblem(ROWS.slice(2), Y.slice(2)));
    fit.parameters.forEach((value, j) => {
      expectWithin(value, without.parameters[j]!, 1e-12);
    });
    expect(fit.degreesOfFreedom).toBe(6);
  });

  it('keeps fixed parameters, and holds others at bounds that the data push against', () => {
    const fit = leastSquares(
      linearProblem(ROWS, Y, {
        start: [2, 0, 0, 0],
        fixed: [true, false, false, false],
        lower: [-Infinity, -0.2, -Infinity, -Infinity],
        upper: [Infinity, 5, Infinity, 2],
      }),
    );
    expect(fit.parameters[0]).toBe(2);
    expect(fit.parameters[1]).toBe(-0.2);
    expect(fit.parameters[3]).toBe(2);
    expect(fit.atBound).toEqual([false, true, false, true]);
    expect(fit.standardErrors[0]).toBeNull();
    expect(fit.standardErrors[1]).toBeNull();
    expect(fit.standardErrors[2]).toBeGreaterThan(0);
    expect(fit.covariance!.filter((c) => c !== 0)).toHaveLength(1);
    // The best of the one free parameter, by hand.
    let above = 0;
    let below = 0;
    ROWS.forEach(([a, b, c, d], i) => {
      above += c! * (Y[i]! - 2 * a! + 0.2 * b! - 2 * d!);
      below += c! * c!;
    });
    expectWithin(fit.parameters[2]!, above / below, 1e-12);
  });

  it('tells parameters that the data cannot tell apart', () => {
    const rows = ROWS.map(([a, b, c]) => [a!, b!, c!, b! + c!]);
    const fit = leastSquares(linearProblem(rows, Y));
    expect(fit.report.status).toBe('rank-deficient');
    expect(fit.report.rank).toBe(3);
    expect(fit.report.condition).toBe(Infinity);
    expect(fit.covariance).toBeNull();
    expect(fit.standardErrors).toEqual([null, null, null, null]);
    expect(fit.parameters.every(Number.isFinite)).toBe(true);
    // It is a minimum all the same.
    const three = leastSquares(
      linearProblem(
        rows.map((row) => row.slice(0, 3)),
        Y,
      ),
    );
    expectWithin(fit.residualSumOfSquares, three.residualSumOfSquares, 1e-10);
  });

  it('tells a parameter that no reading depends on', () => {
    const fit = leastSquares(
      linearProblem(
        ROWS.map(([a, b]) => [a!, b!, 0]),
        Y,
      ),
    );
    expect(fit.report.status).toBe('rank-deficient');
    expect(fit.parameters.every(Number.isFinite)).toBe(true);
  });

  it('refuses to fit four parameters to three readings', () => {
    const fit = leastSquares(linearProblem(ROWS.slice(0, 3), Y.slice(0, 3)));
    expect(fit.report.status).toBe('too-few-data');
    expect(fit.covariance).toBeNull();
    expect(fit.residualStandardDeviation).toBeNull();
  });

  it('fits as many readings as parameters exactly, without errors', () => {
    const fit = leastSquares(linearProblem(ROWS.slice(0, 4), Y.slice(0, 4)));
    expect(fit.report.status).toBe('converged');
    expect(fit.degreesOfFreedom).toBe(0);
    expect(fit.residualSumOfSquares).toBeLessThan(1e-24);
    expect(fit.covariance).toBeNull();
  });

  it.each([
    ['residualCount', { residualCount: 0 }],
    ['start', { start: [] }],
    ['start', { start: [0, NaN, 0, 0] }],
    ['lower', { lower: [0, 0] }],
    ['lower[0]', { lower: [1, 0, 0, 0], upper: [0, 1, 1, 1] }],
    ['start[1]', { lower: [-1, 1, -1, -1] }],
    ['weights', { weights: [1, 2] }],
    ['weights', { weights: Y.map(() => -1) }],
    ['weights', { weights: Y.map(() => NaN) }],
    ['fixed', { fixed: [true] }],
  ] as const)('refuses a malformed %s', (argument, rest) => {
    const attempt = (): unknown => leastSquares(linearProblem(ROWS, Y, rest));
    expect(attempt).toThrow(InvalidArgumentError);
    expect(attempt).toThrow(`leastSquares: ${argument} must be`);
  });

  it('refuses a start where the model has no value', () => {
    const problem = linearProblem(ROWS, Y);
    const evaluate: LeastSquaresProblem['evaluate'] = (p, residuals, jacobian) => {
      problem.evaluate(p, residuals, jacobian);
      residuals[0] = NaN;
    };
    expect(() => leastSquares({ ...problem, evaluate })).toThrow(/finite residuals/);
  });
});

describe('leastSquaresInUnits on numbers whose squares are lost', () => {
  // A power of two changes no digit, so that everything must come out as for the plain numbers.
  const POWERS = [-480, -600, -1000] as const;
  const weights = Y.map((_, i) => 1 + (i % 3));
  const bounds = { lower: [-9, -0.2, -9, -9], upper: [9, 9, 9, 2] };

  it.each(POWERS)('fits readings of 2^%i as it fits them plain, and not exactly', (power) => {
    const scale = 2 ** power;
    const scaled = (values: readonly number[]) => values.map((value) => value * scale);
    for (const rest of [{}, { weights }, bounds]) {
      const plain = leastSquaresInUnits(linearProblem(ROWS, Y, rest));
      const inScale =
        'lower' in rest ? { lower: scaled(rest.lower), upper: scaled(rest.upper) } : rest;
      const fit = leastSquaresInUnits(linearProblem(ROWS, scaled(Y), inScale));
      expect(fit.report.test).not.toBe('exact');
      expect(fit.report.status).toBe('converged');
      expect(fit.report.rank).toBe(plain.report.rank);
      expect(fit.atBound).toEqual(plain.atBound);
      plain.parameters.forEach((value, j) => {
        expectWithin(fit.parameters[j]! / scale, value, 1e-12, `parameter ${j}`);
        const [own, error] = [fit.standardErrors[j]!, plain.standardErrors[j]!];
        if (plain.atBound[j]) expect(own).toBeNull();
        else expectWithin(own / scale, error, 1e-12, `error ${j}`);
      });
      expectWithin(fit.residualStandardDeviation! / scale, plain.residualStandardDeviation!, 1e-12);
      plain.residuals.forEach((value, i) => {
        expectWithin(fit.residuals[i]! / scale, value, 1e-11);
      });
    }
  });

  it('comes to them from a start of another size', () => {
    const scale = 2 ** -600;
    const scaled = Y.map((value) => value * scale);
    const plain = leastSquaresInUnits(linearProblem(ROWS, Y));
    for (const start of [
      [1, 1, 1, 1],
      [1e5, 1, 1, 1],
      [1, -1e-80, 1e-200, 0],
    ]) {
      const fit = leastSquaresInUnits(linearProblem(ROWS, scaled, { start }));
      expect(fit.report.test).not.toBe('exact');
      expect(fit.report.relativeOffset).toBeLessThan(1e-9);
      plain.parameters.forEach((value, j) => {
        expectWithin(fit.parameters[j]! / scale, value, 1e-12, `parameter ${j}`);
      });
    }
  });

  it('keeps the covariance of weights that are 1 / sigma^2', () => {
    const scale = 2 ** -560;
    const options = { weightKind: 'absolute' } as const;
    const plain = leastSquaresInUnits(linearProblem(ROWS, Y), options);
    const fit = leastSquaresInUnits(
      linearProblem(
        ROWS,
        Y.map((value) => value * scale),
      ),
      options,
    );
    // sigma is 1 in the unit of the readings, whatever their size.
    plain.covariance!.forEach((value, k) => {
      expectWithin(fit.covariance![k]!, value, 1e-13);
    });
  });

  it('scales slopes with a model of tiny slopes', () => {
    const scale = 2 ** -700;
    const rows = ROWS.map((row) => row.map((value) => value * scale));
    const plain = leastSquaresInUnits(linearProblem(ROWS, Y));
    const fit = leastSquaresInUnits(
      linearProblem(
        rows,
        Y.map((value) => value * scale),
      ),
    );
    expect(fit.report.test).not.toBe('exact');
    plain.parameters.forEach((value, j) => {
      expectWithin(fit.parameters[j]!, value, 1e-12);
      expectWithin(fit.standardErrors[j]!, plain.standardErrors[j]!, 1e-12);
    });
  });

  it('finds a decay of 1e-170 from a start of its own size', () => {
    const times = Array.from({ length: 12 }, (_, i) => i / 2);
    const readings = times.map((t, i) => 2 * Math.exp(-0.7 * t) + 0.02 * Math.sin(7 * i));
    const decay = (scale: number): LeastSquaresProblem => ({
      residualCount: times.length,
      start: [scale, 0.3],
      evaluate([a = 0, k = 0], residuals, jacobian) {
        times.forEach((t, i) => {
          const part = Math.exp(-k * t);
          residuals[i] = a * part - scale * readings[i]!;
          jacobian.set([part, -a * t * part], 2 * i);
        });
      },
    });
    const [plain, tiny] = [leastSquaresInUnits(decay(1)), leastSquaresInUnits(decay(2 ** -565))];
    expect(tiny.report.test).not.toBe('exact');
    expectWithin(tiny.parameters[0]! * 2 ** 565, plain.parameters[0]!, 1e-9);
    expectWithin(tiny.parameters[1]!, plain.parameters[1]!, 1e-9);
    expectWithin(tiny.standardErrors[1]!, plain.standardErrors[1]!, 1e-9);
  });

  it('still calls exact what is exact', () => {
    const whole = [
      [1, 0],
      [1, 1],
      [1, 2],
    ];
    const fit = leastSquaresInUnits(linearProblem(whole, [1, 3, 5], { start: [1, 2] }));
    expect(fit.report.test).toBe('exact');
    expect(fit.report.relativeOffset).toBe(0);
    const far = leastSquaresInUnits(
      linearProblem(whole, [0, 0, 0], { start: [2 ** -600, 2 ** -600] }),
    );
    expect(far.parameters).toEqual([0, 0]);
    expect(far.report.test).toBe('exact');
  });

  it('are told by leastSquares itself, which does not go on', () => {
    const scaled = Y.map((value) => value * 2 ** -600);
    const { report, parameters } = leastSquares(linearProblem(ROWS, scaled));
    expect(report).toMatchObject({ test: 'underflow', status: 'not-converged' });
    expect(parameters.every(Number.isFinite)).toBe(true);
  });

  it('refuses numbers too great to be told', () => {
    const problem = linearProblem(ROWS, Y);
    const evaluate: LeastSquaresProblem['evaluate'] = (p, residuals, jacobian) => {
      problem.evaluate(p, residuals, jacobian);
      residuals[0] = Infinity;
    };
    expect(() => leastSquaresInUnits({ ...problem, evaluate })).toThrow(/finite residuals/);
  });
});

describe('leastSquares on a curved problem', () => {
  /** Rosenbrock's valley as residuals: (10 (q - p^2), 1 - p). */
  const valley: LeastSquaresProblem = {
    residualCount: 2,
    start: [-1.2, 1],
    evaluate([p = 0, q = 0], residuals, jacobian) {
      residuals[0] = 10 * (q - p * p);
      residuals[1] = 1 - p;
      jacobian.set([-20 * p, 10, -1, 0]);
    },
  };

  it('follows a bent valley to its known end (1, 1)', () => {
    const fit = leastSquares(valley);
    expectWithin(fit.parameters[0]!, 1, 1e-12);
    expectWithin(fit.parameters[1]!, 1, 1e-12);
  });

  it('stops at a bound across the valley', () => {
    // With p at most 0.5 the best is p = 0.5, q = p^2.
    const fit = leastSquares({ ...valley, upper: [0.5, Infinity] });
    expect(fit.parameters[0]).toBe(0.5);
    expectWithin(fit.parameters[1]!, 0.25, 1e-9);
    expect(fit.atBound).toEqual([true, false]);
  });

  it('steps back from where the model has no value', () => {
    // ln p with a start from which the full step leads to p < 0.
    const fit = leastSquares({
      residualCount: 1,
      start: [20],
      evaluate([p = 0], residuals, jacobian) {
        residuals[0] = Math.log(p);
        jacobian[0] = 1 / p;
      },
    });
    expectWithin(fit.parameters[0]!, 1, 1e-9);
  });

  it('says when the allowance of iterations ran out', () => {
    const fit = leastSquares(valley, { maxIterations: 4 });
    expect(fit.report.status).toBe('not-converged');
    expect(fit.report.test).toBe('iterations');
  });

  it('does not touch the problem', () => {
    const start = Object.freeze([-1.2, 1]);
    leastSquares(Object.freeze({ ...valley, start }));
    expect(start).toEqual([-1.2, 1]);
  });
});

describe('linearLeastSquares', () => {
  it('agrees with ml-matrix on a well-conditioned design', () => {
    const columns = [0, 1, 2, 3].map((j) => ({ values: ROWS.map((row) => row[j]!) }));
    const fit = linearLeastSquares(columns, Y);
    if (fit.status !== 'ok') throw new Error(fit.reason);
    const reference = new QrDecomposition(new Matrix(ROWS)).solve(Matrix.columnVector(Y));
    fit.coefficients.forEach((value, j) => {
      expectWithin(value, reference.get(j, 0), 1e-13);
    });
    const nonlinear = leastSquares(linearProblem(ROWS, Y));
    fit.standardErrors!.forEach((error, j) => {
      expectWithin(error, nonlinear.standardErrors[j]!, 1e-13);
    });
  });

  it('says why there is no solution', () => {
    const ones = { values: [1, 1, 1] };
    expect(linearLeastSquares([ones, ones], [1, 2, 3])).toEqual({
      status: 'not-determined',
      reason: 'rank-deficient',
    });
    expect(linearLeastSquares([ones, ones, ones, ones], [1, 2, 3])).toEqual({
      status: 'not-determined',
      reason: 'too-few-data',
    });
  });

  it('refuses malformed designs', () => {
    expect(() => linearLeastSquares([], [1])).toThrow(InvalidArgumentError);
    expect(() => linearLeastSquares([{ values: [1, NaN] }], [1, 2])).toThrow(/finite/);
    expect(() => linearLeastSquares([{ values: [1] }], [1, 2])).toThrow(InvalidArgumentError);
    expect(() => linearLeastSquares([{ values: [1, 1] }], [1, Infinity])).toThrow(/y must/);
    expect(() => polynomialLeastSquares([1, 2], [1, 2], 0.5)).toThrow(/degree/);
  });

  it('finds a parabola far from the origin, where normal equations on raw powers lose it', () => {
    // y = (x - 1e4)^2: coefficients 1e8, -2e4, 1 exactly.
    const x = Array.from({ length: 21 }, (_, i) => 1e4 + i);
    const fit = polynomialLeastSquares(
      x,
      x.map((v) => (v - 1e4) ** 2),
      2,
    );
    if (fit.status !== 'ok') throw new Error(fit.reason);
    [1e8, -2e4, 1].forEach((exact, j) => {
      expectWithin(fit.coefficients[j]! / exact, 1, 1e-12);
    });
  });
});
