/**
 * The symmetric logistic curve.
 *
 *   D = Dmin + (Dmax - Dmin) / (1 + exp(-(x - xc) / w))
 *
 * Sources: [RICHARDS1959] with m = 2. Deviations: none.
 */
import type { CurveModel } from '../model.ts';
import { finiteRange, NARROWEST } from './finite-range.ts';
import { lastAsLogarithm } from './last-as-logarithm.ts';
import { logistic5 } from './logistic-5.ts';
import { sigmoid } from './softplus.ts';

const inner = lastAsLogarithm(4, NARROWEST, (x) => {
  const { first, last, range, narrowest } = finiteRange(x);
  return {
    lower: [-Infinity, -Infinity, first - 4 * range, Math.log(narrowest)],
    upper: [Infinity, Infinity, last + 4 * range, Math.log(2 * range)],
  };
});

/** Four parameters: minimumDensity, maximumDensity, centre and width (log exposure). */
export const logistic4: CurveModel = {
  name: 'logistic-4',
  parameterNames: ['minimumDensity', 'maximumDensity', 'centre', 'width'],
  value(x, p) {
    const share = sigmoid((x - (p[2] as number)) / (p[3] as number));
    return (p[0] as number) + ((p[1] as number) - (p[0] as number)) * share;
  },
  derivatives(x, p, out) {
    const minimum = p[0] as number;
    if (x === -Infinity) {
      out.fill(0);
      out[0] = 1;
      return minimum;
    }
    const rise = (p[1] as number) - minimum;
    const width = p[3] as number;
    const z = (x - (p[2] as number)) / width;
    const e = Math.exp(z > 0 ? -z : z);
    const share = (z > 0 ? 1 : e) / (1 + e);
    const slope = e / ((1 + e) * (1 + e));
    out[0] = 1 - share;
    out[1] = share;
    out[2] = (-rise * slope) / width;
    out[3] = (-rise * slope * z) / width;
    return minimum + rise * share;
  },
  start: (x, y) => logistic5.start(x, y).slice(0, 4),
  inner,
  gradient(x, p) {
    const width = p[3] as number;
    const e = Math.exp(-Math.abs((x - (p[2] as number)) / width));
    return (((p[1] as number) - (p[0] as number)) * e) / ((1 + e) * (1 + e)) / width;
  },
  baseFog(p, out) {
    out.fill(0);
    out[0] = 1;
    return p[0] as number;
  },
  upperAsymptote(p, out) {
    out.fill(0);
    out[1] = 1;
    return p[1] as number;
  },
};
