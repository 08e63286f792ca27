/**
 * Weibull dose-response, first type. b = 1 is the first-order law.
 *
 *   y = c + (d - c) exp(-exp(b (ln x - ln e)))
 *
 * Sources: [RITZ2015]. Deviations: none.
 */
import type { Model } from '../model.ts';
import { doseStart } from './dose-start.ts';
import { logarithmOfDose } from './log-logistic-4.ts';

/** Four parameters: b (steepness), c and d (plateaus), e (unit of x, at 1/e of the rise). */
export const weibull4: Model = {
  name: 'weibull-4',
  parameterNames: ['b', 'c', 'd', 'e'],
  leastX: 0,
  value(x, p) {
    const [b, c, d, e] = [p[0] as number, p[1] as number, p[2] as number, p[3] as number];
    return c + (d - c) * Math.exp(-Math.exp(b * Math.log(x / e)));
  },
  derivatives(x, p, out) {
    const [b, c, d, e] = [p[0] as number, p[1] as number, p[2] as number, p[3] as number];
    const logarithm = Math.log(x / e);
    const inside = Math.exp(b * logarithm);
    const share = Math.exp(-inside);
    const slope = share === 0 ? 0 : share * inside;
    out[0] = slope === 0 ? 0 : -(d - c) * slope * logarithm;
    out[1] = 1 - share;
    out[2] = share;
    out[3] = ((d - c) * slope * b) / e;
    return c + (d - c) * share;
  },
  start: (x, y) => doseStart(x, y, (share) => Math.log(-Math.log(share)), null),
  /** Turned about: the curve is not symmetric, so that rising from d to c is another shape. */
  otherStarts(x, y) {
    const turned = doseStart(
      x,
      y.map((value) => -value),
      (share) => Math.log(-Math.log(share)),
      null,
    );
    const [b, c, d, e] = turned;
    return [[b, -c, -d, e]];
  },
  inner: logarithmOfDose(4),
};
