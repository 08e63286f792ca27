/**
 * The fit of the generalised logistic curve. Centre and width by themselves move with a; fitted are,
 * in their place, the steepest point xi = xc + w ln a and, as logarithms, a and the width that a
 * symmetric curve of the same greatest slope would have,
 *
 *   wi = w (1 + 1/a)^(a + 1) / 4
 *
 * Sources: see `logistic-curve.ts`. Deviations: none.
 */
import type { CurveModel, InnerParameters } from '../model.ts';
import { curveSketch } from './curve-start.ts';
import { finiteRange, NARROWEST } from './finite-range.ts';
import { logistic5Curve } from './logistic-curve.ts';

/** Beyond these bounds another value of the asymmetry changes the curve no more. */
const LEAST_ASYMMETRY = 0.02;
const GREATEST_ASYMMETRY = 50;

const inner: InnerParameters = {
  toNatural(u, p, chain) {
    p[0] = u[0] as number;
    p[1] = u[1] as number;
    const asymmetry = Math.exp(u[4] as number);
    const logarithm = u[4] as number;
    const narrowing = Math.log1p(1 / asymmetry);
    const width = 4 * Math.exp((u[3] as number) - (asymmetry + 1) * narrowing);
    // d ln w / d ln a at a steady greatest slope
    const drift = 1 - asymmetry * narrowing;
    p[2] = (u[2] as number) - width * logarithm;
    p[3] = width;
    p[4] = asymmetry;
    chain.fill(0);
    chain[0] = 1;
    chain[6] = 1;
    chain[12] = 1;
    chain[13] = -width * logarithm;
    chain[14] = -width * (1 + logarithm * drift);
    chain[18] = width;
    chain[19] = width * drift;
    chain[24] = asymmetry;
  },
  fromNatural(p) {
    const width = Math.max(p[3] ?? 0, NARROWEST);
    const asymmetry = Math.max(p[4] ?? 0, LEAST_ASYMMETRY);
    return [
      p[0] ?? 0,
      p[1] ?? 0,
      (p[2] ?? 0) + width * Math.log(asymmetry),
      Math.log(width / 4) + (asymmetry + 1) * Math.log1p(1 / asymmetry),
      Math.log(asymmetry),
    ];
  },
  bounds(x) {
    const { first, last, range, narrowest } = finiteRange(x);
    return {
      lower: [
        -Infinity,
        -Infinity,
        first - 4 * range,
        Math.log(narrowest),
        Math.log(LEAST_ASYMMETRY),
      ],
      upper: [
        Infinity,
        Infinity,
        last + 4 * range,
        Math.log(2 * range),
        Math.log(GREATEST_ASYMMETRY),
      ],
    };
  },
};

/** The generalised logistic curve with its fit. */
export const logistic5: CurveModel = {
  ...logistic5Curve,
  derivativesAtAll(x, p, values, rows) {
    for (let i = 0; i < x.length; i++)
      values[i] = logistic5Curve.row(x[i] as number, p, rows, 5 * i);
  },
  start(x, y) {
    const sketch = curveSketch(x, y);
    const { minimumDensity, maximumDensity, slope, lastSlopeShare } = sketch;
    // Where the last readings still rise, the asymptote lies above them.
    const maximum = maximumDensity + lastSlopeShare * 0.5 * (maximumDensity - minimumDensity);
    const rise = Math.max(maximum - minimumDensity, 1e-3);
    const half = minimumDensity + rise / 2;
    const centre = sketch.middleLogExposure + (half - sketch.middleDensity) / slope;
    return [minimumDensity, maximum, centre, rise / (4 * slope), 1];
  },
  inner,
};
