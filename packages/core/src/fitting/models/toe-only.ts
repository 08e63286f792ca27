/**
 * The fit of a characteristic curve whose readings do not reach the shoulder: the width is fitted as
 * its logarithm.
 *
 * Sources: see `toe-curve.ts`. Deviations: none.
 */
import type { CurveModel } from '../model.ts';
import { curveSketch } from './curve-start.ts';
import { finiteRange, NARROWEST } from './finite-range.ts';
import { lastAsLogarithm } from './last-as-logarithm.ts';
import { toeOnlyCurve } from './toe-curve.ts';

const inner = lastAsLogarithm(4, NARROWEST, (x) => {
  const { first, last, range, narrowest } = finiteRange(x);
  return {
    lower: [-Infinity, 0, first - 2 * range, Math.log(narrowest)],
    upper: [Infinity, Infinity, last + range, Math.log(range)],
  };
});

/** Toe and straight part, with the fit. */
export const toeOnly: CurveModel = {
  ...toeOnlyCurve,
  derivativesAtAll(x, p, values, rows) {
    for (let i = 0; i < x.length; i++) values[i] = toeOnlyCurve.row(x[i] as number, p, rows, 4 * i);
  },
  start(x, y) {
    const sketch = curveSketch(x, y);
    return [sketch.minimumDensity, sketch.slope, sketch.toeCentre, sketch.toeWidth];
  },
  inner,
};
