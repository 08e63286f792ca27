/**
 * Density from the units in which instruments and observers give it.
 *
 *   D = -log10 T            transmittance T
 *   D = log10(2) n          n stops less light than the open source
 *   D = log10(t / t_ref)    two times that print or measure alike
 *
 * Sources: [ISO5] part 1 for the definition of density. Deviations: none.
 */
import { InvalidArgumentError, OutOfDomainError } from '../errors.ts';

/** One stop, as a step of log exposure or density: log10(2). */
export const LOG_STOP = Math.log10(2);

/**
 * Density of a sample from its transmittance.
 *
 * @param transmittance - transmitted over incident light, dimensionless, in (0, 10]; a value just
 *   above 1 is what an instrument zeroed on a slightly denser base gives
 * @returns density, dimensionless
 * @throws OutOfDomainError if `transmittance` is not in (0, 10]
 * @source [ISO5] part 1
 * @example
 * densityFromTransmittance(0.01); // => 2
 */
export function densityFromTransmittance(transmittance: number): number {
  // Written as a positive test so that NaN fails it.
  if (!(transmittance > 0 && transmittance <= 10)) {
    throw new OutOfDomainError('densityFromTransmittance', 'transmittance', transmittance, [0, 10]);
  }
  // `|| 0`: -log10(1) is -0.
  return -Math.log10(transmittance) || 0;
}

/**
 * Transmittance of a sample from its density.
 *
 * @param density - density, dimensionless, finite
 * @returns transmittance, dimensionless
 * @throws InvalidArgumentError if `density` is not finite
 * @example
 * transmittanceFromDensity(2); // => 0.01
 */
export function transmittanceFromDensity(density: number): number {
  return 10 ** -finite('transmittanceFromDensity', 'density', density);
}

/**
 * Density of a sample that takes `stops` stops of light away.
 *
 * @param stops - difference of two meter readings, without the sample less with it, in stops
 * @returns density, dimensionless
 * @throws InvalidArgumentError if `stops` is not finite
 * @example
 * densityFromStops(1); // => 0.3010299956639812
 */
export function densityFromStops(stops: number): number {
  return LOG_STOP * finite('densityFromStops', 'stops', stops);
}

/**
 * Stops of light that a density takes away.
 *
 * @param density - density or difference of densities, dimensionless
 * @returns stops
 * @throws InvalidArgumentError if `density` is not finite
 * @example
 * stopsFromDensity(0.3010299956639812); // => 1
 */
export function stopsFromDensity(density: number): number {
  return finite('stopsFromDensity', 'density', density) / LOG_STOP;
}

/**
 * Density by matching: the time that a sample needs over the time that the open source needs.
 *
 * @param timeSeconds - time with the sample, seconds, > 0
 * @param referenceSeconds - time without it, seconds, > 0
 * @returns density, dimensionless
 * @throws InvalidArgumentError if a time is not positive
 * @example
 * densityFromMatchedTimes(13, 10); // => 0.11394335230683679
 */
export function densityFromMatchedTimes(timeSeconds: number, referenceSeconds: number): number {
  for (const [name, value] of Object.entries({ timeSeconds, referenceSeconds })) {
    if (!(value > 0 && value < Infinity)) {
      throw new InvalidArgumentError('densityFromMatchedTimes', name, value, 'a time above zero');
    }
  }
  return Math.log10(timeSeconds / referenceSeconds);
}

function finite(functionName: string, argument: string, value: number): number {
  if (!Number.isFinite(value)) {
    throw new InvalidArgumentError(functionName, argument, value, 'a finite number');
  }
  return value;
}
