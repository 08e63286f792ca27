/** Parameters of the bath that the user holds, from options. */
import { RESPONSE_BOUNDS, type HeldResponse } from '@wedgebook/core';
import type { Arguments, OptionKinds } from '../input/arguments.ts';

export const HELD_OPTIONS = {
  'maximum-gain': { type: 'string' },
  'half-dose': { type: 'string' },
  steepness: { type: 'string' },
  'concentration-exponent': { type: 'string' },
  'temperature-coefficient': { type: 'string' },
} as const satisfies OptionKinds;

const NAMES = {
  maximumGain: 'maximum-gain',
  halfDose: 'half-dose',
  steepness: 'steepness',
  concentrationExponent: 'concentration-exponent',
  temperatureCoefficient: 'temperature-coefficient',
} as const;

/** @throws {UsageError} where a value is out of its bounds */
export function heldParameters(given: Arguments): HeldResponse {
  return Object.fromEntries(
    Object.entries(NAMES).flatMap(([name, option]) => {
      const value = given.number(option, ...RESPONSE_BOUNDS[name as keyof typeof NAMES]);
      return value === undefined ? [] : [[name, value]];
    }),
  );
}
