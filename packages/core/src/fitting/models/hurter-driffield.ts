/**
 * Hurter and Driffield's curve.
 *
 *   D = Dmin + G log10(O - (O - 1) exp(-H / (i (O - 1)))),  H = 10^x
 *
 * H the exposure, i the inertia, O the opacity of the undeveloped film to the light that exposes
 * it: D tends to Dmin + G log10 O. O - 1 and i are fitted as logarithms.
 *
 * Sources: [HD1890]; the 1890 formula with the development factor G. Deviations: the fog Dmin is
 * added, not subtracted from the readings beforehand.
 */
import type { CurveModel, InnerParameters } from '../model.ts';
import { curveSketch } from './curve-start.ts';
import { finiteRange } from './finite-range.ts';

const LN10 = Math.LN10;

const inner: InnerParameters = {
  toNatural(u, p, chain) {
    p[0] = u[0] as number;
    p[1] = u[1] as number;
    const beyond = Math.exp(u[2] as number);
    const inertia = Math.exp(u[3] as number);
    p[2] = 1 + beyond;
    p[3] = inertia;
    chain.fill(0);
    chain[0] = 1;
    chain[5] = 1;
    chain[10] = beyond;
    chain[15] = inertia;
  },
  fromNatural: (p) => [
    p[0] ?? 0,
    p[1] ?? 0,
    Math.log(Math.max((p[2] ?? 0) - 1, 1e-3)),
    Math.log(Math.max(p[3] ?? 0, 1e-300)),
  ],
  bounds(x) {
    const { first, last, range } = finiteRange(x);
    return {
      lower: [-Infinity, 0, Math.log(1e-2), (first - 2 * range) * LN10],
      upper: [Infinity, Infinity, 14 * LN10, (last + 2 * range) * LN10],
    };
  },
};

/** Four parameters: minimumDensity, slope G, opacity O (> 1), inertia i (unit of exposure). */
export const hurterDriffield: CurveModel = {
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
  start(x, y) {
    const sketch = curveSketch(x, y);
    const { minimumDensity, maximumDensity, slope, lastSlopeShare } = sketch;
    const rise = (maximumDensity - minimumDensity) * (1 + lastSlopeShare);
    const decades = Math.min(12, Math.max(0.3, rise / slope));
    return [minimumDensity, slope, 1 + 10 ** decades, 10 ** sketch.toeCentre];
  },
  inner,
  gradient(x, p) {
    const beyond = (p[2] as number) - 1;
    const q = 10 ** x / ((p[3] as number) * beyond);
    const inside = 1 - beyond * Math.expm1(-q);
    return ((p[1] as number) * beyond * q * Math.exp(-q)) / inside;
  },
  baseFog(p, out) {
    out.fill(0);
    out[0] = 1;
    return p[0] as number;
  },
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
