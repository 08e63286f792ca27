/**
 * The span of the exposures of a strip, leaving out the unexposed film.
 */

/** Least and greatest finite number of a list, and their distance, at least 0.1. */
export interface FiniteRange {
  readonly first: number;
  readonly last: number;
  readonly range: number;
}

/** Range of the finite numbers in `x`; [0, 0] where there is none. */
export function finiteRange(x: readonly number[]): FiniteRange {
  let first = Infinity;
  let last = -Infinity;
  for (const at of x) {
    if (!Number.isFinite(at)) continue;
    if (at < first) first = at;
    if (at > last) last = at;
  }
  if (first > last) return { first: 0, last: 0, range: 0.1 };
  return { first, last, range: Math.max(last - first, 0.1) };
}
