/**
 * Log-logistic dose-response with four parameters (Hill's curve has h = -b).
 *
 *   y = c + (d - c) / (1 + exp(b (ln x - ln e)))
 *
 * b > 0 falls from d to c; b < 0 rises from c to d. ED_p = e (p / (100 - p))^(1/b). e is fitted as
 * its logarithm.
 *
 * Sources: [RITZ2015]. Deviations: none.
 */
import type { InnerParameters, Model } from '../model.ts';
import { doseStart } from './dose-start.ts';

/** Keeps the last of `count` parameters positive by its logarithm. */
export function logarithmOfLast(count: number): InnerParameters {
  const last = count - 1;
  return {
    toNatural(u, p, chain) {
      chain.fill(0);
      for (let j = 0; j < last; j++) {
        p[j] = u[j] as number;
        chain[j * count + j] = 1;
      }
      const value = Math.exp(u[last] as number);
      p[last] = value;
      chain[last * count + last] = value;
    },
    fromNatural: (p) =>
      p.map((value, j) => (j === last ? Math.log(Math.max(value, 1e-300)) : value)),
    bounds: () => ({
      lower: Array.from({ length: count }, (_, j) => (j === last ? -690 : -Infinity)),
      upper: Array.from({ length: count }, (_, j) => (j === last ? 690 : Infinity)),
    }),
  };
}

/** Four parameters: b (steepness), c (lower plateau), d (upper plateau), e (ED50, unit of x). */
export const logLogistic4: Model = {
  name: 'log-logistic-4',
  parameterNames: ['b', 'c', 'd', 'e'],
  value(x, p) {
    const [b, c, d, e] = [p[0] as number, p[1] as number, p[2] as number, p[3] as number];
    return c + (d - c) / (1 + Math.exp(b * Math.log(x / e)));
  },
  derivatives(x, p, out) {
    const [b, c, d, e] = [p[0] as number, p[1] as number, p[2] as number, p[3] as number];
    const logarithm = Math.log(x / e);
    const z = b * logarithm;
    const small = Math.exp(-Math.abs(z));
    const share = (z > 0 ? small : 1) / (1 + small);
    const slope = small / ((1 + small) * (1 + small));
    out[0] = slope === 0 ? 0 : -(d - c) * slope * logarithm;
    out[1] = 1 - share;
    out[2] = share;
    out[3] = ((d - c) * slope * b) / e;
    return c + (d - c) * share;
  },
  start: (x, y) => doseStart(x, y, (share) => Math.log((1 - share) / share), null),
  inner: logarithmOfLast(4),
};
