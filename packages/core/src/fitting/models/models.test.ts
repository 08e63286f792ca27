/**
 * Every built-in model: derivatives against central differences of eighth order, limits and
 * starting values.
 */
import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../../test/within.ts';
import { asDrawnCurve } from '../as-drawn-curve.ts';
import { CURVE_MODELS, MODELS, modelByName } from '../model-by-name.ts';
import type { CurveFunction, CurveModel, ParametricFunction } from '../model.ts';
import { monotoneSmoothModel } from '../monotone-smooth-model.ts';

/** Weights of the central difference of eighth order. */
const STENCIL = [4 / 5, -1 / 5, 4 / 105, -1 / 280];

/** df/dt at t by eighth-order central differences. */
function difference(f: (t: number) => number, t: number): number {
  const h = 2e-3 * Math.max(1e-2, Math.abs(t));
  return STENCIL.reduce(
    (sum, weight, k) => sum + (weight * (f(t + (k + 1) * h) - f(t - (k + 1) * h))) / h,
    0,
  );
}

/** Truncation of the eighth order and rounding at steps of 0.2 %, with room. */
const RELATIVE = 3e-8;

const TRIALS: readonly (readonly [string, readonly number[], readonly number[]])[] = [
  ['straight-line', [0.3, -1.7], [-4, 0, 2.5]],
  ['exponential-rise', [213.8, 0.547], [0.5, 3, 10]],
  ['exponential-rise', [2.1, -0.3], [1, 4]],
  ['log-logistic-3', [2.98, 7.79, 3.06], [0.94, 3.75, 30]],
  ['log-logistic-4', [2.98, 0.48, 7.79, 3.06], [0.94, 3.75, 30]],
  ['log-logistic-4', [-1.4, 0.1, 1.2, 20], [1, 20, 300]],
  ['weibull-4', [1.7, 0.2, 3.1, 5], [1, 5, 12]],
  ['michaelis-menten', [212, 0.064], [0.02, 0.11, 1.1]],
  ['toe-only', [0.15, 0.7, -2, 0.25], [-3, -2.1, -1, 0]],
  ['toe-shoulder', [0.1, 0.65, -2.3, 0.15, -0.5, 0.22], [-3, -2.3, -1.2, -0.4, 0.3]],
  ['toe-shoulder', [0.1, 1.9, -2.3, 0.4, -1.6, 0.5], [-3, -2.3, -1.2, 0]],
  ['logistic-4', [0.1, 2.2, -1.1, 0.5], [-3, -1.2, 0]],
  ['logistic-5', [0.1, 2.2, -1.1, 0.5, 2.4], [-3, -1.2, 0]],
  ['logistic-5', [0.1, 2.2, -0.4, 0.3, 0.35], [-3, -1.2, 0]],
  ['hurter-driffield', [0.05, 0.9, 150, 0.016], [-3, -1.5, 0.4]],
];

const KNOTS = [-3, -2.5, -2, -1.5, -1, -0.5, 0];
const PIECEWISE: readonly (readonly [
  string,
  CurveFunction,
  readonly number[],
  readonly number[],
])[] = [
  [
    'monotone-smooth',
    monotoneSmoothModel(KNOTS),
    [0.1, 0.12, 0.3, 0.7, 1.1, 1.4, 1.5],
    [-3.4, -2.9, -2.2, -1.26, -0.1, 0.4],
  ],
  [
    'as-drawn',
    asDrawnCurve(KNOTS),
    [0.09, 0.1, 0.12, 0.4, 0.85, 1.2, 1.45, 1.5, 0, 0.1, 0.7, 0.9, 0.6, 0.3, 0.1],
    [-3.4, -2.9, -2.2, -1.26, -0.1, 0.4],
  ],
];

function expectDerivatives(
  model: ParametricFunction,
  parameters: readonly number[],
  x: number,
): void {
  const out = new Float64Array(parameters.length);
  const value = model.derivatives(x, parameters, out);
  expectWithin(value, model.value(x, parameters), 1e-14 * Math.max(1, Math.abs(value)), 'value');
  parameters.forEach((parameter, j) => {
    const numeric = difference((t) => {
      const moved = [...parameters];
      moved[j] = t;
      return model.value(x, moved);
    }, parameter);
    const scale = Math.max(
      Math.abs(numeric),
      Math.abs(value) / Math.max(1e-2, Math.abs(parameter)),
    );
    expectWithin(out[j]!, numeric, RELATIVE * scale + 1e-12, `d/d${model.parameterNames[j]!}`);
  });
}

