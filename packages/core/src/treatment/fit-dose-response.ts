/**
 * Gain against dose, fitted to the gains of treated strips.
 *
 *   minimise  (k - k(E; p))' C^-1 (k - k(E; p))
 *
 * C is the covariance of the gains. A parameter is fitted where the trials can tell it and keeps its
 * built-in value, said so, where they cannot: the greatest gain needs one trial, the half dose two
 * different doses, the concentration exponent two dilutions and the temperature coefficient two
 * temperatures, each with trials to spare. A parameter that the user holds stays where it is held. Families are compared by chi-square + 2 p; first order,
 * or whatever family is built in, is kept unless another is lower by more than 2.
 *
 * Sources: [Seber2003] section 2.1 for generalised least squares; [BA2002] section 2.2.
 * Deviations: when the gains scatter more than their errors allow, the errors are scaled up.
 */
import type { Estimate } from '../estimate.ts';
import { leastSquares, type LeastSquaresFit } from '../fitting/index.ts';
import { warning, type Warning } from '../warning.ts';
import { COMPLETE, NAMED_BATH } from './default-model.ts';
import { dose as doseOf, minutesForDose, type Bath } from './dose.ts';
import { deltaError, errorAmongRivals, gainPoint } from './gain-at-dose.ts';

import { checkedHeld, record, RESPONSE_BOUNDS } from './held-response.ts';
import { doseForResponse, RESPONSE_FAMILIES, type ResponseFamily } from './response.ts';
import {
  RESPONSE_PARAMETERS,
  type DoseResponse,
  type HeldResponse,
  type ParameterOrigin,
  type ResponseParameter,
  type RivalResponse,
  type SeleniumDefaults,
} from './treatment-model.ts';
import { whitener } from './whitener.ts';

/** Gains of strips at their baths. */
export interface GainsAtBaths {
  readonly baths: readonly Bath[];
  readonly gains: readonly Estimate[];
  /** Row-major covariance of the gains. */
  readonly covariance: readonly number[];
}

export interface DoseResponseFit {
  readonly doseResponse: DoseResponse;
  readonly warnings: readonly Warning[];
}

/** Standard errors beyond which a parameter counts as not told by the trials. */
const TOLD: Readonly<Record<ResponseParameter, (value: number) => number>> = {
  maximumGain: () => 0.25,
  halfDose: (value) => 0.75 * value,
  steepness: (value) => 0.5 * value,
  concentrationExponent: () => 0.4,
  temperatureCoefficient: (value) => 0.4 * value,
};
const MARKEDLY = 2;
/** Rivals of less weight than this are not carried along. */
const LEAST_WEIGHT = 0.02;

interface Candidate {
  readonly family: ResponseFamily;
  readonly free: readonly boolean[];
  readonly fit: LeastSquaresFit;
  readonly criterion: number;
}

/**
 * Fits the dose-response.
 *
 * @param data - gains with covariance and baths, at least one
 * @param defaults - built-in values for what the trials do not tell
 * @param family - the family, or `automatic` to compare all where the trials allow it
 * @param held - parameters that are not fitted, with their values
 * @returns parameters with errors and origins, and warnings for what was not told
 * @throws InvalidArgumentError if a held value is out of range
 */
export function fitDoseResponse(
  data: GainsAtBaths,
  defaults: SeleniumDefaults,
  family: ResponseFamily | 'automatic' = 'automatic',
  held: HeldResponse = {},
): DoseResponseFit {
  checkedHeld(held);
  const warnings: Warning[] = [];
  const wanted = freeByDesign(data.baths, defaults, held);
  const families =
    family !== 'automatic'
      ? [family]
      : wanted.spare > 0 && (wanted.free[1] === true || held.halfDose !== undefined)
        ? RESPONSE_FAMILIES
        : [defaults.family];
  const candidates = families.map((name) => reduced(name, data, defaults, wanted, held));
  const best = candidates.reduce((a, b) => (b.criterion < a.criterion ? b : a));
  const plain = candidates.find((c) => c.family === defaults.family);
  const chosen = plain && plain.criterion <= best.criterion + MARKEDLY ? plain : best;

  if (chosen.free[1] !== true && held.halfDose === undefined) {
    warnings.push(
      warning(wanted.free[1] === true ? 'dose-response-not-determined' : 'dose-response-default'),
    );
  }
  return { doseResponse: described(chosen, candidates, data, defaults, held), warnings };
}

