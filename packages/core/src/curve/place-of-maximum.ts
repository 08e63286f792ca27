/**
 * Where a function of log exposure is greatest: a grid finds the right hill, golden section its top.
 *
 * Sources: [PTVF2007] section 10.2, golden section search. Deviations: none.
 */

const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** Gains below this are rounding: on a level top the first grid point is kept. */
const ROUNDING = 1e-12;

export interface MaximumOptions {
  /** Cells of the grid. */
  readonly grid: number;
  /** Width to which the top is narrowed down, log exposure. */
  readonly tolerance: number;
}

/**
 * Place of the greatest value between two limits.
 *
 * @param f - the function
 * @param low - lower limit
 * @param high - upper limit, above `low`
 * @returns log exposure of the top
 */
export function placeOfMaximum(
  f: (x: number) => number,
  low: number,
  high: number,
  { grid, tolerance }: MaximumOptions,
): number {
  const step = (high - low) / grid;
  let best = low;
  let top = f(low);
  for (let i = 1; i <= grid; i++) {
    const x = low + i * step;
    const here = f(x);
    if (here > top + ROUNDING) {
      best = x;
      top = here;
    }
  }
  let a = Math.max(low, best - step);
  let b = Math.min(high, best + step);
  while (b - a > tolerance) {
    const left = b - GOLDEN * (b - a);
    const right = a + GOLDEN * (b - a);
    if (f(left) < f(right)) a = left;
    else b = right;
  }
  const refined = 0.5 * (a + b);
  return f(refined) > top ? refined : best;
}
