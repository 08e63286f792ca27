/**
 * A monotone curve through the readings themselves, to draw or to invert a trusted table.
 *
 * Cubic Hermite pieces between the readings, with slopes that keep each piece monotone:
 *
 *   m_k = (h1 + h2) ... weighted harmonic mean of the secants either side, 0 at an extreme
 *
 * The curve follows every error of reading, and its slopes are worse than its densities: it is no
 * source of gradients, gamma or contrast, and it has no error model.
 *
 * Sources: [FC1980] the region of monotone slopes; [FB1984] the harmonic mean that lies in it.
 * Deviations: constant beyond the readings.
 */
import type { CurveModel } from './model.ts';

/** Models made before, by their knots: curves are evaluated point by point. */
const MODELS = new WeakMap<readonly number[], CurveModel>();

/**
 * The model of a curve drawn through knots: parameters are base + fog and the density at each.
 *
 * @param knots - log exposures, ascending, at least two
 */
export function asDrawnModel(knots: readonly number[]): CurveModel {
  const known = MODELS.get(knots);
  if (known) return known;
  const n = knots.length;
  const names = (): string[] => [
    'minimumDensity',
    ...knots.map((_, k) => `density${(k + 1).toString()}`),
  ];
  const piece = pieceOf(knots);
  const model: CurveModel = {
    name: 'as-drawn',
    get parameterNames() {
      return names();
    },
    value: (x, p) => piece(x, p, null).value,
    derivatives(x, p, out) {
      out.fill(0);
      return piece(x, p, out).value;
    },
    // What was read at each knot; nothing of this curve is ever fitted.
    start: (x, y) => [y[0] ?? 0, ...knots.map((knot) => y[x.indexOf(knot)] ?? y[0] ?? 0)],
    gradient: (x, p) => piece(x, p, null).gradient,
    baseFog(p, out) {
      out.fill(0);
      out[0] = 1;
      return p[0] as number;
    },
    upperAsymptote(p, out) {
      out.fill(0);
      out[n] = 1;
      return p[n] as number;
    },
  };
  MODELS.set(knots, model);
  return model;
}

type Piece = (
  x: number,
  p: ArrayLike<number>,
  out: Float64Array | null,
) => { readonly value: number; readonly gradient: number };

function pieceOf(knots: readonly number[]): Piece {
  const n = knots.length;
  const knot = (k: number): number => knots[k] as number;
  const density = (p: ArrayLike<number>, k: number): number => p[k + 1] as number;
  const secant = (p: ArrayLike<number>, k: number): number =>
    (density(p, k + 1) - density(p, k)) / (knot(k + 1) - knot(k));

  /** Adds `weight` times the derivatives of secant k to `out`. */
  const addSecant = (out: Float64Array, k: number, weight: number): void => {
    const run = knot(k + 1) - knot(k);
    out[k + 1] = (out[k + 1] as number) - weight / run;
    out[k + 2] = (out[k + 2] as number) + weight / run;
  };

  /** Slope at knot k; adds `weight` times its derivatives to `out`. */
  const slope = (
    p: ArrayLike<number>,
    k: number,
    out: Float64Array | null,
    weight: number,
  ): number => {
    if (k === 0 || k === n - 1) {
      const end = k === 0 ? 0 : n - 2;
      if (out) addSecant(out, end, weight);
      return secant(p, end);
    }
    const before = secant(p, k - 1);
    const after = secant(p, k);
    if (!(before * after > 0)) return 0;
    const h1 = knot(k) - knot(k - 1);
    const h2 = knot(k + 1) - knot(k);
    // [FB1984]: 1 / m = a / before + (1 - a) / after
    const a = (h1 + 2 * h2) / (3 * (h1 + h2));
    const m = 1 / (a / before + (1 - a) / after);
    if (out) {
      addSecant(out, k - 1, (weight * a * m * m) / (before * before));
      addSecant(out, k, (weight * (1 - a) * m * m) / (after * after));
    }
    return m;
  };

  return (x, p, out) => {
    if (x === -Infinity) {
      if (out) out[0] = 1;
      return { value: p[0] as number, gradient: 0 };
    }
    if (x <= knot(0) || x >= knot(n - 1)) {
      const k = x <= knot(0) ? 0 : n - 1;
      if (out) out[k + 1] = 1;
      return { value: density(p, k), gradient: 0 };
    }
    let low = 0;
    let high = n - 1;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (knot(middle) <= x) low = middle;
      else high = middle;
    }
    const h = knot(high) - knot(low);
    const u = (x - knot(low)) / h;
    const w = 1 - u;
    const h00 = (1 + 2 * u) * w * w;
    const h10 = u * w * w * h;
    const h01 = u * u * (3 - 2 * u);
    const h11 = -u * u * w * h;
    if (out) {
      out[low + 1] = h00;
      out[high + 1] = h01;
    }
    const left = slope(p, low, out, h10);
    const right = slope(p, high, out, h11);
    const rise = density(p, high) - density(p, low);
    return {
      value: h00 * density(p, low) + h01 * density(p, high) + h10 * left + h11 * right,
      gradient: (6 * u * w * rise) / h + w * (1 - 3 * u) * left + u * (3 * u - 2) * right,
    };
  };
}
