/**
 * The logistic curves: symmetric, and generalised by an exponent.
 *
 *   D = Dmin + (Dmax - Dmin) / (1 + exp(-(x - xc) / w))^a
 *
 * a = 1 is the symmetric curve; a > 1 sharpens the toe against the shoulder.
 *
 * Sources: [RICHARDS1959], m = 2 for the symmetric curve. Deviations: exponent a in place of
 * Richards' 1 / m.
 */
import type { CurveByRows } from '../model.ts';
import { parameterItself } from './parameter-itself.ts';
import { logOnePlus, softplus } from './softplus.ts';

function logisticCurve(name: string, parameterNames: readonly string[]): CurveByRows {
  const generalised = parameterNames.length > 4;
  const asymmetryOf = (p: ArrayLike<number>): number => (generalised ? (p[4] as number) : 1);
  const row: CurveByRows['row'] = (x, p, out, first) => {
    const minimum = p[0] as number;
    if (x === -Infinity) {
      out.fill(0, first, first + parameterNames.length);
      out[first] = 1;
      return minimum;
    }
    const rise = (p[1] as number) - minimum;
    const width = p[3] as number;
    const a = asymmetryOf(p);
    const z = (x - (p[2] as number)) / width;
    const e = Math.exp(-Math.abs(z));
    const plus = (z < 0 ? -z : 0) + logOnePlus(e);
    const share = Math.exp(-a * plus);
    // d share / dz = a share s(-z)
    const slope = (a * share * (z > 0 ? e : 1)) / (1 + e);
    out[first] = 1 - share;
    out[first + 1] = share;
    out[first + 2] = (-rise * slope) / width;
    out[first + 3] = (-rise * slope * z) / width;
    if (generalised) out[first + 4] = -rise * share * plus;
    return minimum + rise * share;
  };
  return {
    name,
    parameterNames,
    row,
    value(x, p) {
      const z = (x - (p[2] as number)) / (p[3] as number);
      const rise = (p[1] as number) - (p[0] as number);
      return (p[0] as number) + rise * Math.exp(-asymmetryOf(p) * softplus(-z));
    },
    derivatives: (x, p, out) => row(x, p, out, 0),
    gradient(x, p) {
      const width = p[3] as number;
      const a = asymmetryOf(p);
      const z = (x - (p[2] as number)) / width;
      const rise = (p[1] as number) - (p[0] as number);
      return (rise * a * Math.exp(-a * softplus(-z))) / (1 + Math.exp(z)) / width;
    },
    baseFog: parameterItself(0),
    upperAsymptote: parameterItself(1),
  };
}

const SYMMETRIC = ['minimumDensity', 'maximumDensity', 'centre', 'width'];

/** Four parameters: minimumDensity, maximumDensity, centre and width (log exposure). */
export const logistic4Curve = /* @__PURE__ */ logisticCurve('logistic-4', SYMMETRIC);

/**
 * Five parameters: minimumDensity, maximumDensity, centre (log exposure), width (log exposure),
 * asymmetry.
 */
export const logistic5Curve = /* @__PURE__ */ logisticCurve('logistic-5', [
  ...SYMMETRIC,
  'asymmetry',
]);