describe('models', () => {
  it('are known by their names', () => {
    expect(MODELS.map(({ name }) => name)).toEqual([
      'straight-line',
      'exponential-rise',
      'log-logistic-3',
      'log-logistic-4',
      'weibull-4',
      'michaelis-menten',
      'toe-shoulder',
      'toe-only',
      'logistic-4',
      'logistic-5',
      'hurter-driffield',
    ]);
    for (const model of MODELS) expect(modelByName(model.name)).toBe(model);
    expect(modelByName('polynomial')).toBeNull();
    expect(new Set(TRIALS.map(([name]) => name))).toEqual(new Set(MODELS.map((m) => m.name)));
  });

  it.each(TRIALS)('%s at %j has the derivatives of its value', (name, parameters, xs) => {
    for (const x of xs) expectDerivatives(modelByName(name)!, parameters, x);
  });

  it.each(PIECEWISE)('%s has the derivatives of its value', (_, model, parameters, xs) => {
    for (const x of xs) expectDerivatives(model, parameters, x);
  });

  it.each(TRIALS)('%s at %j: inner parameters lead there and back', (name, parameters) => {
    const { inner } = modelByName(name)!;
    if (!inner) return;
    const count = parameters.length;
    const u = inner.fromNatural(parameters);
    const natural = new Float64Array(count);
    const chain = new Float64Array(count * count);
    inner.toNatural(u, natural, chain);
    const numeric = (i: number, j: number): number =>
      difference((t) => {
        const moved = [...u];
        moved[j] = t;
        const out = new Float64Array(count);
        inner.toNatural(moved, out, new Float64Array(count * count));
        return out[i]!;
      }, u[j]!);
    for (let i = 0; i < count; i++) {
      expectWithin(natural[i]!, parameters[i]!, 1e-12 * Math.max(1, Math.abs(parameters[i]!)));
      for (let j = 0; j < count; j++) {
        const expected = numeric(i, j);
        expectWithin(chain[i * count + j]!, expected, 1e-7 * Math.max(1, Math.abs(expected)));
      }
    }
  });
});

describe('curve models', () => {
  const curves = [
    ...TRIALS.filter(([name]) => CURVE_MODELS.some((m) => m.name === name)).map(
      ([name, parameters, xs]) => [name, modelByName(name) as CurveModel, parameters, xs] as const,
    ),
    ...PIECEWISE,
  ];

  it.each(curves)('%s: the gradient is the slope of the density', (_, model, parameters, xs) => {
    for (const x of xs) {
      const numeric = difference((t) => model.value(t, parameters), x);
      expectWithin(model.gradient(x, parameters), numeric, 1e-7, `at ${x}`);
    }
  });

  it.each(curves)('%s: the unexposed film has the lower limit', (_, model, parameters) => {
    const out = new Float64Array(parameters.length);
    const fog = model.baseFog(parameters, out);
    expect(model.value(-Infinity, parameters)).toBe(fog);
    const row = new Float64Array(parameters.length);
    expect(model.derivatives(-Infinity, parameters, row)).toBe(fog);
    // + 0: a derivative of -0 is 0.
    expect(Array.from(row, (d) => d + 0)).toEqual(Array.from(out));
    expect(row.every(Number.isFinite)).toBe(true);
  });

  it.each(curves)('%s: the upper limit is reached far out', (name, model, parameters) => {
    const out = new Float64Array(parameters.length);
    const limit = model.upperAsymptote(parameters, out);
    if (limit === null) return;
    // 40 decades out, and 40 widths, every bounded curve is at its limit to rounding.
    const far = name === 'hurter-driffield' ? 4 : 40;
    expectWithin(model.value(far, parameters), limit, 1e-9 * Math.max(1, limit));
    const row = new Float64Array(parameters.length);
    model.derivatives(far, parameters, row);
    parameters.forEach((_, j) => {
      expectWithin(row[j]!, out[j]!, 1e-6, `d/d${model.parameterNames[j]!}`);
    });
  });

  it('a toe-shoulder curve of exact hard corners is three straight lines', () => {
    const model = modelByName('toe-shoulder')!;
    const parameters = [0.1, 0.5, -2, 1e-3, 0, 1e-3];
    expectWithin(model.value(-2.5, parameters), 0.1, 1e-12);
    expectWithin(model.value(-1, parameters), 0.6, 1e-12);
    expectWithin(model.value(1, parameters), 1.1, 1e-12);
  });

  it('[HD1890] the 1890 formula tends to the straight line slope log10(H / i) above the inertia', () => {
    // O without limit: D = G log10(1 + H / i).
    const model = modelByName('hurter-driffield')!;
    expectWithin(model.value(1, [0, 0.9, 1e12, 0.1]), 0.9 * Math.log10(1 + 100), 1e-9);
  });
});
