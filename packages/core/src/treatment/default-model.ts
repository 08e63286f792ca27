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
import type { SeleniumDefaults, TreatmentModel } from './treatment-model.ts';

/** Part of the change that counts as complete. */
export const COMPLETE = 0.95;

/** Bath at which the completion time is stated when there is no better one: 1+1 at 20 °C. */
export const NAMED_BATH = { partsWater: 1, celsius: 20 } as const;

/**
 * The model of a bath before any trial.
 *
 * @param defaults - built-in parameters, from @wedgebook/data
 * @returns proportional law and built-in dose-response, with the warning that it is no measurement
 */
export function defaultTreatment(defaults: SeleniumDefaults): TreatmentModel {
  const { parameters, family } = defaults;
  const response = {
    family,
    halfDose: parameters.halfDose.value,
    steepness: parameters.steepness.value,
  };
  const minutes = minutesForDose(doseForResponse(COMPLETE, response), NAMED_BATH, {
    concentrationExponent: parameters.concentrationExponent.value,
    temperatureCoefficient: parameters.temperatureCoefficient.value,
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
      maximumGain: exactly(parameters.maximumGain.value),
      halfDose: exactly(parameters.halfDose.value),
      steepness: exactly(parameters.steepness.value),
      concentrationExponent: exactly(parameters.concentrationExponent.value),
      temperatureCoefficient: exactly(parameters.temperatureCoefficient.value),
      origin: {
        maximumGain: 'default',
        halfDose: 'default',
        steepness: 'default',
        concentrationExponent: 'default',
        temperatureCoefficient: 'default',
      },
      covariance: null,
      plausible: {
        maximumGain: parameters.maximumGain.range,
        halfDose: parameters.halfDose.range,
        steepness: usesSteepness ? parameters.steepness.range : null,
        concentrationExponent: parameters.concentrationExponent.range,
        temperatureCoefficient: parameters.temperatureCoefficient.range,
      },
      completion95Minutes: { ...exactly(minutes), ...NAMED_BATH },
      comparison: [],
      weight: 1,
      rivals: [],
    },
    treated: [],
    testedDoses: null,
    warnings: [
      warning('dose-response-default'),
      warning('value-unverified', {
        what: `built-in gain of ${defaults.name.toLowerCase()}`,
        source: parameters.maximumGain.provenance.known,
      }),
    ],
  };
}
