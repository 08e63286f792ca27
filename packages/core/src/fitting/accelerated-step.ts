/**
 * Acceleration of a linearly convergent iteration x <- x + s(x), here the Gauss-Newton steps that
 * polish a minimum. With residuals that are not small, each step leaves a constant share of the
 * error; from the last few steps the error's course is extrapolated.
 *
 *   minimise |s_k - sum_i c_i (s_i+1 - s_i)|,  x <- x + s_k - sum_i c_i (x_i+1 - x_i + s_i+1 - s_i)
 *
 * Sources: [WN2011] Anderson's mixing, type II. Deviations: at most three differences.
 */

const DEPTH = 3;

/** The last points and steps of the iteration. */
export interface StepHistory {
  readonly points: Float64Array[];
  readonly steps: Float64Array[];
  readonly dot: Float64Array;
  readonly shares: Float64Array;
  filled: number;
}

export function newStepHistory(count: number): StepHistory {
  const room = (): Float64Array[] =>
    Array.from({ length: DEPTH + 1 }, () => new Float64Array(count));
  return {
    points: room(),
    steps: room(),
    dot: new Float64Array(DEPTH * (DEPTH + 1)),
    shares: new Float64Array(DEPTH),
    filled: 0,
  };
}

/**
 * Remembers the step and replaces it by the accelerated one.
 *
 * @param history - the iteration so far; set `filled` to 0 to begin anew
 * @param point - where the step starts
 * @param step - in: the plain step; out: the accelerated step
 * @param scale - lengths that make the components of a step comparable
 */
export function accelerate(
  history: StepHistory,
  point: Float64Array,
  step: Float64Array,
  scale: Float64Array,
): void {
  const { points, steps, dot, shares } = history;
  // The oldest buffers come to the front for reuse.
  const freePoint = points.pop() as Float64Array;
  const freeStep = steps.pop() as Float64Array;
  freePoint.set(point);
  freeStep.set(step);
  points.unshift(freePoint);
  steps.unshift(freeStep);
  history.filled = Math.min(history.filled + 1, DEPTH + 1);
  const order = Math.min(history.filled - 1, DEPTH);
  if (order === 0) return;
  const count = point.length;
  const width = DEPTH + 1;
  for (let a = 0; a < order; a++) {
    for (let b = 0; b <= order; b++) {
      let sum = 0;
      for (let j = 0; j < count; j++) {
        const weight = (scale[j] as number) * (scale[j] as number);
        const left = difference(steps, a, j);
        sum += weight * left * (b === order ? (step[j] as number) : difference(steps, b, j));
      }
      dot[a * width + b] = sum;
    }
  }
  if (!solve(dot, width, order, shares)) return;
  for (let a = 0; a < order; a++) {
    const share = shares[a] as number;
    for (let j = 0; j < count; j++) {
      step[j] = (step[j] as number) - share * (difference(points, a, j) + difference(steps, a, j));
    }
  }
}

function difference(list: readonly Float64Array[], a: number, j: number): number {
  return ((list[a] as Float64Array)[j] as number) - ((list[a + 1] as Float64Array)[j] as number);
}

/** Cholesky elimination of the normal equations; false where they are singular. */
function solve(dot: Float64Array, width: number, order: number, out: Float64Array): boolean {
  for (let k = 0; k < order; k++) {
    const pivot = dot[k * width + k] as number;
    if (!(pivot > 0)) return false;
    for (let i = k + 1; i < order; i++) {
      const factor = (dot[i * width + k] as number) / pivot;
      const before = dot[i * width + i] as number;
      for (let b = k + 1; b <= order; b++) {
        dot[i * width + b] =
          (dot[i * width + b] as number) - factor * (dot[k * width + b] as number);
      }
      if (!((dot[i * width + i] as number) > 1e-10 * before)) return false;
    }
    // The right-hand side stands in column `order`.
  }
  for (let k = order - 1; k >= 0; k--) {
    let sum = dot[k * width + order] as number;
    for (let j = k + 1; j < order; j++) {
      sum -= (dot[k * width + j] as number) * (out[j] as number);
    }
    out[k] = sum / (dot[k * width + k] as number);
  }
  return true;
}
