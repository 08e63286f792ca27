/**
 * The curve that a development surface predicts at a time, tested or not.
 *
 * Sources: delta method, [Seber2003] section 5.1. Deviations: none.
 */
import type { CharacteristicCurve } from '../../curve/index.ts';
import { InvalidArgumentError } from '../../errors.ts';
import { toeOnly, toeShoulder } from '../../fitting/index.ts';
import { warning, type Warning } from '../../warning.ts';
import { inRange } from '../temperature.ts';
import { correctedCurve } from './corrected-curve.ts';
import { averagedCut, type WeightedLaw } from './averaged-cut.ts';
import { CUT_FAMILY, type DevelopmentSurface } from './surface-model.ts';

export interface SurfaceCurve {
  /** A `toe-shoulder` curve that every measure and band of a strip's curve can be taken of. */
  readonly curve: CharacteristicCurve;
  readonly warnings: readonly Warning[];
}

/**
 * Curve at a development time.
 *
 * @param surface - fitted surface
 * @param minutes - development time, > 0
 * @param celsius - temperature, the surface's reference unless given
 * @returns the curve with the covariance of its parameters, and a warning where the time lies
 *   outside those tried; null where the surface holds no rising curve at that time
 * @throws InvalidArgumentError if an argument is out of range
 */
export function surfaceCurve(
  surface: DevelopmentSurface,
  minutes: number,
  celsius = surface.referenceCelsius,
): SurfaceCurve | null {
  if (!(minutes > 0 && minutes < Infinity)) {
    throw new InvalidArgumentError('surfaceCurve', 'minutes', minutes, 'above zero');
  }
  inRange('surfaceCurve', celsius);
  const cut = averagedCut(surface, lawsOf(surface), minutes, celsius);
  if (cut === null) return null;
  const q = surface.parameters[12] ?? 1;
  const time = minutes * q ** ((celsius - surface.referenceCelsius) / 10);
  const [first, last] = surface.testedMinutes;
  const outside = time < 0.98 * first || time > 1.02 * last;
  const curve: CharacteristicCurve = {
    ...(surface.correction === null
      ? {
          family: CUT_FAMILY,
          parameters: cut.parameters,
          parameterNames: (surface.hasShoulder ? toeShoulder : toeOnly).parameterNames,
          covariance: cut.covariance,
          knots: [],
        }
      : {
          family: 'monotone-smooth' as const,
          ...correctedCurve(
            cut.parameters,
            cut.covariance,
            surface.correction,
            time,
            surface.logExposureRange,
          ),
        }),
    logExposureRange: surface.logExposureRange,
    densityRangeRead: surface.densityRangeRead,
    residualStandardDeviation: surface.residualStandardDeviation,
    degreesOfFreedom: surface.degreesOfFreedom,
    companions: [],
    weight: 1,
  };
  const warnings = outside
    ? [warning('time-extrapolated', { development: '', minutes, first, last })]
    : [];
  return { curve, warnings };
}

/** The law in use and its rival, with their shares. */
function lawsOf(surface: DevelopmentSurface): readonly WeightedLaw[] {
  const { law, parameters, covariance, rival } = surface;
  const own = { law, parameters, covariance, weight: 1 - (rival?.weight ?? 0) };
  return rival === null ? [own] : [own, rival];
}
