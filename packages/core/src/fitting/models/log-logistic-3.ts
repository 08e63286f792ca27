/**
 * Log-logistic dose-response with a lower plateau of zero.
 *
 *   y = d / (1 + exp(b (ln x - ln e)))
 *
 * Sources: [RITZ2015]. Deviations: none.
 */
import type { Model } from '../model.ts';
import { doseStart } from './dose-start.ts';
import { logarithmOfDose } from './log-logistic-4.ts';

/** Three parameters: b (steepness), d (upper plateau), e (ED50, unit of x). */
export const logLogistic3: Model = {
  name: 'log-logistic-3',
  parameterNames: ['b', 'd', 'e'],
  leastX: 0,
  value(x, p) {
    return (p[1] as number) / (1 + Math.exp((p[0] as number) * Math.log(x / (p[2] as number))));
  },
  derivatives(x, p, out) {
    const [b, d, e] = [p[0] as number, p[1] as number, p[2] as number];
    const logarithm = Math.log(x / e);
    const z = b * logarithm;
    const small = Math.exp(-Math.abs(z));
    const share = (z > 0 ? small : 1) / (1 + small);
    const slope = small / ((1 + small) * (1 + small));
    out[0] = slope === 0 ? 0 : -d * slope * logarithm;
    out[1] = share;
    out[2] = (d * slope * b) / e;
    return d * share;
  },
  start(x, y) {
    const [b, , d, e] = doseStart(x, y, (share) => Math.log((1 - share) / share), 0);
    return [b, d, e];
  },
  inner: logarithmOfDose(3),
};
