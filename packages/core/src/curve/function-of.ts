/**
 * The function behind a curve's family name: all that measures and drawings need. What only a fit
 * needs, starts and bounds, stays out of whatever shows curves; see `model-of.ts`.
 */
import {
  asDrawnCurve,
  hurterDriffieldCurve,
  logistic4Curve,
  logistic5Curve,
  monotoneSmoothModel,
  toeOnlyCurve,
  toeShoulderCurve,
  type CurveFunction,
} from '../fitting/index.ts';
import type { CharacteristicCurve } from './characteristic-curve.ts';

/** What names a curve's function. */
export type NamedFunction = Pick<CharacteristicCurve, 'family' | 'parameters' | 'knots'>;

/**
 * The function whose parameters a curve holds.
 *
 * @param curve - a fitted curve; a `toe-shoulder` curve with four parameters has no shoulder
 */
export function functionOf(curve: NamedFunction): CurveFunction {
  switch (curve.family) {
    case 'toe-shoulder':
      return curve.parameters.length === toeOnlyCurve.parameterNames.length
        ? toeOnlyCurve
        : toeShoulderCurve;
    case 'logistic-4':
      return logistic4Curve;
    case 'logistic-5':
      return logistic5Curve;
    case 'hurter-driffield':
      return hurterDriffieldCurve;
    case 'monotone-smooth':
      return monotoneSmoothModel(curve.knots);
    case 'as-drawn':
      return asDrawnCurve(curve.knots);
  }
}
