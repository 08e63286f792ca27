/**
 * The median of a list. Sources: [HUBER1964] for its use as a scale. Deviations: none.
 */

/**
 * Median of the finite numbers given; the mean of the middle two for an even count.
 *
 * @throws nothing; the median of an empty list is 0
 * @example
 * median([3, 1, 2]); // => 2
 */
export function median(values: ArrayLike<number>): number {
  const sorted = Float64Array.from(values).sort();
  const half = sorted.length >> 1;
  if (sorted.length === 0) return 0;
  const upper = sorted[half] as number;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] as number) + upper) / 2;
}
