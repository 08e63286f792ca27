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
import type { CurveFunction } from './model.ts';
import { parameterItself } from './models/parameter-itself.ts';

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
const MODELS = new WeakMap<readonly number[], CurveFunction>();

/**
 * The model of a monotone smooth curve: one coefficient more than knots.
 *
 * @param knots - log exposures, equally spaced, ascending, at least two
 */
export function monotoneSmoothModel(knots: readonly number[]): CurveFunction {
  const known = MODELS.get(knots);
  if (known) return known;
  const first = knots[0] as number;
  const last = knots[knots.length - 1] as number;
  const cells = knots.length - 1;
  const h = (last - first) / cells;
  const weights = new Float64Array(4);
  const slopes = new Float64Array(4);

  /** Fills the basis at x and returns the cell; beyond the knots the last cell's line goes on. */
  const locate = (x: number): number => {
    const position = (x - first) / h;
    const cell = Math.min(Math.floor(position), cells - 1);
    const beyond = Math.max(0, position - cells);
    basis(position - cell - beyond, weights, slopes);
    if (beyond > 0) {
      for (let k = 0; k < 4; k++) weights[k] = at(weights, k) + beyond * at(slopes, k);
    }
    return cell;
  };
  /** Sum of what acts in a cell, each with its coefficient. */
  const sum = (shares: Float64Array, cell: number, p: ArrayLike<number>): number => {
    let total = 0;
    for (let k = 0; k < 4; k++) total += at(shares, k) * at(p, Math.max(0, cell + k - 2));
    return total;
  };
  const model: CurveFunction = {
    name: 'monotone-smooth',
    get parameterNames() {
      return namesOf(cells + 1);
    },
    value: (x, p) => (x > first ? sum(weights, locate(x), p) : at(p, 0)),
    derivatives(x, p, out) {
      out.fill(0);
      if (!(x > first)) {
        out[0] = 1;
        return at(p, 0);
      }
      const cell = locate(x);
      for (let k = 0; k < 4; k++) {
        const j = Math.max(0, cell + k - 2);
        out[j] = at(out, j) + at(weights, k);
      }
      return sum(weights, cell, p);
    },
    gradient: (x, p) => (x > first ? sum(slopes, locate(x), p) / h : 0),
    baseFog: parameterItself(0),
    upperAsymptote: () => null,
  };
  MODELS.set(knots, model);
  return model;
}

function at(list: ArrayLike<number>, index: number): number {
  return list[index] as number;
}
