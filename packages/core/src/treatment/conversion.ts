/**
 * Integrated forms of the usual rate laws: k t at a conversion x.
 *
 *   first order   -ln(1 - x)
 *   parabolic     x²
 *   Jander        (1 - (1 - x)^(1/3))²
 *
 * They compare how the last tenth of a conversion costs time: the first-order bath needs twice the
 * time from 90 % to 99 %, the diffusion-limited one hardly a fifth more.
 *
 * Sources: [JANDER1927] for the third; the others are elementary. Deviations: none.
 */
import { OutOfDomainError } from '../errors.ts';

export type RateLaw = 'first-order' | 'parabolic' | 'jander';

/**
 * Rate constant times time at a conversion.
 *
 * @param law - rate law
 * @param conversion - x, in [0, 1)
 * @returns k t, dimensionless
 * @throws OutOfDomainError if `conversion` is not in [0, 1)
 * @source [JANDER1927] for `jander`
 * @example
 * rateTimesTime('parabolic', 0.5); // => 0.25
 */
export function rateTimesTime(law: RateLaw, conversion: number): number {
  if (!(conversion >= 0 && conversion < 1)) {
    throw new OutOfDomainError('rateTimesTime', 'conversion', conversion, [0, 1]);
  }
  switch (law) {
    case 'first-order':
      return -Math.log1p(-conversion) || 0;
    case 'parabolic':
      return conversion * conversion;
    case 'jander':
      return (1 - Math.cbrt(1 - conversion)) ** 2;
  }
}
