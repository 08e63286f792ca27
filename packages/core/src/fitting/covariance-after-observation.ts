/**
 * What one more observation would leave of a covariance, before it is made.
 *
 *   C' = C - C g g' C / (s² + g' C g)
 *
 * Sources: the matrix inversion lemma on C'^-1 = C^-1 + g g' / s² (derived). Deviations: none.
 */

/**
 * Covariance after one observation.
 *
 * @param covariance - of the parameters, row-major P x P
 * @param g - derivatives of the observed number by the parameters, length P
 * @param error - standard deviation of the observation
 * @returns row-major P x P; unchanged where an exact observation bears on no parameter
 */
export function covarianceAfterObservation(
  covariance: readonly number[],
  g: readonly number[],
  error: number,
): number[] {
  const size = g.length;
  const cg = g.map((_, i) =>
    g.reduce((sum, value, j) => sum + value * (covariance[i * size + j] ?? 0), 0),
  );
  const total = error * error + g.reduce((sum, value, i) => sum + value * (cg[i] ?? 0), 0);
  if (!(total > 0)) return [...covariance];
  return covariance.map(
    (value, at) => value - ((cg[Math.floor(at / size)] ?? 0) * (cg[at % size] ?? 0)) / total,
  );
}
