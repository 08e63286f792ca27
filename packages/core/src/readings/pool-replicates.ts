/**
 * Replicate readings of one step: their mean, and what they say of the error of a reading.
 *
 *   pure-error sum of squares   SS_pe = Σ_steps Σ_readings (D - mean of step)²
 *   standard deviation          s = sqrt(SS_pe / (readings - steps))
 *
 * Sources: [DS1998] section 1.5, pure error. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import type { CurveReadings } from './curve-readings.ts';

/** One step after pooling. */
export interface PooledStep {
  readonly logExposure: number;
  readonly meanDensity: number;
  readonly count: number;
  /** Lowest and highest of its readings. */
  readonly densityRange: readonly [number, number];
}

export interface PooledReadings {
  /** Steps in ascending log exposure. */
  readonly steps: readonly PooledStep[];
  readonly pureErrorSumOfSquares: number;
  readonly pureErrorDegreesOfFreedom: number;
  /** Standard deviation of one reading, or null where no step was read twice. */
  readonly readingStandardDeviation: number | null;
}

/**
 * Pools the readings that share a log exposure, base + fog readings among themselves.
 *
 * @param readings - densities by log exposure, any order
 * @returns steps in ascending log exposure (unexposed readings as -Infinity) and the pure error
 * @throws InvalidArgumentError if the arrays differ in length or hold a value that is not finite
 * @source [DS1998] section 1.5
 */
export function poolReplicates(readings: CurveReadings): PooledReadings {
  const { logExposures, densities, unexposedDensities = [] } = readings;
  if (logExposures.length !== densities.length) {
    throw new InvalidArgumentError(
      'poolReplicates',
      'densities',
      densities,
      `as many as log exposures (${logExposures.length})`,
    );
  }
  const groups = new Map<number, number[]>();
  const add = (logExposure: number, density: number, place: string): void => {
    if (!Number.isFinite(density) || Number.isNaN(logExposure) || logExposure === Infinity) {
      throw new InvalidArgumentError('poolReplicates', place, density, 'a finite reading');
    }
    const group = groups.get(logExposure);
    if (group === undefined) groups.set(logExposure, [density]);
    else group.push(density);
  };
  unexposedDensities.forEach((density, i) => {
    add(-Infinity, density, `unexposed density ${i + 1}`);
  });
  logExposures.forEach((logExposure, i) => {
    add(logExposure, densities[i] ?? NaN, `reading ${i + 1}`);
  });

  let sumOfSquares = 0;
  let degreesOfFreedom = 0;
  const steps = [...groups].map(([logExposure, group]): PooledStep => {
    const meanDensity = group.reduce((sum, density) => sum + density, 0) / group.length;
    for (const density of group) sumOfSquares += (density - meanDensity) ** 2;
    degreesOfFreedom += group.length - 1;
    const densityRange = [Math.min(...group), Math.max(...group)] as const;
    return { logExposure, meanDensity, count: group.length, densityRange };
  });
  steps.sort((a, b) => (a.logExposure < b.logExposure ? -1 : 1));
  return {
    steps,
    pureErrorSumOfSquares: sumOfSquares,
    pureErrorDegreesOfFreedom: degreesOfFreedom,
    readingStandardDeviation:
      degreesOfFreedom > 0 ? Math.sqrt(sumOfSquares / degreesOfFreedom) : null,
  };
}
