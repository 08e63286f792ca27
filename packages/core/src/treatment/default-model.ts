/**
 * The built-in model of a bath: no trials, every parameter a default with its range and source.
 *
 * Sources: those of the defaults themselves, in @wedgebook/data. Deviations: none.
 */
import { exactly } from '../estimate.ts';
import { warning } from '../warning.ts';
import { doseForResponse } from './response.ts';
import { minutesForDose } from './dose.ts';
import { REFERENCE_NET_DENSITY } from './gain-law.ts';
import { checkedHeld, record } from './held-response.ts';
import type { HeldResponse, SeleniumDefaults, TreatmentModel } from './treatment-model.ts';

/** Part of the change that counts as complete. */
export const COMPLETE = 0.95;

/** Bath at which the completion time is stated when there is no better one: 1+1 at 20 °C. */
export const NAMED_BATH = { partsWater: 1, celsius: 20 } as const;

/**
 * The model of a bath before any trial.
 *
 * @param defaults - built-in parameters, from @wedgebook/data
 * @param given - values held in place of built-in ones
 * @returns proportional law and built-in dose-response, with the warning that it is no measurement
 * @throws InvalidArgumentError if a held value is out of range
 */
export function defaultTreatment(
  defaults: SeleniumDefaults,
  given: HeldResponse = {},
): TreatmentModel {
  const held = checkedHeld(given);
  const { parameters, family } = defaults;
  const values = record((name) => held[name] ?? parameters[name].value);
  const minutes = minutesForDose(doseForResponse(COMPLETE, { family, ...values }), NAMED_BATH, {
    ...values,
  });
  const usesSteepness = family === 'hill' || family === 'weibull';
  return {
    process: defaults.process,
    origin: 'default',
    law: {
      family: 'proportional',
      exponent: exactly(1),
      referenceDensity: REFERENCE_NET_DENSITY,
      reason: 'default',
      comparison: [],
    },
    doseResponse: {
      family,
      ...record((name) => exactly(values[name])),
      origin: record((name) => (held[name] === undefined ? 'default' : 'held')),
      covariance: null,
      plausible: record((name) =>
        held[name] !== undefined || (name === 'steepness' && !usesSteepness)
          ? null
          : parameters[name].range,
      ),
      completion95Minutes: { ...exactly(minutes), ...NAMED_BATH },
      comparison: [],
      weight: 1,
      rivals: [],
    },
    treated: [],
    baseFogChange: null,
    testedDoses: null,
    warnings: [
      warning('dose-response-default'),
      ...(held.maximumGain === undefined
        ? [
            warning('value-unverified', {
              what: `built-in gain of ${defaults.name.toLowerCase()}`,
              source: parameters.maximumGain.provenance.known,
            }),
          ]
        : []),
    ],
  };
}
