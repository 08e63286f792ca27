/**
 * A cubic spline on equally spaced knots as a curve model.
 *
 *   D(x) = sum_j c_max(0, j - 2) B_j(x),  c_0 <= c_1 <= ... keep it rising
 *
 * The first three basis functions share the coefficient c_0, so that the curve leaves base + fog
 * c_0 at the first knot with no slope and no curvature, and stays on it to the left; to the right
 * of the last knot it goes on straight.
 *
 * Sources: [EM1996] B-splines on equally spaced knots. Deviations: the shared coefficient.
 */
import type { CurveModel } from './model.ts';

/** Weights of the four coefficients that act in a cell at u in [0, 1], and their derivatives. */
function basis(u: number, value: Float64Array, slope: Float64Array): void {
  const w = 1 - u;
  value[0] = (w * w * w) / 6;
  value[1] = (u * u * (3 * u - 6) + 4) / 6;
  value[2] = (w * w * (3 * w - 6) + 4) / 6;
  value[3] = (u * u * u) / 6;
  slope[0] = (-w * w) / 2;
  slope[1] = (u * (3 * u - 4)) / 2;
  slope[2] = (-w * (3 * w - 4)) / 2;
  slope[3] = (u * u) / 2;
}

/** Names of so many coefficients, made once: every fitted curve asks for them. */
function namesOf(count: number): readonly string[] {
  return (NAMES[count] ??= Array.from({ length: count }, (_, j) => `coefficient${j.toString()}`));
}
const NAMES: (readonly string[] | undefined)[] = [];

/** Models made before, by their knots: curves are evaluated point by point. */
const MODELS = new WeakMap<readonly number[], CurveModel>();

/**
 * The model of a monotone smooth curve: one coefficient more than knots.
 *
 * @param knots - log exposures, equally spaced, ascending, at least two
 */
export function monotoneSmoothModel(knots: readonly number[]): CurveModel {
  const known = MODELS.get(knots);
  if (known) return known;
  const first = knots[0] as number;
  const last = knots[knots.length - 1] as number;
  const cells = knots.length - 1;
  const h = (last - first) / cells;
  const weights = new Float64Array(4);
  const slopes = new Float64Array(4);

  /** Fills the basis at x (kept within the knots) and returns the cell. */
  const locate = (x: number): number => {
    const position = Math.min(Math.max((x - first) / h, 0), cells);
    const cell = Math.min(Math.floor(position), cells - 1);
    basis(position - cell, weights, slopes);
    return cell;
  };
  const model: CurveModel = {
    name: 'monotone-smooth',
    get parameterNames() {
      return namesOf(cells + 1);
    },
    value(x, p) {
      if (!(x > first)) return p[0] as number;
      const cell = locate(x);
      const beyond = x > last ? (x - last) / h : 0;
      let sum = 0;
      for (let k = 0; k < 4; k++) {
        const weight = (weights[k] as number) + beyond * (slopes[k] as number);
        sum += weight * (p[Math.max(0, cell + k - 2)] as number);
      }
      return sum;
    },
    derivatives(x, p, out) {
      out.fill(0);
      if (!(x > first)) {
        out[0] = 1;
        return p[0] as number;
      }
      const cell = locate(x);
      const beyond = x > last ? (x - last) / h : 0;
      let sum = 0;
      for (let k = 0; k < 4; k++) {
        const weight = (weights[k] as number) + beyond * (slopes[k] as number);
        const j = Math.max(0, cell + k - 2);
        out[j] = (out[j] as number) + weight;
        sum += weight * (p[j] as number);
      }
      return sum;
    },
    start: (_, y) => {
      const low = Math.min(...y);
      const high = Math.max(...y);
      return Array.from({ length: cells + 1 }, (_unused, j) => low + ((high - low) * j) / cells);
    },
    gradient(x, p) {
      if (!(x > first)) return 0;
      const cell = locate(x);
      let sum = 0;
      for (let k = 0; k < 4; k++) {
        sum += (slopes[k] as number) * (p[Math.max(0, cell + k - 2)] as number);
      }
      return sum / h;
    },
    baseFog(p, out) {
      out.fill(0);
      out[0] = 1;
      return p[0] as number;
    },
    upperAsymptote: () => null,
  };
  MODELS.set(knots, model);
  return model;
}
