/**
 * Gain and completion against time at one dilution and temperature.
 *
 * Sources: see `gain-at-dose.ts`. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import type { Bath } from './dose.ts';
import { gainAtBath, type BathGain } from './gain-at-dose.ts';
import type { TreatmentModel } from './treatment-model.ts';

export interface CompletionPoint extends BathGain {
  readonly minutes: number;
}

/**
 * The completion curve.
 *
 * @param model - fitted or built-in
 * @param bath - dilution and temperature
 * @param minutes - times, any order, zero or more
 * @returns gain, completion and plausible interval at each time
 * @throws InvalidArgumentError if a time or the bath is out of range, or `minutes` is empty
 */
export function completionCurve(
  model: TreatmentModel,
  bath: { readonly partsWater: number; readonly celsius: number },
  minutes: readonly number[],
): CompletionPoint[] {
  if (minutes.length === 0) {
    throw new InvalidArgumentError('completionCurve', 'minutes', minutes, 'at least one time');
  }
  return minutes.map((time) => ({
    minutes: time,
    ...gainAtBath(model.doseResponse, { ...bath, minutes: time }),
  }));
}

/** What a little more of something does to the gain. */
export interface Sensitivity {
  /** Change of gain for one minute more. */
  readonly perMinute: number;
  /** Change of gain for one degree more. */
  readonly perDegree: number;
}

/**
 * How much a minute or a degree more changes the gain.
 *
 * @param model - fitted or built-in
 * @param bath - the bath as planned
 * @throws InvalidArgumentError if the bath is out of range
 */
export function sensitivityOf(model: TreatmentModel, bath: Bath): Sensitivity {
  const gain = (changed: Partial<Bath>): number =>
    gainAtBath(model.doseResponse, { ...bath, ...changed }).gain.value;
  const now = gain({});
  return {
    perMinute: gain({ minutes: bath.minutes + 1 }) - now,
    perDegree: gain({ celsius: bath.celsius + 1 }) - now,
  };
}
