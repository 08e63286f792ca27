/**
 * The standard error of a number that includes the choice between models.
 *
 *   var m = Σ_i w_i (g_i' C_i g_i + (m_i - m)²) / Σ_i w_i
 *
 * Sources: [BA2002] section 4.3.2, unconditional variance. Deviations: departures are taken from the
 * number of the model in use, so that the number quoted is the number drawn.
 */
import { quadraticForm } from './quadratic-form.ts';

/** A number derived from one model. */
export interface DerivedOfModel {
  readonly value: number;
  /** Derivatives by the parameters of the model. */
  readonly derivatives: ArrayLike<number>;
  /** Of those parameters, row-major; null where the model has no errors. */
  readonly covariance: readonly number[] | null;
  /** Weight of the model, above 0. */
  readonly weight: number;
}

/**
 * Standard error among the model in use and its rivals.
 *
 * @param own - the number by the model in use
 * @param rivals - by the others; null, or a value that is not finite, where one does not define it.
 *   A rival without a covariance is taken to err as the model in use
 * @returns the error; null where the model in use has no covariance, or the error overflows
 * @source [BA2002] section 4.3.2
 */
export function unconditionalError(
  own: DerivedOfModel,
  rivals: readonly (DerivedOfModel | null)[],
): number | null {
  if (own.covariance === null) return null;
  const ownVariance = quadraticForm(own.derivatives, own.covariance);
  let variance = own.weight * ownVariance;
  let weight = own.weight;
  for (const rival of rivals) {
    if (rival === null || !Number.isFinite(rival.value)) continue;
    const within =
      rival.covariance === null ? ownVariance : quadraticForm(rival.derivatives, rival.covariance);
    variance += rival.weight * (within + (rival.value - own.value) ** 2);
    weight += rival.weight;
  }
  const error = Math.sqrt(variance / weight);
  // Beyond the range of doubles there is no error to state: null, never NaN or Infinity.
  return Number.isFinite(error) ? error : null;
}
