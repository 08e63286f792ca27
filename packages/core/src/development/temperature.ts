/**
 * Development time at another temperature.
 *
 *   t2 = t1 q^((T1 - T2) / 10)
 *   activation energy  E = R ln q / (1/T - 1/(T + 10)), absolute temperatures
 *
 * Sources: [FH1905] one coefficient for 10 °C; [IVES1920] for two measured ones, as factors over
 * 7 °C. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';

const GAS_CONSTANT = 8.314462618; // J / (mol K)
const ZERO_CELSIUS = 273.15;

/**
 * Time that gives the same development at another temperature.
 *
 * @param minutes - time at `fromCelsius`, zero or more
 * @param fromCelsius - temperature, °C
 * @param toCelsius - temperature, °C
 * @param coefficient - q, factor of speed for 10 °C, > 0
 * @returns minutes at `toCelsius`
 * @throws InvalidArgumentError if an argument is out of range
 * @source [FH1905]
 * @example
 * equivalentMinutes(10, 20, 30, 2); // => 5
 */
export function equivalentMinutes(
  minutes: number,
  fromCelsius: number,
  toCelsius: number,
  coefficient: number,
): number {
  if (!(minutes >= 0 && minutes < Infinity)) {
    throw new InvalidArgumentError('equivalentMinutes', 'minutes', minutes, 'zero or more');
  }
  return minutes * coefficientOver(coefficient, fromCelsius - toCelsius);
}

/**
 * Temperature coefficient for 10 °C from a factor over another difference.
 *
 * @param factor - factor of speed over the difference, > 0
 * @param differenceCelsius - difference in °C, not 0
 * @returns q
 * @throws InvalidArgumentError if an argument is out of range
 * @example
 * coefficientFromFactor(2, 10); // => 2
 */
export function coefficientFromFactor(factor: number, differenceCelsius: number): number {
  if (!(factor > 0 && factor < Infinity)) {
    throw new InvalidArgumentError('coefficientFromFactor', 'factor', factor, 'above zero');
  }
  if (!(Math.abs(differenceCelsius) > 0 && Math.abs(differenceCelsius) < 100)) {
    throw new InvalidArgumentError(
      'coefficientFromFactor',
      'differenceCelsius',
      differenceCelsius,
      'a difference other than zero',
    );
  }
  return factor ** (10 / differenceCelsius);
}

/**
 * Activation energy that a temperature coefficient stands for.
 *
 * @param coefficient - q for 10 °C, > 0
 * @param celsius - lower of the two temperatures, 0 to 60 °C
 * @returns kilojoules per mole
 * @throws InvalidArgumentError if an argument is out of range
 */
export function activationEnergy(coefficient: number, celsius = 20): number {
  const kelvin = inRange('activationEnergy', celsius) + ZERO_CELSIUS;
  if (!(coefficient > 0 && coefficient < Infinity)) {
    throw new InvalidArgumentError('activationEnergy', 'coefficient', coefficient, 'above zero');
  }
  return (GAS_CONSTANT * Math.log(coefficient)) / (1 / kelvin - 1 / (kelvin + 10)) / 1000;
}

/** Factor of time over a temperature difference. */
function coefficientOver(coefficient: number, differenceCelsius: number): number {
  if (!(coefficient > 0 && coefficient < Infinity)) {
    throw new InvalidArgumentError('equivalentMinutes', 'coefficient', coefficient, 'above zero');
  }
  if (!(Math.abs(differenceCelsius) <= 60)) {
    throw new InvalidArgumentError(
      'equivalentMinutes',
      'temperatures',
      differenceCelsius,
      'within 60 °C of each other',
    );
  }
  return coefficient ** (differenceCelsius / 10);
}

/** A development temperature, checked. */
export function inRange(functionName: string, celsius: number): number {
  if (!(celsius >= 0 && celsius <= 60)) {
    throw new InvalidArgumentError(functionName, 'celsius', celsius, 'from 0 to 60 °C');
  }
  return celsius;
}
