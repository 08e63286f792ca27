/**
 * The fit of Hurter and Driffield's curve: O - 1 and i are fitted as logarithms.
 *
 * Sources: see `hurter-driffield-curve.ts`. Deviations: none.
 */
import type { CurveModel, InnerParameters } from '../model.ts';
import { curveSketch } from './curve-start.ts';
import { finiteRange } from './finite-range.ts';
import { hurterDriffieldCurve } from './hurter-driffield-curve.ts';

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

/** Hurter and Driffield's curve with its fit. */
export const hurterDriffield: CurveModel = {
  ...hurterDriffieldCurve,
  start(x, y) {
    const sketch = curveSketch(x, y);
    const { minimumDensity, maximumDensity, slope, lastSlopeShare } = sketch;
    const rise = (maximumDensity - minimumDensity) * (1 + lastSlopeShare);
    const decades = Math.min(12, Math.max(0.3, rise / slope));
    return [minimumDensity, slope, 1 + 10 ** decades, 10 ** sketch.toeCentre];
  },
  inner,
};
