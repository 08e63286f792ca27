/**
 * Reciprocity failure: the longer time that a long exposure needs.
 *
 *   Schwarzschild form   t_c = (t_m + 1)^(1/p) - 1
 *   power correction     t_c = t_m + a t_m^1.62
 *
 * Sources: published forms; p = 0.86 was Schwarzschild's for his plates, a = 0.05 to 0.17 covers
 * common films. Deviations: none. Both constants are the user's own for the film at hand.
 */
import { OutOfDomainError } from '../errors.ts';

/**
 * Corrected time by the Schwarzschild form.
 *
 * @param meteredSeconds - time by the meter, seconds, >= 0
 * @param exponent - Schwarzschild's p, in (0, 1]; 1 is no failure
 * @returns time to give, seconds
 * @throws OutOfDomainError if an argument is out of range
 * @example
 * schwarzschildTime(1, 1); // => 1
 */
export function schwarzschildTime(meteredSeconds: number, exponent: number): number {
  within('schwarzschildTime', 'meteredSeconds', meteredSeconds, 0, 1e7);
  within('schwarzschildTime', 'exponent', exponent, 0.3, 1);
  return (meteredSeconds + 1) ** (1 / exponent) - 1;
}

/** Exponent of the power correction, fixed; only the factor differs from film to film. */
const POWER = 1.62;

/**
 * Corrected time by the power correction.
 *
 * @param meteredSeconds - time by the meter, seconds, >= 0
 * @param factor - a, fitted per film, in [0, 1]
 * @returns time to give, seconds
 * @throws OutOfDomainError if an argument is out of range
 * @example
 * powerCorrectedTime(1, 0.1); // => 1.1
 */
export function powerCorrectedTime(meteredSeconds: number, factor: number): number {
  within('powerCorrectedTime', 'meteredSeconds', meteredSeconds, 0, 1e7);
  within('powerCorrectedTime', 'factor', factor, 0, 1);
  return meteredSeconds + factor * meteredSeconds ** POWER;
}

function within(name: string, quantity: string, value: number, low: number, high: number): void {
  if (!(value >= low && value <= high))
    throw new OutOfDomainError(name, quantity, value, [low, high]);
}
