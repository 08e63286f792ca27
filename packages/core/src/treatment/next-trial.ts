/**
 * The trial piece that would tell most next.
 *
 *   prior      each parameter by its plausible range, taken as four standard deviations
 *   trial      gain k(E; p) with error s, linearised: C -> C - C g g' C / (s² + g' C g)
 *   criterion  standard error of the gain at the bath that is planned, after the trial
 *
 * Sources: [CV1995] the expected gain of a linearised design, for one quantity of interest.
 * Deviations: the prior is the plausible range of the built-in numbers, and the law is linearised at
 * the present parameters.
 */
import { InvalidArgumentError } from '../errors.ts';
import { covarianceAfterObservation, quadraticForm } from '../fitting/index.ts';
import { dose as doseOf, type Bath } from './dose.ts';
import { gainPoint, parametersOf } from './gain-at-dose.ts';
import {
  RESPONSE_PARAMETERS,
  type SeleniumDefaults,
  type TreatmentModel,
} from './treatment-model.ts';

export interface NextTrialOptions {
  /** Baths to choose from; a grid of 1+1 … 1+9 and 1 to 16 minutes at the planned temperature unless given. */
  readonly candidates?: readonly Bath[];
  /** Standard error with which the trial will tell its gain; 0.015, two spots read twice, unless given. */
  readonly gainError?: number;
}

/** What one more trial would buy. */
export interface TrialValue {
  readonly bath: Bath;
  readonly dose: number;
  /** Gain that is expected of the trial. */
  readonly expectedGain: number;
  /** Standard error of the gain at the planned bath after this trial. */
  readonly errorAfter: number;
}

export interface NextTrial {
  /** Standard error of the gain at the planned bath now, built-in ranges included. */
  readonly errorNow: number;
  /** Trials, the most telling first. */
  readonly trials: readonly TrialValue[];
}

/**
 * Ranks trials by what they tell about a planned bath.
 *
 * @param model - fitted or built-in
 * @param defaults - built-in ranges, from @wedgebook/data
 * @param planned - the bath of which the gain matters
 * @param options - candidates, error of a trial
 * @throws InvalidArgumentError if the error is not above zero, or there is no candidate
 * @source [CV1995]
 */
export function nextTrial(
  model: TreatmentModel,
  defaults: SeleniumDefaults,
  planned: Bath,
  options: NextTrialOptions = {},
): NextTrial {
  const { candidates = gridOf(planned.celsius), gainError = 0.015 } = options;
  if (!(gainError > 0 && gainError < 1)) {
    throw new InvalidArgumentError('nextTrial', 'gainError', gainError, 'in (0, 1)');
  }
  if (candidates.length === 0) {
    throw new InvalidArgumentError('nextTrial', 'candidates', candidates, 'at least one bath');
  }
  const { doseResponse } = model;
  const { family } = doseResponse;
  const parameters = parametersOf(doseResponse);
  const gradient = (bath: Bath): readonly number[] =>
    gainPoint(family, parameters, bath).byParameter;

  const size = RESPONSE_PARAMETERS.length;
  const prior = Array.from({ length: size * size }, () => 0);
  RESPONSE_PARAMETERS.forEach((name, j) => {
    const [low, high] = defaults.parameters[name].range;
    // What the user holds is not in doubt.
    if (doseResponse.origin[name] !== 'held') prior[j * size + j] = ((high - low) / 4) ** 2;
  });
  const now = model.treated.reduce((covariance, { partsWater, bathMinutes, bathCelsius, gain }) => {
    const bath = { partsWater, minutes: bathMinutes, celsius: bathCelsius };
    return covarianceAfterObservation(covariance, gradient(bath), gain.standardError ?? gainError);
  }, prior);

  const wanted = gradient(planned);
  const exponents = {
    concentrationExponent: doseResponse.concentrationExponent.value,
    temperatureCoefficient: doseResponse.temperatureCoefficient.value,
  };
  const trials = candidates.map((bath): TrialValue => {
    const after = covarianceAfterObservation(now, gradient(bath), gainError);
    return {
      bath,
      dose: doseOf(bath, exponents),
      expectedGain: gainPoint(family, parameters, bath).gain,
      errorAfter: Math.sqrt(quadraticForm(wanted, after)),
    };
  });
  return {
    errorNow: Math.sqrt(quadraticForm(wanted, now)),
    trials: trials.sort((a, b) => a.errorAfter - b.errorAfter),
  };
}

function gridOf(celsius: number): Bath[] {
  return [1, 3, 5, 9].flatMap((partsWater) =>
    [1, 2, 4, 8, 16].map((minutes) => ({ partsWater, minutes, celsius })),
  );
}
