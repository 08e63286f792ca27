/**
 * The fit of the symmetric logistic curve: the width is fitted as its logarithm.
 *
 * Sources: see `logistic-curve.ts`. Deviations: none.
 */
import type { CurveModel } from '../model.ts';
import { finiteRange, NARROWEST } from './finite-range.ts';
import { lastAsLogarithm } from './last-as-logarithm.ts';
import { logistic4Curve } from './logistic-curve.ts';
import { logistic5 } from './logistic-5.ts';

const inner = lastAsLogarithm(4, NARROWEST, (x) => {
  const { first, last, range, narrowest } = finiteRange(x);
  return {
    lower: [-Infinity, -Infinity, first - 4 * range, Math.log(narrowest)],
    upper: [Infinity, Infinity, last + 4 * range, Math.log(2 * range)],
  };
});

/** The symmetric logistic curve with its fit. */
export const logistic4: CurveModel = {
  ...logistic4Curve,
  start: (x, y) => logistic5.start(x, y).slice(0, 4),
  inner,
};
