/**
 * The dose that a bath gives.
 *
 *   E = c^n t q^((T - 20) / 10),   c = 1 / (1 + parts of water)
 *
 * The unit is a minute in undiluted concentrate at 20 °C.
 *
 * Sources: [TENBERGE] c^n t = constant; [FH1905] one coefficient for 10 °C. Deviations: neither n
 * nor q is published for selenium toning; they stay parameters.
 */
import { InvalidArgumentError } from '../errors.ts';

/** Temperature at which a dose needs no correction, °C. */
export const REFERENCE_CELSIUS = 20;

/** A bath as it is used. */
export interface Bath {
  /** n of the dilution 1+n, concentrate + water; 0 is undiluted. */
  readonly partsWater: number;
  readonly minutes: number;
  readonly celsius: number;
}

export interface DoseExponents {
  /** n: how strongly concentration counts against time; 1 means that half the strength takes twice as long. */
  readonly concentrationExponent: number;
  /** q: factor of speed for 10 °C. */
  readonly temperatureCoefficient: number;
}

/**
 * Concentration of a dilution 1+n as a part of the whole.
 *
 * @param partsWater - n, from 0 to 1000
 * @returns 1 / (1 + n)
 * @throws InvalidArgumentError if `partsWater` is out of range
 * @example
 * concentrationOf(3); // => 0.25
 */
export function concentrationOf(partsWater: number): number {
  if (!(partsWater >= 0 && partsWater <= 1000)) {
    throw new InvalidArgumentError('concentrationOf', 'partsWater', partsWater, 'from 0 to 1000');
  }
  return 1 / (1 + partsWater);
}

/**
 * Strength of a bath: dose for each minute.
 *
 * @param bath - dilution and temperature (0 to 60 °C)
 * @param exponents - n and q
 * @returns c^n q^((T - 20) / 10)
 * @throws InvalidArgumentError if the dilution or the temperature is out of range
 */
export function doseRate(
  bath: { readonly partsWater: number; readonly celsius: number },
  exponents: DoseExponents,
): number {
  if (!(bath.celsius >= 0 && bath.celsius <= 60)) {
    throw new InvalidArgumentError('doseRate', 'celsius', bath.celsius, 'from 0 to 60 °C');
  }
  const { concentrationExponent, temperatureCoefficient } = exponents;
  return (
    concentrationOf(bath.partsWater) ** concentrationExponent *
    temperatureCoefficient ** ((bath.celsius - REFERENCE_CELSIUS) / 10)
  );
}

/**
 * Dose of a bath.
 *
 * @param bath - dilution, minutes (0 or more) and temperature
 * @param exponents - n and q
 * @returns dose in minutes of undiluted concentrate at 20 °C
 * @throws InvalidArgumentError if a value is out of range
 * @source [TENBERGE], [FH1905]
 * @example
 * dose({ partsWater: 3, minutes: 5, celsius: 20 }, { concentrationExponent: 1, temperatureCoefficient: 2 });
 * // => 1.25
 */
export function dose(bath: Bath, exponents: DoseExponents): number {
  if (!(bath.minutes >= 0 && bath.minutes < Infinity)) {
    throw new InvalidArgumentError('dose', 'minutes', bath.minutes, 'zero or more');
  }
  return bath.minutes * doseRate(bath, exponents);
}

/**
 * Minutes for which a bath must act to give a dose.
 *
 * @param wantedDose - dose, zero or more
 * @returns minutes at that dilution and temperature
 * @throws InvalidArgumentError if a value is out of range
 */
export function minutesForDose(
  wantedDose: number,
  bath: { readonly partsWater: number; readonly celsius: number },
  exponents: DoseExponents,
): number {
  if (!(wantedDose >= 0 && wantedDose < Infinity)) {
    throw new InvalidArgumentError('minutesForDose', 'wantedDose', wantedDose, 'zero or more');
  }
  return wantedDose / doseRate(bath, exponents);
}
