/**
 * Slopes at knots with which cubic pieces through them rise wherever the knots rise.
 *
 *   1 / m_k = a / s_k-1 + (1 - a) / s_k,  a = (h_k-1 + 2 h_k) / (3 (h_k-1 + h_k))
 *
 * the weighted harmonic mean of the secants either side, 0 where they differ in sign; at the ends
 * the secant itself.
 *
 * Sources: [FB1984] the harmonic mean, which lies in the region of [FC1980]. Deviations: the ends.
 */

/** A slope, and its derivatives by the value at the knot before, at its own and at the next. */
export interface MonotoneSlope {
  readonly slope: number;
  readonly by: readonly [before: number, here: number, after: number];
}

/**
 * The slope at every knot.
 *
 * @param knots - abscissae, ascending, at least two
 * @param values - as many
 */
export function monotoneSlopes(
  knots: readonly number[],
  values: readonly number[],
): readonly MonotoneSlope[] {
  const run = (k: number): number => (knots[k + 1] as number) - (knots[k] as number);
  const secant = (k: number): number =>
    ((values[k + 1] as number) - (values[k] as number)) / run(k);
  const last = knots.length - 1;
  return knots.map((_, k) => {
    if (k === 0) return { slope: secant(0), by: [0, -1 / run(0), 1 / run(0)] };
    const [h1, before] = [run(k - 1), secant(k - 1)];
    if (k === last) return { slope: before, by: [-1 / h1, 1 / h1, 0] };
    const [h2, after] = [run(k), secant(k)];
    if (!(before * after > 0)) return { slope: 0, by: [0, 0, 0] };
    const a = (h1 + 2 * h2) / (3 * (h1 + h2));
    const slope = 1 / (a / before + (1 - a) / after);
    const byBefore = (a * slope * slope) / (before * before * h1);
    const byAfter = ((1 - a) * slope * slope) / (after * after * h2);
    return { slope, by: [-byBefore, byBefore - byAfter, byAfter] };
  });
}
