/**
 * The characteristic curve after a bath.
 *
 *   D'(x) = b' + v(D(x) - b),   gradient' = v'(u) D'(x)
 *   b' = b where the bath spares the fog, clear base + k (b - clear base) where it tones it too
 *
 * Sources: see `gain-law.ts`. Deviations: none.
 */
import { densityAt, derivedBaseFog, gradientAt, type CharacteristicCurve } from '../curve/index.ts';
import { InvalidArgumentError } from '../errors.ts';
import { afterWithGain, type TreatmentEffect } from './treatment-effect.ts';

export interface TreatedCurveOptions {
  /** Density of the clear base, without fog, where the fog silver is toned too. */
  readonly clearBaseDensity?: number;
}

/** One point of the curve before and after. */
export interface TreatedCurvePoint {
  readonly logExposure: number;
  readonly untreatedDensity: number;
  readonly density: number;
  /** Standard error of the density by the gain alone; null where nothing was fitted. */
  readonly standardError: number | null;
  readonly gradient: number;
}

/**
 * Points of the curve after a bath.
 *
 * @param curve - the fitted curve of the untreated strip
 * @param effect - the bath, from `treatmentEffect`
 * @param logExposures - where, any order, finite
 * @param options - clear base where the fog is toned
 * @returns density and gradient after, beside the density before
 * @throws InvalidArgumentError if a log exposure is not finite, or the clear base lies above base + fog
 */
export function treatedCurve(
  curve: CharacteristicCurve,
  effect: TreatmentEffect,
  logExposures: readonly number[],
  options: TreatedCurveOptions = {},
): TreatedCurvePoint[] {
  const baseFog = derivedBaseFog(curve).value;
  const treatedBaseFog = toneBaseFog(baseFog, effect, options.clearBaseDensity);
  return logExposures.map((logExposure) => {
    if (!Number.isFinite(logExposure)) {
      throw new InvalidArgumentError('treatedCurve', 'logExposure', logExposure, 'finite');
    }
    const untreatedDensity = densityAt(curve, logExposure);
    const after = afterWithGain(untreatedDensity - baseFog, effect);
    const { standardError } = effect.gain;
    return {
      logExposure,
      untreatedDensity,
      density: treatedBaseFog + after.value,
      standardError: standardError === null ? null : Math.abs(after.byGain) * standardError,
      gradient: after.byDensity * gradientAt(curve, logExposure),
    };
  });
}

/**
 * Base + fog after the bath.
 *
 * @param baseFog - base + fog before
 * @param clearBaseDensity - density of the base alone where the fog is toned; left out, the fog stays
 * @throws InvalidArgumentError if the clear base lies above base + fog or is not finite
 */
export function toneBaseFog(
  baseFog: number,
  effect: TreatmentEffect,
  clearBaseDensity?: number,
): number {
  if (clearBaseDensity === undefined) return baseFog;
  if (!(clearBaseDensity <= baseFog && clearBaseDensity >= 0)) {
    throw new InvalidArgumentError(
      'toneBaseFog',
      'clearBaseDensity',
      clearBaseDensity,
      'between 0 and base + fog',
    );
  }
  return clearBaseDensity + afterWithGain(baseFog - clearBaseDensity, effect).value;
}

/**
 * Densities of a strip's readings after a bath.
 *
 * @param densities - gross densities read, null where unread
 * @param baseFog - base + fog of the strip
 * @returns predicted gross densities, null where unread; base + fog stays
 * @throws InvalidArgumentError if a density is not finite
 */
export function treatedReadings(
  densities: readonly (number | null)[],
  baseFog: number,
  effect: TreatmentEffect,
): (number | null)[] {
  return densities.map((density) =>
    density === null ? null : baseFog + afterWithGain(density - baseFog, effect).value,
  );
}
