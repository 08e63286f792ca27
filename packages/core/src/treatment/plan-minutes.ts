/**
 * How sure the minutes of a plan are.
 *
 *   k(t; p) = k wanted:   dt/dp = -(∂k/∂p) / (∂k/∂t)
 *
 * and the same with the completion R in place of k, where the plan is to go to the practical end of
 * the bath. An error s of the gain that is wanted adds s / (∂k/∂t).
 *
 * Sources: [Seber2003] section 5.1, the delta method. Deviations: built-in parameters have no error
 * but a plausible range; the minutes that each end of each range would need are combined in
 * quadrature with two standard errors of the fitted ones, on a logarithmic scale.
 */
import { minutesForDose } from './dose.ts';
import { errorAmongRivals, gainPoint, movedTo, parametersOf } from './gain-at-dose.ts';
import { doseForResponse, type ResponseFamily } from './response.ts';
import { RESPONSE_PARAMETERS, type DoseResponse } from './treatment-model.ts';

/** What the bath is to reach: a gain, or a part of its whole change. */
export type BathAim = { readonly gain: number } | { readonly completion: number };

export interface MinutesError {
  /** Null where nothing was fitted. */
  readonly standardError: number | null;
  /** Least and greatest minutes that may well be needed; null where the aim may be out of reach. */
  readonly plausible: readonly [number, number | null];
}

type Still = { readonly partsWater: number; readonly celsius: number };

/**
 * Error and plausible interval of planned minutes.
 *
 * @param doseResponse - fitted or built-in
 * @param minutes - the planned minutes, above zero
 * @param bath - dilution and temperature
 * @param aim - what the minutes are to reach
 * @param gainError - standard error of the gain that is aimed at; 0 where the aim is exact
 */
export function minutesError(
  doseResponse: DoseResponse,
  minutes: number,
  bath: Still,
  aim: BathAim,
  gainError = 0,
): MinutesError {
  const parameters = parametersOf(doseResponse);
  const derivatives = (family: ResponseFamily, values: readonly number[], at: number): number[] => {
    const point = gainPoint(family, values, { ...bath, minutes: at });
    const h = 1e-4 * at;
    const beside = gainPoint(family, values, { ...bath, minutes: at + h });
    const [by, slope] =
      'gain' in aim
        ? [point.byParameter, (beside.gain - point.gain) / h]
        : [point.responseByParameter, (beside.response - point.response) / h];
    return by.map((derivative) => -derivative / slope);
  };
  const byBath = errorAmongRivals(
    doseResponse,
    minutes,
    derivatives(doseResponse.family, parameters, minutes),
    (rival) => {
      const value = minutesFor(rival.family, rival.parameters, bath, aim);
      // A rival that never gets there says nothing about when.
      return value === null
        ? { value: minutes, byParameter: RESPONSE_PARAMETERS.map(() => 0) }
        : { value, byParameter: derivatives(rival.family, rival.parameters, value) };
    },
  );

  const byAim = gainError === 0 ? 0 : gainError * minutesPerGain(doseResponse, minutes, bath);
  const standardError = byBath === null && byAim === 0 ? null : Math.hypot(byBath ?? 0, byAim);

  const own = standardError === null ? 0 : Math.log1p((2 * standardError) / minutes);
  // Minutes that each end of each plausible range would need; Infinity where it never gets there.
  const ratios = RESPONSE_PARAMETERS.flatMap((name, j) =>
    (doseResponse.plausible[name] ?? []).map((limit) => {
      const values = movedTo(doseResponse, parameters, j, limit);
      return (minutesFor(doseResponse.family, values, bath, aim) ?? Infinity) / minutes;
    }),
  );
  const spread = (side: readonly number[]): number =>
    Math.hypot(own, ...side.map((ratio) => Math.log(ratio)));
  const up = spread(ratios.filter((ratio) => ratio > 1));
  return {
    standardError,
    plausible: [
      minutes * Math.exp(-spread(ratios.filter((ratio) => ratio < 1))),
      up < Infinity ? minutes * Math.exp(up) : null,
    ],
  };
}

/** Minutes that one more unit of gain takes at the planned time. */
function minutesPerGain(doseResponse: DoseResponse, minutes: number, bath: Still): number {
  const gain = (at: number): number =>
    gainPoint(doseResponse.family, parametersOf(doseResponse), { ...bath, minutes: at }).gain;
  const h = 1e-4 * minutes;
  return h / Math.abs(gain(minutes + h) - gain(minutes));
}

/** Minutes for an aim, or null where the bath never gets there. */
function minutesFor(
  family: ResponseFamily,
  parameters: readonly number[],
  bath: Still,
  aim: BathAim,
): number | null {
  const [maximumGain = 1, halfDose = 1, steepness = 1, n = 1, q = 1] = parameters;
  const part = 'gain' in aim ? (aim.gain - 1) / (maximumGain - 1) : aim.completion;
  if (!(part > 0 && part < 1)) return null;
  return minutesForDose(doseForResponse(part, { family, halfDose, steepness }), bath, {
    concentrationExponent: n,
    temperatureCoefficient: q,
  });
}
