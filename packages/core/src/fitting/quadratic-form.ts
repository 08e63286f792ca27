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
    const row = j * count;
    // A covariance is symmetric: what stands right of the diagonal counts twice.
    let right = 0;
    for (let k = j + 1; k < count; k++) right += (covariance[row + k] as number) * (g[k] as number);
    sum += left * (left * (covariance[row + j] as number) + 2 * right);
  }
  return Math.max(0, sum);
}
