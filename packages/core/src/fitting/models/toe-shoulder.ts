/**
 * The fit of the default characteristic curve, a straight part between a toe and a shoulder.
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
 * Sources: see `toe-curve.ts`. Deviations: the bounds above.
 */
import type { CurveModel, InnerParameters } from '../model.ts';
import { curveSketch } from './curve-start.ts';
import { finiteRange, NARROWEST } from './finite-range.ts';
import { toeShoulderCurve } from './toe-curve.ts';

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

/** Toe, straight part and shoulder, with the fit. */
export const toeShoulder: CurveModel = {
  ...toeShoulderCurve,
  derivativesAtAll(x, p, values, rows) {
    for (let i = 0; i < x.length; i++) {
      values[i] = toeShoulderCurve.row(x[i] as number, p, rows, 6 * i);
    }
  },
  start(x, y) {
    const sketch = curveSketch(x, y);
    const { minimumDensity, slope, toeCentre, toeWidth, shoulderWidth } = sketch;
    const apart = 0.1 * (sketch.last - sketch.first);
    const shoulder = Math.max(sketch.shoulderCentre, toeCentre + apart);
    return [minimumDensity, slope, toeCentre, toeWidth, shoulder, shoulderWidth];
  },
  inner,
};
