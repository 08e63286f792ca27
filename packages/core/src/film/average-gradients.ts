/**
 * Average gradients by named end points, all from the speed point at net 0.10.
 *
 *   chord = [D(x_m + L) - D(x_m)] / L
 *
 *   L = 1.30  the ISO triangle;   1.50  the common average gradient;
 *   L = 2.00  the quick estimate of contrast index;   2.10  zone practice, zone I to VIII
 *
 * Sources: [ISO6] for 1.30; the others are published practice. Deviations: none. The chord on one
 * curve can be 0.62 by one definition and 0.75 by another, so that the end points always go with it.
 */
import {
  derivedDensity,
  derivedNetPoint,
  estimateOn,
  plus,
  scaled,
  shifted,
  type CharacteristicCurve,
  type CurveMeasure,
  type Derived,
} from '../curve/index.ts';
import { InvalidArgumentError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';
import { warning, type Warning } from '../warning.ts';
import { FARTHEST_EXTRAPOLATION, withinReadings } from './reach.ts';

/** Log exposures above the speed point at which the chords end. */
export const CHORD_LENGTHS = [1.3, 1.5, 2, 2.1] as const;

/** Where chords begin on a curve; all chords of a curve ask for both. */
export interface StartOfChords {
  readonly logExposure: CurveMeasure;
  readonly density: CurveMeasure;
}

export interface AverageGradient {
  /** First end point in words, such as `net 0.10`. */
  readonly from: string;
  /** Second end point in words, such as `+1.30`. */
  readonly to: string;
  readonly value: Estimate;
  readonly fromLogExposure: number;
  readonly toLogExposure: number;
}

/**
 * The chords that the readings reach, shortest first.
 *
 * @param netDensity - net density of the first end point
 * @param point - that point on a curve, with its density
 * @param from - log exposure of that point on the drawn curve, or null where it is not reached
 * @param warnings - one warning is added per chord that leans on extrapolation or is left out
 */
export function averageGradients(
  curve: CharacteristicCurve,
  netDensity: number,
  point: StartOfChords,
  from: number | null,
  warnings: Warning[],
): AverageGradient[] {
  if (from === null) return [];
  return CHORD_LENGTHS.flatMap((length) => {
    const measure = `average gradient to +${length.toFixed(2)}`;
    const { beyond } = withinReadings(curve, from + length);
    if (beyond > FARTHEST_EXTRAPOLATION) {
      warnings.push(warning('measure-not-reached', { measure, beyond }));
      return [];
    }
    const value = chordFrom(curve, point, length);
    if (value === null) return [];
    if (beyond > 0) warnings.push(warning('measure-extrapolated', { measure, beyond }));
    return [
      {
        from: `net ${netDensity.toFixed(2)}`,
        to: `+${length.toFixed(2)}`,
        value,
        fromLogExposure: from,
        toLogExposure: from + length,
      },
    ];
  });
}

/**
 * Chord from a net density over a given log exposure.
 *
 * @param netDensity - net density of the first end point
 * @param length - log exposure covered, > 0
 * @returns the average gradient, or null where the curve does not reach the first end point
 * @throws InvalidArgumentError if `length` is not positive
 */
export function chordOver(
  curve: CharacteristicCurve,
  netDensity: number,
  length: number,
): Estimate | null {
  if (!(length > 0)) throw new InvalidArgumentError('chordOver', 'length', length, 'above zero');
  const logExposure: CurveMeasure = (c) => derivedNetPoint(c, netDensity);
  const density: CurveMeasure = (c) => {
    const x = logExposure(c);
    return x && derivedDensity(c, x);
  };
  return chordFrom(curve, { logExposure, density }, length);
}

function chordFrom(
  curve: CharacteristicCurve,
  point: StartOfChords,
  length: number,
): Estimate | null {
  return estimateOn(curve, (c) => {
    const rise = riseFrom(c, point, length);
    return rise && scaled(rise, 1 / length);
  });
}

/** Density gained over a log exposure; null where the curve does not reach the first point. */
export function riseFrom(
  curve: CharacteristicCurve,
  point: StartOfChords,
  length: number,
): Derived | null {
  const x = point.logExposure(curve);
  const density = point.density(curve);
  return x && density && plus(derivedDensity(curve, shifted(x, length)), density, -1);
}

/**
 * Average gradient between two densities above base + fog.
 *
 * @param lowerNetDensity - net density of the first end point
 * @param upperNetDensity - net density of the second, greater than the first
 * @returns the average gradient, or null where the curve does not reach both
 * @throws InvalidArgumentError if the densities are not in order
 */
export function averageGradientBetweenDensities(
  curve: CharacteristicCurve,
  lowerNetDensity: number,
  upperNetDensity: number,
): Estimate | null {
  if (!(upperNetDensity > lowerNetDensity)) {
    throw new InvalidArgumentError(
      'averageGradientBetweenDensities',
      'upperNetDensity',
      upperNetDensity,
      `above ${lowerNetDensity}`,
    );
  }
  const rise = upperNetDensity - lowerNetDensity;
  return estimateOn(curve, (c) => {
    const low = derivedNetPoint(c, lowerNetDensity);
    const high = derivedNetPoint(c, upperNetDensity);
    if (low === null || high === null) return null;
    const run = plus(high, low, -1);
    const value = rise / run.value;
    return { value, derivatives: run.derivatives.map((d) => (-value / run.value) * d) };
  });
}

/**
 * Average gradient between two log exposures.
 *
 * @throws InvalidArgumentError if the exposures are not in order
 */
export function averageGradientBetweenExposures(
  curve: CharacteristicCurve,
  lower: number,
  upper: number,
): Estimate | null {
  if (!(upper > lower && Number.isFinite(upper - lower))) {
    throw new InvalidArgumentError(
      'averageGradientBetweenExposures',
      'upper',
      upper,
      `above ${lower}`,
    );
  }
  return estimateOn(curve, (c) => {
    const at = (x: number) =>
      derivedDensity(c, { value: x, derivatives: new Float64Array(c.parameters.length) });
    return scaled(plus(at(upper), at(lower), -1), 1 / (upper - lower));
  });
}
