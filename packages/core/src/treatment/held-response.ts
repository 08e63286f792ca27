/**
 * The parameters of dose and response as a record, and those of them that the user holds.
 *
 * Sources: none. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import {
  RESPONSE_PARAMETERS,
  type HeldResponse,
  type ResponseParameter,
} from './treatment-model.ts';

/** Least and greatest value that a parameter may take, fitted or held. */
export const RESPONSE_BOUNDS: Readonly<Record<ResponseParameter, readonly [number, number]>> = {
  maximumGain: [0.01, 10],
  halfDose: [1e-4, 1e4],
  steepness: [0.2, 8],
  concentrationExponent: [0.1, 4],
  temperatureCoefficient: [1, 6],
};

/**
 * @param of - the value, by name and place in `RESPONSE_PARAMETERS`
 * @returns one entry for each parameter
 */
export function record<T>(
  of: (name: ResponseParameter, index: number) => T,
): Readonly<Record<ResponseParameter, T>> {
  const [maximumGain, halfDose, steepness, concentrationExponent, temperatureCoefficient] =
    RESPONSE_PARAMETERS.map(of) as [T, T, T, T, T];
  return { maximumGain, halfDose, steepness, concentrationExponent, temperatureCoefficient };
}

/**
 * @returns the held values, checked
 * @throws InvalidArgumentError if one is out of its bounds
 */
export function checkedHeld(held: HeldResponse): HeldResponse {
  for (const name of RESPONSE_PARAMETERS) {
    const value = held[name];
    const [least, most] = RESPONSE_BOUNDS[name];
    if (value !== undefined && !(value >= least && value <= most)) {
      throw new InvalidArgumentError(
        'treatment',
        `held ${name}`,
        value,
        `from ${least} to ${most}`,
      );
    }
  }
  return held;
}
