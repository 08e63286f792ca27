/**
 * The variance that a covariance of parameters gives a number derived from them: the delta method.
 *
 *   var m = g' C g,  g_j = d m / d p_j
 *
 * Sources: [Seber2003] section 5.1. Deviations: none.
 */

/**
 * g' C g of a row-major covariance, at least 0.
 *
 * @param g - derivatives of a number by the parameters
 * @param covariance - of the parameters
 */
export function quadraticForm(g: ArrayLike<number>, covariance: readonly number[]): number {
  const count = g.length;
  let sum = 0;
  for (let j = 0; j < count; j++) {
    const left = g[j] as number;
    if (left === 0) continue;
    let inner = 0;
    for (let k = 0; k < count; k++)
      inner += (covariance[j * count + k] as number) * (g[k] as number);
    sum += left * inner;
  }
  return Math.max(0, sum);
}
