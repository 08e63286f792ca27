/**
 * Hurter and Driffield's curve.
 *
 *   D = Dmin + G log10(O - (O - 1) exp(-H / (i (O - 1)))),  H = 10^x
 *
 * H the exposure, i the inertia, O the opacity of the undeveloped film to the light that exposes
 * it: D tends to Dmin + G log10 O.
 *
 * Sources: [HD1890]; the 1890 formula with the development factor G. Deviations: the fog Dmin is
 * added, not subtracted from the readings beforehand.
 */
import type { CurveFunction } from '../model.ts';
import { parameterItself } from './parameter-itself.ts';

const LN10 = Math.LN10;

/** Four parameters: minimumDensity, slope G, opacity O (> 1), inertia i (unit of exposure). */
export const hurterDriffieldCurve: CurveFunction = {
  name: 'hurter-driffield',
  parameterNames: ['minimumDensity', 'slope', 'opacity', 'inertia'],
  value(x, p) {
    const beyond = (p[2] as number) - 1;
    const q = 10 ** x / ((p[3] as number) * beyond);
    return (p[0] as number) + ((p[1] as number) * Math.log1p(-beyond * Math.expm1(-q))) / LN10;
  },
  derivatives(x, p, out) {
    const slope = p[1] as number;
    const beyond = (p[2] as number) - 1;
    const inertia = p[3] as number;
    const exposure = 10 ** x;
    const q = exposure / (inertia * beyond);
    const grown = -Math.expm1(-q);
    const rest = Math.exp(-q);
    const inside = 1 + beyond * grown;
    const logarithm = Math.log1p(beyond * grown) / LN10;
    const factor = slope / (LN10 * inside);
    out[0] = 1;
    out[1] = logarithm;
    // d/dO of (O - 1)(1 - exp(-q)), with dq/dO = -q / (O - 1)
    out[2] = factor * (grown - q * rest);
    out[3] = (-factor * beyond * rest * q) / inertia;
    return (p[0] as number) + slope * logarithm;
  },
  gradient(x, p) {
    const beyond = (p[2] as number) - 1;
    const q = 10 ** x / ((p[3] as number) * beyond);
    const inside = 1 - beyond * Math.expm1(-q);
    return ((p[1] as number) * beyond * q * Math.exp(-q)) / inside;
  },
  baseFog: parameterItself(0),
  upperAsymptote(p, out) {
    const slope = p[1] as number;
    const opacity = p[2] as number;
    const decades = Math.log10(opacity);
    out[0] = 1;
    out[1] = decades;
    out[2] = slope / (opacity * LN10);
    out[3] = 0;
    return (p[0] as number) + slope * decades;
  },
};
