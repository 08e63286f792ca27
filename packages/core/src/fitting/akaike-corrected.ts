/**
 * Akaike's information criterion for small samples.
 *
 *   AICc = n ln(RSS / n) + 2 K + 2 K (K + 1) / (n - K - 1),  K = k + 1
 *
 * Sources: [BA2002] section 2.4. Deviations: none.
 */

/**
 * AICc of a least-squares fit; only differences between models on the same data mean anything.
 *
 * @param residualSumOfSquares - weighted sum of squares, at least 0
 * @param observationCount - n
 * @param parameterCount - k, fitted parameters without the variance
 * @returns AICc; Infinity where n is too small for the correction, -Infinity for an exact fit
 * @source [BA2002] section 2.4
 */
export function akaikeCorrected(
  residualSumOfSquares: number,
  observationCount: number,
  parameterCount: number,
): number {
  const n = observationCount;
  const k = parameterCount + 1;
  if (n - k - 1 <= 0) return Infinity;
  return n * Math.log(residualSumOfSquares / n) + 2 * k + (2 * k * (k + 1)) / (n - k - 1);
}
