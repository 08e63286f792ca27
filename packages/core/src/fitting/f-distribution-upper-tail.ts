/**
 * Upper tail of the F distribution: P(F > f) = I_{v2 / (v2 + v1 f)}(v2 / 2, v1 / 2).
 *
 * Sources: [AS1964] 26.6.2. Deviations: none.
 */
import { OutOfDomainError } from '../errors.ts';
import { incompleteBeta } from './incomplete-beta.ts';

/**
 * Probability of a variance ratio above `f` when there is no effect.
 *
 * @param f - ratio of variances, at least 0; Infinity gives 0
 * @param numerator - degrees of freedom of the numerator, above 0
 * @param denominator - degrees of freedom of the denominator, above 0
 * @throws {OutOfDomainError} if f is negative or a degree of freedom not positive
 */
export function fDistributionUpperTail(f: number, numerator: number, denominator: number): number {
  const name = 'fDistributionUpperTail';
  if (!(f >= 0)) throw new OutOfDomainError(name, 'f', f, [0, Infinity]);
  for (const v of [numerator, denominator]) {
    if (!(v > 0)) throw new OutOfDomainError(name, 'degrees of freedom', v, [0, Infinity]);
  }
  if (f === Infinity) return 0;
  return incompleteBeta(
    denominator / (denominator + numerator * f),
    denominator / 2,
    numerator / 2,
  );
}
