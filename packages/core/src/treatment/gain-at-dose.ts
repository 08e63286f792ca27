/**
 * Gain of a bath by a dose-response, with its derivatives, error and plausible interval.
 *
 *   k = 1 + (k_max - 1) R(E),  E = t c^n q^((T - 20)/10)
 *   dE/dn = E ln c,  dE/dq = E (T - 20) / (10 q)
 *
 * Sources: [Seber2003] section 5.1, the delta method; [BA2002] section 4.3.2, errors that include the
 * choice of the model. Deviations: where parameters are built in,
 * their plausible ranges stand in for errors: deviations by each are combined in quadrature with two
 * standard errors of the fitted ones.
 */
import type { Estimate } from '../estimate.ts';
import { quadraticForm, unconditionalError } from '../fitting/index.ts';
import { concentrationOf, dose as doseOf, doseRate, REFERENCE_CELSIUS, type Bath } from './dose.ts';
import { responseDerivatives, type ResponseFamily } from './response.ts';
import { RESPONSE_PARAMETERS, type DoseResponse, type RivalResponse } from './treatment-model.ts';

/** Gain and its derivative by each of `RESPONSE_PARAMETERS`. */
export interface GainPoint {
  readonly gain: number;
  readonly response: number;
  readonly dose: number;
  readonly byParameter: readonly number[];
  /** Derivative of the response alone by each parameter. */
  readonly responseByParameter: readonly number[];
}

/**
 * Gain at a bath for given parameters.
 *
 * @param parameters - in the order of `RESPONSE_PARAMETERS`
 * @throws InvalidArgumentError if a value is out of range
 */
export function gainPoint(
  family: ResponseFamily,
  parameters: ArrayLike<number>,
  bath: Bath,
): GainPoint {
  const [maximumGain = 1, halfDose = 1, steepness = 1, n = 1, q = 1] = Array.from(parameters);
  const dose = doseOf(bath, { concentrationExponent: n, temperatureCoefficient: q });
  const r = responseDerivatives(dose, { family, halfDose, steepness });
  const rise = maximumGain - 1;
  const byDose = r.byDose * dose;
  const responseByParameter = [
    0,
    r.byHalfDose,
    r.bySteepness,
    byDose * Math.log(concentrationOf(bath.partsWater)),
    (byDose * (bath.celsius - REFERENCE_CELSIUS)) / (10 * q),
  ];
  return {
    gain: 1 + rise * r.value,
    response: r.value,
    dose,
    responseByParameter,
    byParameter: responseByParameter.map((d, j) => (j === 0 ? r.value : rise * d)),
  };
}

/** What a bath does by a model. */
export interface BathGain {
  readonly dose: number;
  readonly gain: Estimate;
  /** Part of the whole change that is done, 0 to 1. */
  readonly completion: Estimate;
  /** Interval that the gain may well lie in, with the ranges of built-in parameters. */
  readonly plausibleGain: readonly [number, number];
}

/**
 * Gain of a bath by a model's dose-response.
 *
 * @param doseResponse - fitted or built-in
 * @param bath - dilution, minutes, temperature
 * @returns gain and completion with standard errors (null where nothing was fitted), and the
 *   plausible interval
 * @throws InvalidArgumentError if the bath is out of range
 */
export function gainAtBath(doseResponse: DoseResponse, bath: Bath): BathGain {
  const { family, plausible } = doseResponse;
  const parameters = parametersOf(doseResponse);
  const point = gainPoint(family, parameters, bath);
  const standardError = errorAmongRivals(doseResponse, point.gain, point.byParameter, (rival) => {
    const other = gainPoint(rival.family, rival.parameters, bath);
    return { value: other.gain, byParameter: other.byParameter };
  });
  let down = (2 * (standardError ?? 0)) ** 2;
  let up = down;
  RESPONSE_PARAMETERS.forEach((name, j) => {
    for (const limit of plausible[name] ?? []) {
      const moved = gainPoint(family, movedTo(doseResponse, parameters, j, limit), bath).gain;
      const deviation = (moved - point.gain) ** 2;
      if (moved < point.gain) down += deviation;
      else up += deviation;
    }
  });
  return {
    dose: point.dose,
    gain: { value: point.gain, standardError },
    completion: {
      value: point.response,
      standardError: errorAmongRivals(
        doseResponse,
        point.response,
        point.responseByParameter,
        (rival) => {
          const other = gainPoint(rival.family, rival.parameters, bath);
          return { value: other.response, byParameter: other.responseByParameter };
        },
      ),
    },
    plausibleGain: [point.gain - Math.sqrt(down), point.gain + Math.sqrt(up)],
  };
}

/**
 * The parameters with one of them moved. The half dose was found at some bath with the exponents as
 * they stood, so when an exponent moves, the half dose moves with it and that bath's gain stays.
 */
export function movedTo(
  doseResponse: DoseResponse,
  parameters: readonly number[],
  index: number,
  value: number,
): number[] {
  const moved = parameters.map((own, i) => (i === index ? value : own));
  const rate = ([, , , n = 1, q = 1]: readonly number[]): number =>
    doseRate(doseResponse.completion95Minutes, {
      concentrationExponent: n,
      temperatureCoefficient: q,
    });
  const factor = rate(moved) / rate(parameters);
  return moved.map((own, i) => (i === 1 ? own * factor : own));
}

/** Parameter values in the order of `RESPONSE_PARAMETERS`. */
export function parametersOf(doseResponse: DoseResponse): number[] {
  return RESPONSE_PARAMETERS.map((name) => doseResponse[name].value);
}

/**
 * Standard error that includes the choice of the family: the root of the weighted mean of
 * variance and squared departure over this family and its rivals; null where nothing was fitted.
 */
export function errorAmongRivals(
  doseResponse: Pick<DoseResponse, 'covariance' | 'weight' | 'rivals'>,
  value: number,
  byParameter: readonly number[],
  ofRival: (rival: RivalResponse) => { value: number; byParameter: readonly number[] },
): number | null {
  return unconditionalError(
    {
      value,
      derivatives: byParameter,
      covariance: doseResponse.covariance,
      weight: doseResponse.weight,
    },
    doseResponse.rivals.map((rival) => {
      const other = ofRival(rival);
      return {
        value: other.value,
        derivatives: other.byParameter,
        covariance: rival.covariance,
        weight: rival.weight,
      };
    }),
  );
}

/** sqrt(g' C g), or null without a covariance. */
export function deltaError(
  covariance: readonly number[] | null,
  derivatives: readonly number[],
): number | null {
  return covariance === null ? null : Math.sqrt(quadraticForm(derivatives, covariance));
}
