/**
 * Share of the other law in a prediction, by how well each predicts strips that it has not seen.
 *
 *   w_i ∝ (mean square error of left-out strips)^(-n/2)      n strips
 *
 * which is the likelihood of n left-out strips whose errors are normal with a scale of their own.
 *
 * Sources: [GE1979] weights by left-out likelihoods. Deviations: the whole strip is one datum, since
 * its readings share its development.
 */

/**
 * Weight of the rival.
 *
 * @param own - mean square error of the law in use; Infinity where a strip cannot be spared
 * @param other - that of the rival
 * @param strips - how many were left out in turn
 * @returns 0 to 1
 */
export function rivalWeight(own: number, other: number, strips: number): number {
  const ratio = other / own;
  // Neither can be judged where no strip can be spared: the law in use stays alone.
  return ratio >= 0 ? 1 / (1 + ratio ** (strips / 2)) : 0;
}
