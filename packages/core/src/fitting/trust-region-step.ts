/**
 * The Levenberg-Marquardt step within a trust region, in scaled variables:
 *
 *   minimise |R s + c|^2 subject to |s| <= delta,  s = -(R'R + lambda I)^-1 R'c
 *
 * Sources: [MORE1978] section 5: lambda by Newton's iteration on |s(lambda)| = delta, safeguarded.
 * Deviations: the scaling is in R already, so that the damping matrix is the identity.
 */

const ROUNDING = 2 ** -52;

/** Room for the solver's vectors, so that a step allocates nothing. */
export interface StepWorkspace {
  /** The eliminated factor, column-major, order * order. */
  readonly s: Float64Array;
  readonly row: Float64Array;
  readonly right: Float64Array;
  readonly v: Float64Array;
}

export function stepWorkspace(order: number): StepWorkspace {
  return {
    s: new Float64Array(order * order),
    row: new Float64Array(order),
    right: new Float64Array(order),
    v: new Float64Array(order),
  };
}

/**
 * Writes the step and returns lambda (0 for the undamped Gauss-Newton step).
 *
 * @param r - upper triangle in r[j * stride + i], i <= j
 * @param stride - distance between columns
 * @param order - number of columns
 * @param rank - columns that count as independent; below `order` the step is always damped
 * @param c - the first `order` elements of Q'b
 * @param delta - radius, > 0
 * @param guess - lambda of the step before
 * @param step - receives the step
 */
export function trustRegionStep(
  r: Float64Array,
  stride: number,
  order: number,
  rank: number,
  c: Float64Array,
  delta: number,
  guess: number,
  step: Float64Array,
  work: StepWorkspace,
): number {
  const { v } = work;
  const full = rank === order;
  let low = 0;
  let excess = Infinity;
  if (full) {
    gaussNewtonStep(r, stride, order, c, step);
    const length = norm(step, order);
    excess = length - delta;
    if (excess <= 0.1 * delta) return 0;
    // -phi'(0) from R' w = s / |s|
    for (let j = 0; j < order; j++) v[j] = at(step, j) / length;
    low = excess / delta / forwardSquare(r, stride, order, v);
  }
  let gradient = 0;
  for (let j = 0; j < order; j++) {
    let sum = 0;
    for (let i = 0; i <= j; i++) sum += at(r, j * stride + i) * at(c, i);
    gradient += sum * sum;
  }
  gradient = Math.sqrt(gradient);
  if (gradient === 0) {
    step.fill(0, 0, order);
    return 0;
  }
  let high = gradient / delta;
  let lambda = Math.min(Math.max(guess, low), high);
  if (lambda === 0) lambda = full ? gradient / norm(step, order) : 1e-3 * high;
  // A singular triangle needs damping that rounding can see.
  const least = full ? 1e-290 : (ROUNDING * at(r, 0)) ** 2;
  for (let round = 0; round < 10; round++) {
    if (lambda === 0) lambda = 1e-3 * high;
    lambda = Math.max(lambda, least);
    dampedStep(r, stride, order, c, lambda, step, work);
    const length = norm(step, order);
    const before = excess;
    excess = length - delta;
    if (Math.abs(excess) <= 0.1 * delta) break;
    if (low === 0 && excess <= before && before < 0) break;
    for (let j = 0; j < order; j++) v[j] = at(step, j) / length;
    const newton = excess / delta / forwardSquare(work.s, order, order, v);
    if (excess > 0) low = Math.max(low, lambda);
    else high = Math.min(high, lambda);
    lambda = Math.max(low, lambda + newton);
  }
  return lambda;
}

/** Solves R s = -c by back substitution. */
export function gaussNewtonStep(
  r: Float64Array,
  stride: number,
  order: number,
  c: Float64Array,
  step: Float64Array,
): void {
  for (let i = order - 1; i >= 0; i--) {
    let sum = -at(c, i);
    for (let j = i + 1; j < order; j++) sum -= at(r, j * stride + i) * at(step, j);
    step[i] = sum / at(r, i * stride + i);
  }
}

/** Solves (R'R + lambda I) s = -R'c by Givens rotations of sqrt(lambda) I into R. */
function dampedStep(
  r: Float64Array,
  stride: number,
  order: number,
  c: Float64Array,
  lambda: number,
  step: Float64Array,
  work: StepWorkspace,
): void {
  const { s, row, right } = work;
  const root = Math.sqrt(lambda);
  for (let j = 0; j < order; j++) {
    for (let i = 0; i <= j; i++) s[j * order + i] = at(r, j * stride + i);
    right[j] = at(c, j);
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
      const keep = at(right, k);
      right[k] = cosine * keep + sine * extra;
      extra = cosine * extra - sine * keep;
      for (let m = k + 1; m < order; m++) {
        const upper = at(s, m * order + k);
        s[m * order + k] = cosine * upper + sine * at(row, m);
        row[m] = cosine * at(row, m) - sine * upper;
      }
    }
  }
  gaussNewtonStep(s, order, order, right, step);
}

/** |w|^2 with R' w = v; v is overwritten by w. */
function forwardSquare(r: Float64Array, stride: number, order: number, v: Float64Array): number {
  let square = 0;
  for (let j = 0; j < order; j++) {
    let sum = at(v, j);
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
