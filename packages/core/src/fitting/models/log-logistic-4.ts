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
import { lastAsLogarithm } from './last-as-logarithm.ts';

/** The logarithm of e, the last of `count` parameters, within what a number can hold. */
export function logarithmOfDose(count: number): InnerParameters {
  const others = new Array<number>(count - 1).fill(Infinity);
  return lastAsLogarithm(count, 1e-300, () => ({
    lower: [...others.map((value) => -value), -690],
    upper: [...others, 690],
  }));
}

/** Four parameters: b (steepness), c (lower plateau), d (upper plateau), e (ED50, unit of x). */
export const logLogistic4: Model = {
  name: 'log-logistic-4',
  parameterNames: ['b', 'c', 'd', 'e'],
  leastX: 0,
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
  inner: logarithmOfDose(4),
};
