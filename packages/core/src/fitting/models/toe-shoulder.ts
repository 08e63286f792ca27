/**
 * The default characteristic curve: a straight part between a toe and a shoulder.
 *
 *   D = Dmin + g wt ln(1 + exp((x - xt) / wt)) - g ws ln(1 + exp((x - xs) / ws))
 *   dD/dx = g [s((x - xt) / wt) - s((x - xs) / ws)],  s(z) = 1 / (1 + exp(-z))
 *
 * Left free, the form degenerates where the readings show no straight part: g grows without end
 * while xt and xs meet, and the limit is a logistic curve of height g (xs - xt). And where
 * ws and wt differ much and the centres are near, the gradient turns negative beyond the wider
 * bend, by g |ws - wt| ln(1 + exp(-(xs - xt) / |ws - wt|)). Both are kept out by fitting, in place
 * of xs, the distance d by which the centres exceed the least separation
 *
 *   xs = xt + sqrt(wt ws + 16 (ws - wt)^2) + d,  0 <= d
 *
 * which is one width for equal widths (no reading can tell that curve from a logistic) and at
 * least 4 |ws - wt| otherwise (the dip is below 0.018 g |ws - wt|). Widths are fitted as
 * logarithms.
 *
 * Sources: difference of two softplus functions, derived here. Deviations: the bounds above.
 */
import type { CurveModel, InnerParameters } from '../model.ts';
import { curveSketch } from './curve-start.ts';
import { finiteRange, NARROWEST } from './finite-range.ts';
import { logOnePlus, softplus } from './softplus.ts';

/** Squared multiple of the widths' difference that the centres keep apart. */
const APART = 16; // 4^2

/**
 * Least width of a shoulder in that of a toe: a twentieth of a step. A narrower one that lies between
 * the last two steps leaves its width without a trace in any reading.
 */
export const NARROWEST_SHOULDER = 5;

function leastSeparation(wt: number, ws: number): number {
  return Math.sqrt(4 * wt * ws + APART * (ws - wt) ** 2);
}

const inner: InnerParameters = {
  toNatural(u, p, chain) {
    const wt = Math.exp(u[3] as number);
    const ws = Math.exp(u[5] as number);
    const separation = leastSeparation(wt, ws);
    p[0] = u[0] as number;
    p[1] = u[1] as number;
    p[2] = u[2] as number;
    p[3] = wt;
    p[4] = (u[2] as number) + separation + (u[4] as number);
    p[5] = ws;
    chain.fill(0);
    chain[0] = 1;
    chain[7] = 1;
    chain[14] = 1;
    chain[21] = wt;
    chain[26] = 1;
    chain[27] = (wt * (4 * ws - 2 * APART * (ws - wt))) / (2 * separation);
    chain[28] = 1;
    chain[29] = (ws * (4 * wt + 2 * APART * (ws - wt))) / (2 * separation);
    chain[35] = ws;
  },
  fromNatural(p) {
    const wt = Math.max(p[3] ?? 0, NARROWEST);
    const ws = Math.max(p[5] ?? 0, NARROWEST);
    const distance = (p[4] ?? 0) - (p[2] ?? 0) - leastSeparation(wt, ws);
    return [p[0] ?? 0, p[1] ?? 0, p[2] ?? 0, Math.log(wt), distance, Math.log(ws)];
  },
  bounds(x) {
    const { first, last, range, narrowest: least } = finiteRange(x);
    const widest = Math.log(range);
    return {
      lower: [
        -Infinity,
        0,
        first - 2 * range,
        Math.log(least),
        0,
        Math.log(NARROWEST_SHOULDER * least),
      ],
      upper: [Infinity, Infinity, last + range, widest, 2 * range, widest],
    };
  },
};

/** Writes the derivatives at `x` to six places of `out` from `first` on, and returns the value. */
function rowAt(x: number, p: ArrayLike<number>, out: Float64Array, first: number): number {
  const minimum = p[0] as number;
  out[first] = 1;
  if (x === -Infinity) {
    out.fill(0, first + 1, first + 6);
    return minimum;
  }
  const slope = p[1] as number;
  const wt = p[3] as number;
  const ws = p[5] as number;
  const zt = (x - (p[2] as number)) / wt;
  const et = Math.exp(-Math.abs(zt));
  const toe = (zt > 0 ? zt : 0) + logOnePlus(et);
  const st = (zt > 0 ? 1 : et) / (1 + et);
  const zs = (x - (p[4] as number)) / ws;
  const es = Math.exp(-Math.abs(zs));
  const shoulder = (zs > 0 ? zs : 0) + logOnePlus(es);
  const ss = (zs > 0 ? 1 : es) / (1 + es);
  const difference = wt * toe - ws * shoulder;
  out[first + 1] = difference;
  out[first + 2] = -slope * st;
  out[first + 3] = slope * (toe - zt * st);
  out[first + 4] = slope * ss;
  out[first + 5] = -slope * (shoulder - zs * ss);
  return minimum + slope * difference;
}

/**
 * Toe, straight part and shoulder: minimumDensity, slope (density per log exposure), toeCentre,
 * toeWidth, shoulderCentre, shoulderWidth (log exposure).
 */
export const toeShoulder: CurveModel = {
  name: 'toe-shoulder',
  parameterNames: [
    'minimumDensity',
    'slope',
    'toeCentre',
    'toeWidth',
    'shoulderCentre',
    'shoulderWidth',
  ],
  value(x, p) {
    const wt = p[3] as number;
    const ws = p[5] as number;
    const toe = wt * softplus((x - (p[2] as number)) / wt);
    const shoulder = ws * softplus((x - (p[4] as number)) / ws);
    return (p[0] as number) + (p[1] as number) * (toe - shoulder);
  },
  derivatives: (x, p, out) => rowAt(x, p, out, 0),
  derivativesAtAll(x, p, values, rows) {
    for (let i = 0; i < x.length; i++) values[i] = rowAt(x[i] as number, p, rows, 6 * i);
  },
  start(x, y) {
    const sketch = curveSketch(x, y);
    const { minimumDensity, slope, toeCentre, toeWidth, shoulderWidth } = sketch;
    const apart = 0.1 * (sketch.last - sketch.first);
    const shoulder = Math.max(sketch.shoulderCentre, toeCentre + apart);
    return [minimumDensity, slope, toeCentre, toeWidth, shoulder, shoulderWidth];
  },
  inner,
  gradient(x, p) {
    const toe = 1 / (1 + Math.exp(-(x - (p[2] as number)) / (p[3] as number)));
    const shoulder = 1 / (1 + Math.exp(-(x - (p[4] as number)) / (p[5] as number)));
    return (p[1] as number) * (toe - shoulder);
  },
  baseFog(p, out) {
    out.fill(0);
    out[0] = 1;
    return p[0] as number;
  },
  upperAsymptote(p, out) {
    const slope = p[1] as number;
    const rise = (p[4] as number) - (p[2] as number);
    out[0] = 1;
    out[1] = rise;
    out[2] = -slope;
    out[3] = 0;
    out[4] = slope;
    out[5] = 0;
    return (p[0] as number) + slope * rise;
  },
};
