/**
 * Gains of treated strips with a covariance that includes the choice of the law.
 *
 *   C_ij = Σ_l w_l (C_l,ij + (k_l,i - k_i) (k_l,j - k_j)) / Σ_l w_l
 *
 * k_l are the gains by law l at the common reference density, w_l its Akaike weight, k those of the
 * law in use. Its diagonal is the unconditional variance of `unconditional-error.ts`; beside it, it
 * tells that another law would move all gains together.
 *
 * Sources: [BA2002] section 4.3.2. Deviations: departures are taken from the law in use, so that the
 * gain quoted is the gain drawn; every law's own covariance rests on one error of a reading.
 */

/** Gains by one law. */
export interface GainsOfLaw {
  /** k of each strip at the reference density. */
  readonly gains: readonly number[];
  /** Their row-major covariance. */
  readonly covariance: readonly number[];
  /** Weight among the laws, from 0; above 0 of a rival. */
  readonly weight: number;
}

/**
 * Covariance of the gains among the law in use and its rivals.
 *
 * @param own - the law in use
 * @param rivals - the others, of the same strips in the same order
 * @returns row-major covariance, as large as `own.covariance`
 */
export function covarianceAmongLaws(own: GainsOfLaw, rivals: readonly GainsOfLaw[]): number[] {
  // A law kept because the readings are few may have a weight too small to be told from 0.
  if (rivals.length === 0) return [...own.covariance];
  const size = own.gains.length;
  const all = [own, ...rivals];
  const weight = all.reduce((sum, law) => sum + law.weight, 0);
  return own.covariance.map((_, at) => {
    const [i, j] = [Math.floor(at / size), at % size];
    const sum = all.reduce((total, law) => {
      const departure = (strip: number): number =>
        (law.gains[strip] ?? 1) - (own.gains[strip] ?? 1);
      return total + law.weight * ((law.covariance[at] ?? 0) + departure(i) * departure(j));
    }, 0);
    return sum / weight;
  });
}
