/**
 * y = a + b x. Sources: elementary. Deviations: none.
 */
import type { Model } from '../model.ts';

/** Two parameters: intercept, slope. */
export const straightLine: Model = {
  name: 'straight-line',
  parameterNames: ['intercept', 'slope'],
  value: (x, p) => (p[0] as number) + (p[1] as number) * x,
  derivatives(x, p, out) {
    out[0] = 1;
    out[1] = x;
    return (p[0] as number) + (p[1] as number) * x;
  },
  start(x, y) {
    const n = x.length;
    let meanX = 0;
    let meanY = 0;
    for (let i = 0; i < n; i++) {
      meanX += (x[i] ?? 0) / n;
      meanY += (y[i] ?? 0) / n;
    }
    let xx = 0;
    let xy = 0;
    for (let i = 0; i < n; i++) {
      const dx = (x[i] ?? 0) - meanX;
      xx += dx * dx;
      xy += dx * ((y[i] ?? 0) - meanY);
    }
    const slope = xx > 0 ? xy / xx : 0;
    return [meanY - slope * meanX, slope];
  },
};
