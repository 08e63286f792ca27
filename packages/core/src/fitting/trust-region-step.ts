/**
 * The Levenberg-Marquardt step within a trust region, in scaled variables:
 *
 *   minimise |R s + c|^2 subject to |s| <= delta,  s = -(R'R + lambda I)^-1 R'c
 *
 * Sources: [MORE1978] section 5: lambda by Newton's iteration on |s(lambda)| = delta, safeguarded.
 * Deviations: the scaling is in R already, so that the damping matrix is the identity.
 */
import type { Search } from './search.ts';

const ROUNDING = 2 ** -52;

/** Room for the solver's vectors, so that a step allocates nothing. */
export interface StepWorkspace {
  /** The eliminated factor, column-major, order * order, and its right-hand side. */
  readonly s: Float64Array;
  readonly row: Float64Array;
  readonly v: Float64Array;
}

export function stepWorkspace(order: number): StepWorkspace {
  return {
    s: new Float64Array(order * (order + 1)),
    row: new Float64Array(order),
    v: new Float64Array(order),
  };
}

/**
 * Writes the step to `search.step` and lambda to `search.lambda` (0 for the undamped Gauss-Newton
 * step). The linearisation must be current; where its rank is short, the step is always damped.
 */
export function trustRegionStep(search: Search): void {
  const { columns: r, n, freeCount: order, step, work, radius: delta } = search;
  const full = search.rank === order;
  let low = 0;
  let excess = Infinity;
  if (full) {
    gaussNewtonStep(r, n, order, step);
    excess = norm(step, order) - delta;
    if (excess <= 0.1 * delta) {
      search.lambda = 0;
      return;
    }
    // -phi'(0) from R' w = s / |s|
    low = excess / delta / forwardSquare(r, n, order, step, work.v);
  }
  let gradient = 0;
  for (let j = 0; j < order; j++) {
    let sum = 0;
    for (let i = 0; i <= j; i++) sum += at(r, j * n + i) * at(r, order * n + i);
    gradient += sum * sum;
  }
  gradient = Math.sqrt(gradient);
  if (gradient === 0) {
    step.fill(0, 0, order);
    search.lambda = 0;
    return;
  }
  let high = gradient / delta;
  let lambda = Math.min(Math.max(search.lambda, low), high);
  if (lambda === 0) lambda = full ? gradient / norm(step, order) : 1e-3 * high;
  // A singular triangle needs damping that rounding can see.
  const least = full ? 1e-290 : (ROUNDING * at(r, 0)) ** 2;
  for (let round = 0; round < 10; round++) {
    if (lambda === 0) lambda = 1e-3 * high;
    lambda = Math.max(lambda, least);
    dampedStep(search, lambda);
    const before = excess;
    excess = norm(step, order) - delta;
    if (Math.abs(excess) <= 0.1 * delta) break;
    if (low === 0 && excess <= before && before < 0) break;
    const newton = excess / delta / forwardSquare(work.s, order, order, step, work.v);
    if (excess > 0) low = Math.max(low, lambda);
    else high = Math.min(high, lambda);
    lambda = Math.max(low, lambda + newton);
  }
  search.lambda = lambda;
}

/**
 * Solves R s = -c by back substitution; c is the column after the triangle.
 *
 * @param r - upper triangle in r[j * stride + i], i <= j
 * @param stride - distance between columns
 * @param order - number of columns
 * @param step - receives s
 */
export function gaussNewtonStep(
  r: Float64Array,
  stride: number,
  order: number,
  step: Float64Array,
): void {
  for (let i = order - 1; i >= 0; i--) {
    let sum = -at(r, order * stride + i);
    for (let j = i + 1; j < order; j++) sum -= at(r, j * stride + i) * at(step, j);
    step[i] = sum / at(r, i * stride + i);
  }
}

/** Solves (R'R + lambda I) s = -R'c by Givens rotations of sqrt(lambda) I into R. */
function dampedStep(search: Search, lambda: number): void {
  const { columns: r, n, freeCount: order, step } = search;
  const { s, row } = search.work;
  const root = Math.sqrt(lambda);
  for (let j = 0; j <= order; j++) {
    for (let i = 0; i <= j && i < order; i++) s[j * order + i] = at(r, j * n + i);
  }
  for (let j = 0; j < order; j++) {
    row.fill(0, j, order);
    row[j] = root;
    let extra = 0;
    for (let k = j; k < order; k++) {
      const below = at(row, k);
      // Smaller numbers have no square.
      if (Math.abs(below) < 1e-150) continue;
      const diagonal = at(s, k * order + k);
      const length = Math.sqrt(diagonal * diagonal + below * below);
      const cosine = diagonal / length;
      const sine = below / length;
      s[k * order + k] = length;
      const right = order * order + k;
      const keep = at(s, right);
      s[right] = cosine * keep + sine * extra;
      extra = cosine * extra - sine * keep;
      for (let m = k + 1; m < order; m++) {
        const upper = at(s, m * order + k);
        s[m * order + k] = cosine * upper + sine * at(row, m);
        row[m] = cosine * at(row, m) - sine * upper;
      }
    }
  }
  gaussNewtonStep(s, order, order, step);
}

/** |w|^2 with R' w = s / |s|; `v` receives w. */
function forwardSquare(
  r: Float64Array,
  stride: number,
  order: number,
  step: Float64Array,
  v: Float64Array,
): number {
  const length = norm(step, order);
  let square = 0;
  for (let j = 0; j < order; j++) {
    let sum = at(step, j) / length;
    for (let i = 0; i < j; i++) sum -= at(r, j * stride + i) * at(v, i);
    const w = sum / at(r, j * stride + j);
    v[j] = w;
    square += w * w;
  }
  return square;
}

function norm(a: Float64Array, length: number): number {
  let sum = 0;
  for (let i = 0; i < length; i++) sum += at(a, i) * at(a, i);
  return Math.sqrt(sum);
}

function at(array: Float64Array, index: number): number {
  return array[index] as number;
}
