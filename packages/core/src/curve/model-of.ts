/**
 * The model behind a curve's family name.
 */
import {
  asDrawnModel,
  hurterDriffield,
  logistic4,
  logistic5,
  monotoneSmoothModel,
  toeOnly,
  toeShoulder,
  type CurveModel,
} from '../fitting/index.ts';
import type { CharacteristicCurve } from './characteristic-curve.ts';

/**
 * The function whose parameters a curve holds.
 *
 * @param curve - a fitted curve; a `toe-shoulder` curve with four parameters has no shoulder
 */
export function modelOf(
  curve: Pick<CharacteristicCurve, 'family' | 'parameters' | 'knots'>,
): CurveModel {
  switch (curve.family) {
    case 'toe-shoulder':
      return curve.parameters.length === toeOnly.parameterNames.length ? toeOnly : toeShoulder;
    case 'logistic-4':
      return logistic4;
    case 'logistic-5':
      return logistic5;
    case 'hurter-driffield':
      return hurterDriffield;
    case 'monotone-smooth':
      return monotoneSmoothModel(curve.knots);
    case 'as-drawn':
      return asDrawnModel(curve.knots);
  }
}
