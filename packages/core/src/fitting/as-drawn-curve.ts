/**
 * A curve in cubic pieces between knots, by the density and the slope at each.
 *
 *   D = h00 D_k + h01 D_k+1 + h (h10 m_k + h11 m_k+1),  u = (x - x_k) / h
 *
 * Sources: [FC1980] cubic Hermite pieces. Deviations: constant beyond the knots.
 */
import type { CurveFunction } from './model.ts';
import { parameterItself } from './models/parameter-itself.ts';

/** A parameter with its share of the density, and of the gradient. */
type Share = readonly [parameter: number, ofDensity: number, ofGradient: number];

/**
 * The curve through knots: parameters are base + fog, the density at each knot, the slope at each.
 *
 * @param knots - log exposures, ascending, at least two
 */
export function asDrawnCurve(knots: readonly number[]): CurveFunction {
  const n = knots.length;
  const knot = (k: number): number => knots[k - 1] as number;
  const sharesAt = (x: number): readonly Share[] => {
    if (x === -Infinity) return [[0, 1, 0]];
    if (x <= knot(1)) return [[1, 1, 0]];
    if (x >= knot(n)) return [[n, 1, 0]];
    let k = 1;
    while (knot(k + 1) <= x) k++;
    const h = knot(k + 1) - knot(k);
    const u = (x - knot(k)) / h;
    const w = 1 - u;
    const risen = u * u * (3 - 2 * u);
    const rising = (6 * u * w) / h;
    return [
      [k, 1 - risen, -rising],
      [k + 1, risen, rising],
      [n + k, h * u * w * w, w * (1 - 3 * u)],
      [n + k + 1, -h * u * u * w, u * (3 * u - 2)],
    ];
  };
  const value: CurveFunction['value'] = (x, p) =>
    sharesAt(x).reduce((sum, [j, share]) => sum + share * (p[j] as number), 0);
  return {
    name: 'as-drawn',
    get parameterNames() {
      const each = (name: string) => knots.map((_, k) => `${name}${k + 1}`);
      return ['minimumDensity', ...each('density'), ...each('slope')];
    },
    value,
    derivatives(x, p, out) {
      out.fill(0);
      for (const [j, share] of sharesAt(x)) out[j] = share;
      return value(x, p);
    },
    gradient: (x, p) =>
      sharesAt(x).reduce((sum, [j, , share]) => sum + share * (p[j] as number), 0),
    baseFog: parameterItself(0),
    upperAsymptote: parameterItself(n),
  };
}
