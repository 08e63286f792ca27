/**
 * Growth towards a limit at a constant relative rate.
 *
 *   y = b1 (1 - exp(-b2 x))
 *
 * Sources: [NIST-STRD] Misra1a and BoxBOD. Deviations: none.
 */
import type { Model } from '../model.ts';
import { profileStart } from './profile-start.ts';

/** Two parameters: b1 (limit), b2 (rate, per unit of x). */
export const exponentialRise: Model = {
  name: 'exponential-rise',
  parameterNames: ['b1', 'b2'],
  value: (x, p) => -(p[0] as number) * Math.expm1(-(p[1] as number) * x),
  derivatives(x, p, out) {
    const rest = Math.exp(-(p[1] as number) * x);
    const grown = -Math.expm1(-(p[1] as number) * x);
    out[0] = grown;
    out[1] = (p[0] as number) * x * rest;
    return (p[0] as number) * grown;
  },
  /** The limit is linear, so that only the rate is searched: over six decades about 1 / max x. */
  start(x, y) {
    const reach = Math.max(...x.map(Math.abs), Number.MIN_VALUE);
    return profileStart(x, y, 37, (k, at) => {
      const rate = 10 ** (k / 6 - 3) / reach;
      return { others: [rate], share: -Math.expm1(-rate * at) };
    });
  },
};
