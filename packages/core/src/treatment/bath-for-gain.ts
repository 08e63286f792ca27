/**
 * The bath for a gain, whatever negative it is wanted for.
 *
 *   R = (k - 1) / (k_max - 1) -> dose -> minutes, as far as the practical end of the bath, R = 0.95
 *
 * Sources: see the modules of dose and response. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import { COMPLETE } from './default-model.ts';
import { minutesError, type MinutesError } from './plan-minutes.ts';
import { minutesForResponse } from './plan-treatment.ts';
import type { TreatmentModel } from './treatment-model.ts';

export interface BathForGain {
  readonly reachable: boolean;
  /** Gain of the silver after these minutes: the one asked for, or the most that is. */
  readonly gain: number;
  /** The most that the practical end of the bath gives. */
  readonly mostGain: number;
  readonly minutes: number;
  /** How sure the minutes are; null where the gain is out of reach, or nothing is to be done. */
  readonly minutesError: MinutesError | null;
}

/**
 * Minutes at a dilution and temperature for a gain.
 *
 * @param model - fitted or built-in
 * @param gain - k, 1 or more
 * @param bath - dilution and temperature
 * @returns minutes with their error; where the gain is out of reach, the minutes of the practical end
 *   and the gain that it gives
 * @throws InvalidArgumentError if a value is out of range
 */
export function bathForGain(
  model: TreatmentModel,
  gain: number,
  bath: { readonly partsWater: number; readonly celsius: number },
): BathForGain {
  if (!(gain >= 1 && gain < 100)) {
    throw new InvalidArgumentError('bathForGain', 'gain', gain, '1 or more');
  }
  const { doseResponse } = model;
  const room = doseResponse.maximumGain.value - 1;
  const mostGain = 1 + COMPLETE * Math.max(0, room);
  if (gain === 1) return { reachable: true, gain, mostGain, minutes: 0, minutesError: null };
  const reachable = gain <= mostGain;
  const minutes =
    room > 0 ? minutesForResponse(model, (Math.min(gain, mostGain) - 1) / room, bath) : 0;
  return {
    reachable,
    gain: Math.min(gain, mostGain),
    mostGain,
    minutes,
    minutesError: reachable ? minutesError(doseResponse, minutes, bath, { gain }) : null,
  };
}
