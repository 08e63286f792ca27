/**
 * A characteristic curve whose readings do not reach the shoulder.
 *
 *   D = Dmin + g w ln(1 + exp((x - xt) / w)),  dD/dx = g / (1 + exp(-(x - xt) / w))
 *
 * Sources: the toe of the toe-shoulder curve, see `toe-shoulder.ts`. Deviations: none.
 */
import type { CurveModel } from '../model.ts';
import { curveSketch } from './curve-start.ts';
import { finiteRange, NARROWEST } from './finite-range.ts';
import { lastAsLogarithm } from './last-as-logarithm.ts';
import { logOnePlus, softplus } from './softplus.ts';

const inner = lastAsLogarithm(4, NARROWEST, (x) => {
  const { first, last, range, narrowest } = finiteRange(x);
  return {
    lower: [-Infinity, 0, first - 2 * range, Math.log(narrowest)],
    upper: [Infinity, Infinity, last + range, Math.log(range)],
  };
});

/** Writes the derivatives at `x` to four places of `out` from `first` on, and returns the value. */
function rowAt(x: number, p: ArrayLike<number>, out: Float64Array, first: number): number {
  const minimum = p[0] as number;
  out[first] = 1;
  if (x === -Infinity) {
    out.fill(0, first + 1, first + 4);
    return minimum;
  }
  const slope = p[1] as number;
  const width = p[3] as number;
  const z = (x - (p[2] as number)) / width;
  const e = Math.exp(-Math.abs(z));
  const plus = (z > 0 ? z : 0) + logOnePlus(e);
  const s = (z > 0 ? 1 : e) / (1 + e);
  out[first + 1] = width * plus;
  out[first + 2] = -slope * s;
  out[first + 3] = slope * (plus - z * s);
  return minimum + slope * width * plus;
}

/**
 * Toe and straight part: minimumDensity, slope (density per log exposure), toeCentre (log
 * exposure), toeWidth (log exposure).
 */
export const toeOnly: CurveModel = {
  name: 'toe-only',
  parameterNames: ['minimumDensity', 'slope', 'toeCentre', 'toeWidth'],
  value(x, p) {
    const minimum = p[0] as number;
    const width = p[3] as number;
    return minimum + (p[1] as number) * width * softplus((x - (p[2] as number)) / width);
  },
  derivatives: (x, p, out) => rowAt(x, p, out, 0),
  derivativesAtAll(x, p, values, rows) {
    for (let i = 0; i < x.length; i++) values[i] = rowAt(x[i] as number, p, rows, 4 * i);
  },
  start(x, y) {
    const sketch = curveSketch(x, y);
    return [sketch.minimumDensity, sketch.slope, sketch.toeCentre, sketch.toeWidth];
  },
  inner,
  gradient(x, p) {
    return (p[1] as number) / (1 + Math.exp(-(x - (p[2] as number)) / (p[3] as number)));
  },
  baseFog(p, out) {
    out.fill(0);
    out[0] = 1;
    return p[0] as number;
  },
  upperAsymptote: () => null,
};
