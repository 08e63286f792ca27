/**
 * Saturation of a response.
 *
 *   y = maximum x / (half + x)
 *
 * Sources: [BW1988] section 2.1 (the form). Deviations: none.
 */
import type { Model } from '../model.ts';
import { profileStart } from './profile-start.ts';

/** Two parameters: maximum, half (the x at which half the maximum is reached). */
export const michaelisMenten: Model = {
  name: 'michaelis-menten',
  parameterNames: ['maximum', 'half'],
  value: (x, p) => ((p[0] as number) * x) / ((p[1] as number) + x),
  derivatives(x, p, out) {
    const share = x / ((p[1] as number) + x);
    out[0] = share;
    out[1] = (-(p[0] as number) * share) / ((p[1] as number) + x);
    return (p[0] as number) * share;
  },
  start(x, y) {
    const reach = Math.max(...x, Number.MIN_VALUE);
    return profileStart(x, y, 37, (k, at) => {
      const half = 10 ** (k / 6 - 3) * reach;
      return { others: [half], share: at / (half + at) };
    });
  },
};
