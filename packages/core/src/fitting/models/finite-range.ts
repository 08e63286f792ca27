/**
 * The span of the exposures of a strip, leaving out the unexposed film.
 */

/** Least and greatest finite number of a list, and their distance, at least 0.1. */
export interface FiniteRange {
  readonly first: number;
  readonly last: number;
  readonly range: number;
  /**
   * A width that no reading tells from a hard corner, a hundredth of a step: a narrower bend could
   * move between two steps without an end.
   */
  readonly narrowest: number;
}

/** Narrowest width of any tablet, log exposure. */
export const NARROWEST = 1e-3;

/** Range of the finite numbers in `x`; [0, 0] where there is none. */
export function finiteRange(x: readonly number[]): FiniteRange {
  let first = Infinity;
  let last = -Infinity;
  let steps = 0;
  let previous = NaN;
  for (const at of x) {
    if (!Number.isFinite(at)) continue;
    if (at !== previous) steps++;
    previous = at;
    if (at < first) first = at;
    if (at > last) last = at;
  }
  const range = first > last ? 0.1 : Math.max(last - first, 0.1);
  const narrowest = Math.max(NARROWEST, (0.01 * range) / Math.max(10, steps));
  return first > last
    ? { first: 0, last: 0, range: 0.1, narrowest }
    : { first, last, range, narrowest };
}
