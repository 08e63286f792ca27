/**
 * Step tablets and the exposures that they give.
 *
 *   nominal tablet      d_n = first + (n - 1) increment
 *   contact wedge       log H = log10(E t) - d
 *   in-camera series    log H = log H0 + log10(2) stops
 *
 * Sources: trade sizes (21 x 0.15, 31 x 0.10, 11 x 0.30, 41 x 0.05 from 0.05): common practice.
 * Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import { LOG_STOP } from './units.ts';

export interface NominalTabletOptions {
  /** Number of steps, an integer from 2 to 1000. */
  readonly steps: number;
  /** Density from one step to the next, > 0. */
  readonly increment: number;
  /** Density of step 1; 0.05 unless given. */
  readonly firstDensity?: number;
}

/**
 * Densities of a tablet by its nominal increment. A calibrated tablet's own densities replace them.
 *
 * @returns densities of steps 1 … `steps`, lightest first
 * @throws InvalidArgumentError if a size makes no tablet
 * @example
 * nominalTablet({ steps: 3, increment: 0.15 }); // => [0.05, 0.2, 0.35]
 */
export function nominalTablet(options: NominalTabletOptions): number[] {
  const { steps, increment, firstDensity = 0.05 } = options;
  if (!(Number.isInteger(steps) && steps >= 2 && steps <= 1000)) {
    throw new InvalidArgumentError('nominalTablet', 'steps', steps, 'an integer from 2 to 1000');
  }
  if (!(increment > 0 && increment <= 1)) {
    throw new InvalidArgumentError('nominalTablet', 'increment', increment, 'in (0, 1]');
  }
  if (!(firstDensity >= 0 && firstDensity <= 6)) {
    throw new InvalidArgumentError('nominalTablet', 'firstDensity', firstDensity, 'in [0, 6]');
  }
  // Rounded to a millionth: 0.05 + 2 x 0.15 must read 0.35, not 0.35000000000000003.
  return Array.from({ length: steps }, (_, n) => round6(firstDensity + n * increment));
}

/**
 * Log exposures behind a contact wedge.
 *
 * @param tabletDensities - density of each step
 * @param sourceLogExposure - log10 of the lux-seconds that fall on the tablet; 0 makes the result
 *   a relative log exposure
 * @returns log exposure behind each step, same order
 * @throws InvalidArgumentError if a value is not finite
 * @example
 * contactLogExposures([0, 1], -0.5); // => [-0.5, -1.5]
 */
export function contactLogExposures(
  tabletDensities: readonly number[],
  sourceLogExposure = 0,
): number[] {
  return tabletDensities.map((density, index) => {
    const logExposure = sourceLogExposure - density;
    if (!Number.isFinite(logExposure)) {
      throw new InvalidArgumentError(
        'contactLogExposures',
        `density ${index + 1} and source`,
        logExposure,
        'finite',
      );
    }
    return logExposure || 0;
  });
}

/**
 * Log exposures of a series of frames made at known stops from a first exposure.
 *
 * @param firstLogExposure - log10 lux-seconds (or relative) of the frame at 0 stops
 * @param stops - more (+) or less (-) light than that, in stops
 * @returns log exposure of each frame, same order
 * @throws InvalidArgumentError if a value is not finite
 * @example
 * cameraLogExposures(-2, [0, 1]); // => [-2, -1.6989700043360187]
 */
export function cameraLogExposures(firstLogExposure: number, stops: readonly number[]): number[] {
  return stops.map((stop, index) => {
    const logExposure = firstLogExposure + LOG_STOP * stop;
    if (!Number.isFinite(logExposure)) {
      throw new InvalidArgumentError('cameraLogExposures', `stop ${index + 1}`, stop, 'finite');
    }
    return logExposure;
  });
}

const round6 = (value: number): number => Math.round(value * 1e6) / 1e6;