/** Which parameters the design of the trials could tell, and how many trials are to spare. */
function freeByDesign(
  baths: readonly Bath[],
  { parameters }: SeleniumDefaults,
  held: HeldResponse,
): { free: boolean[]; spare: number } {
  const exponents = record((name) => held[name] ?? parameters[name].value);
  const doses = distinctValues(
    baths.map((bath) => doseOf(bath, exponents)),
    (a, b) => Math.abs(a - b) <= 0.05 * Math.max(a, b),
  );
  const dilutions = distinctValues(
    baths.map((bath) => bath.partsWater),
    (a, b) => Math.abs(a - b) < 0.2 * (1 + Math.min(a, b)),
  );
  const temperatures = distinctValues(
    baths.map((bath) => bath.celsius),
    (a, b) => Math.abs(a - b) < 2,
  );
  const trials = distinctValues(
    baths.map((bath) => `${bath.partsWater} ${bath.minutes} ${bath.celsius}`),
    (a, b) => a === b,
  );
  const isHeld = RESPONSE_PARAMETERS.map((name) => held[name] !== undefined);
  const free = [isHeld[0] !== true, doses >= 2 && isHeld[1] !== true, false, false, false];
  // With gain and rate both held, even the first trial is one to spare.
  let spare = trials - free.filter(Boolean).length;
  const rateIsKnown = free[1] === true || isHeld[1] === true;
  [dilutions, temperatures].forEach((kinds, i) => {
    if (!rateIsKnown || kinds < 2 || spare < 1 || isHeld[3 + i] === true) return;
    free[3 + i] = true;
    spare--;
  });
  return { free, spare };
}

/** Fits a family; parameters that the trials do not tell go back to their defaults one by one. */
function reduced(
  family: ResponseFamily,
  data: GainsAtBaths,
  defaults: SeleniumDefaults,
  wanted: { readonly free: readonly boolean[]; readonly spare: number },
  held: HeldResponse,
): Candidate {
  const free = [...wanted.free];
  if (family === 'hill' || family === 'weibull') {
    free[2] = wanted.spare >= 1 && held.steepness === undefined;
  }
  for (;;) {
    const candidate = fitFamily(family, data, defaults, free, held);
    const { fit } = candidate;
    // The order in which parameters are given up: the finest first.
    const vague = [2, 4, 3, 1].find((j) => {
      if (free[j] !== true) return false;
      const error = fit.standardErrors[j] ?? null;
      const name = RESPONSE_PARAMETERS[j] ?? 'halfDose';
      const limit = TOLD[name](fit.parameters[j] ?? 1);
      const settled = fit.report.status === 'converged' && fit.atBound[j] !== true;
      return !settled || error === null || !(error <= limit);
    });
    if (vague === undefined) return candidate;
    free[vague] = false;
  }
}

function fitFamily(
  family: ResponseFamily,
  { baths, gains, covariance }: GainsAtBaths,
  defaults: SeleniumDefaults,
  free: readonly boolean[],
  held: HeldResponse,
): Candidate {
  const count = gains.length;
  const whiten = whitener(covariance, count);
  const start = RESPONSE_PARAMETERS.map((name) => held[name] ?? defaults.parameters[name].value);
  const strongest = Math.max(...gains.map((gain) => gain.value));
  const weakest = Math.min(...gains.map((gain) => gain.value));
  if (free[0] === true) {
    start[0] = Math.min(9, Math.max(0.05, strongest >= 1 ? strongest : weakest));
  }
  const size = start.length;
  const fit = leastSquares(
    {
      residualCount: count,
      start,
      lower: RESPONSE_PARAMETERS.map((name) => RESPONSE_BOUNDS[name][0]),
      upper: RESPONSE_PARAMETERS.map((name) => RESPONSE_BOUNDS[name][1]),
      fixed: free.map((isFree) => !isFree),
      evaluate: (parameters, residuals, jacobian) => {
        baths.forEach((bath, i) => {
          const point = gainPoint(family, parameters, bath);
          residuals[i] = point.gain - (gains[i]?.value ?? 1);
          point.byParameter.forEach((derivative, j) => {
            jacobian[i * size + j] = derivative;
          });
        });
        whiten(residuals, 1);
        whiten(jacobian, size);
      },
    },
    { weightKind: 'absolute' },
  );
  const parameters = free.filter(Boolean).length;
  return { family, free, fit, criterion: fit.residualSumOfSquares + 2 * parameters };
}

function described(
  chosen: Candidate,
  candidates: readonly Candidate[],
  { baths }: GainsAtBaths,
  defaults: SeleniumDefaults,
  held: HeldResponse,
): DoseResponse {
  const { family, free, fit } = chosen;
  const covariance = scaledCovariance(fit);
  const weights = akaikeWeights(candidates);
  const weight = weights[candidates.indexOf(chosen)] ?? 1;
  const rivals = candidates.flatMap((candidate, i): RivalResponse[] =>
    candidate === chosen || (weights[i] ?? 0) < LEAST_WEIGHT || !settled(candidate)
      ? []
      : [
          {
            family: candidate.family,
            parameters: candidate.fit.parameters,
            covariance: scaledCovariance(candidate.fit),
            weight: weights[i] ?? 0,
          },
        ],
  );
  const shared = { covariance, weight, rivals };
  const estimate = (j: number): Estimate => {
    const value = fit.parameters[j] ?? NaN;
    if (free[j] !== true) return { value, standardError: null };
    const unit = RESPONSE_PARAMETERS.map((_, i) => (i === j ? 1 : 0));
    // The greatest gain and the half dose mean the same in every family; a steepness does not.
    const standardError =
      j === 2
        ? deltaError(covariance, unit)
        : errorAmongRivals(shared, value, unit, (rival) => ({
            value: rival.parameters[j] ?? value,
            byParameter: unit,
          }));
    return { value, standardError };
  };
  const usesSteepness = family === 'hill' || family === 'weibull';
  const origin = record((name, j): ParameterOrigin =>
    held[name] !== undefined ? 'held' : free[j] === true ? 'fitted' : 'default',
  );
  const plausible = record((name, j) =>
    free[j] === true || held[name] !== undefined || (name === 'steepness' && !usesSteepness)
      ? null
      : defaults.parameters[name].range,
  );
  const [maximumGain, halfDose, steepness, concentrationExponent, temperatureCoefficient] = [
    estimate(0),
    estimate(1),
    estimate(2),
    estimate(3),
    estimate(4),
  ];
  const bath = commonBath(baths);
  const exponents = {
    concentrationExponent: concentrationExponent.value,
    temperatureCoefficient: temperatureCoefficient.value,
  };
  const minutes = (halfDoseValue: number): number =>
    minutesForDose(
      doseForResponse(COMPLETE, { family, halfDose: halfDoseValue, steepness: steepness.value }),
      bath,
      exponents,
    );
  const value = minutes(halfDose.value);
  return {
    family,
    maximumGain,
    halfDose,
    steepness,
    concentrationExponent,
    temperatureCoefficient,
    origin,
    plausible,
    completion95Minutes: {
      value,
      // Minutes to completion are proportional to the half dose in every family.
      standardError:
        halfDose.standardError === null ? null : (value * halfDose.standardError) / halfDose.value,
      ...bath,
    },
    comparison: candidates.map((candidate, i) => ({
      name: candidate.family,
      freeParameters: candidate.free.filter(Boolean).length,
      criterion: candidate.criterion,
      weight: weights[i] ?? 0,
    })),
    ...shared,
  };
}

/** Covariance, scaled up where the gains scatter more than their errors allow. */
function scaledCovariance(fit: LeastSquaresFit): number[] {
  const excess =
    fit.degreesOfFreedom > 0 ? Math.max(1, fit.residualSumOfSquares / fit.degreesOfFreedom) : 1;
  return (fit.covariance ?? zeros(25)).map((c) => c * excess);
}

function settled({ fit }: Candidate): boolean {
  return fit.report.status === 'converged' && !fit.atBound.some(Boolean);
}

/** The dilution and temperature that all trials share, else 1+1 at 20 °C. */
function commonBath(baths: readonly Bath[]): { partsWater: number; celsius: number } {
  const first = baths[0];
  const same =
    first !== undefined &&
    baths.every((b) => b.partsWater === first.partsWater && b.celsius === first.celsius);
  return same ? { partsWater: first.partsWater, celsius: first.celsius } : NAMED_BATH;
}

function akaikeWeights(candidates: readonly Candidate[]): number[] {
  const best = Math.min(...candidates.map((c) => c.criterion));
  const likelihoods = candidates.map((c) => Math.exp((best - c.criterion) / 2));
  const total = likelihoods.reduce((sum, value) => sum + value, 0);
  return likelihoods.map((likelihood) => likelihood / total);
}

const zeros = (count: number): number[] => Array.from({ length: count }, () => 0);

function distinctValues<T>(values: readonly T[], same: (a: T, b: T) => boolean): number {
  const kept: T[] = [];
  for (const value of values) if (!kept.some((other) => same(other, value))) kept.push(value);
  return kept.length;
}
