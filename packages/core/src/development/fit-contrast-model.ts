/**
 * Contrast against development time, fitted to strips.
 *
 *   minimise  Σ (c_i - c(t_i, T_i; p))² / (s_i² + (ω dc/d ln t)²)
 *
 * s is the error of the contrast as it was read, ω what clock, thermometer and agitation do to the
 * time (`timing-deviation.ts`). The slopes are those of a first fit without ω, the same for every law,
 * so that the laws are compared on one scale.
 *
 * Three or more times settle the first-order law with its delay; two settle it with a given delay;
 * one gives a guess that the contrast is half of what the film can do. The log-linear form is the
 * rival. Both are compared by QAIC, chi-square over its excess + 2 p; the first-order law is kept
 * unless the rival is lower by more than 2, and the loser widens the errors by its weight.
 *
 * Sources: [SM1907], [GLAFKIDES] the law; [BA2002] sections 2.5 and 4.3.2. Deviations: where a
 * contrast has no error of its own, 3 % is assumed; ω is assumed where nothing tells it.
 */
import { InvalidArgumentError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';
import { leastSquares, type LeastSquaresFit } from '../fitting/index.ts';
import { warning, type Warning } from '../warning.ts';
import {
  contrastPoint,
  type ContrastFamily,
  type ContrastForm,
  type ContrastModel,
} from './contrast-model.ts';
import { startOfContrast } from './start-of-contrast.ts';
import { inRange } from './temperature.ts';
import { ASSUMED_TIMING_DEVIATION, checkedTiming, withTiming } from './timing-deviation.ts';

/** Contrast of one strip at its development. */
export interface ContrastReading {
  readonly minutes: number;
  /** Temperature; the reference temperature where it is not known. */
  readonly celsius?: number;
  readonly contrast: Estimate;
}

export interface ContrastModelOptions {
  readonly family?: ContrastFamily | 'automatic';
  /** q for 10 °C where the strips do not tell it. */
  readonly temperatureCoefficient: number;
  /** Temperature at which rate and delay are stated, °C; 20 unless given. */
  readonly referenceCelsius?: number;
  /** Delay assumed with two strips, minutes; 0 unless given. */
  readonly assumedDelayMinutes?: number;
  /** ω, deviation of ln time of a strip; 0.015 unless given, 0 for times that are exact. */
  readonly timingDeviation?: number;
}

export type ContrastModelFit =
  | { readonly status: 'ok'; readonly model: ContrastModel; readonly warnings: readonly Warning[] }
  | {
      readonly status: 'not-determined';
      readonly reason: 'no-strips' | 'one-time-only' | 'contrast-does-not-rise';
      readonly warnings: readonly Warning[];
    };

const ASSUMED_ERROR = 0.03;
/** Part of the film's limit at which a single strip is guessed to stand. */
const GUESSED_PART = 0.5;
const MARKEDLY = 2;

interface Candidate {
  readonly family: ContrastFamily;
  readonly fit: LeastSquaresFit;
  readonly free: number;
  readonly chiSquare: number;
}

/**
 * Fits contrast against time.
 *
 * @param readings - one per strip, any order
 * @param options - family, temperature coefficient, reference temperature, assumed delay
 * @returns the model, or why there is none
 * @throws InvalidArgumentError if a time, temperature or contrast is not a number above zero
 */
export function fitContrastModel(
  readings: readonly ContrastReading[],
  options: ContrastModelOptions,
): ContrastModelFit {
  const { family = 'automatic', temperatureCoefficient: q, referenceCelsius = 20 } = options;
  check(readings, q);
  inRange('fitContrastModel', referenceCelsius);
  const warnings: Warning[] = [];
  const data = readings.map(({ minutes, celsius = referenceCelsius, contrast }) => ({
    minutes,
    celsius,
    contrast,
    time: minutes * q ** ((celsius - referenceCelsius) / 10),
  }));
  const times = differentTimes(data.map(({ time }) => time));
  if (data.length === 0) return { status: 'not-determined', reason: 'no-strips', warnings };
  const tested = data.map(({ time }) => time);
  const range = [Math.min(...tested), Math.max(...tested)] as const;
  if (times.length === 1) {
    return { status: 'ok', ...guessed(data, q, referenceCelsius, range) };
  }
  if (!rises(data)) {
    warnings.push(warning('contrast-falls-with-time'));
    return { status: 'not-determined', reason: 'contrast-does-not-rise', warnings };
  }

  const temperatures = new Set(data.map(({ celsius }) => Math.round(celsius)));
  const spare = times.length - 3;
  const fitsQ = temperatures.size >= 2 && spare >= 1;
  if (temperatures.size >= 2 && !fitsQ) {
    warnings.push(warning('temperature-coefficient-assumed', { coefficient: q }));
  }
  const timing = checkedTiming(
    'fitContrastModel',
    options.timingDeviation ?? ASSUMED_TIMING_DEVIATION,
  );
  const families: readonly ContrastFamily[] =
    family === 'automatic' ? ['first-order', 'log-linear'] : [family];
  const chosenWith = (readings: readonly Datum[]): Choice | null =>
    choose(
      families
        .map((name) => candidate(name, readings, times.length, fitsQ, options, referenceCelsius))
        .filter((c) => c !== null),
      readings.length,
    );
  const first = chosenWith(data);
  const chosen =
    first === null || timing === 0
      ? first
      : (chosenWith(timed(data, first.candidate, timing, referenceCelsius)) ?? first);
  if (chosen === null) {
    warnings.push(warning('contrast-law-impossible'));
    return { status: 'not-determined', reason: 'contrast-does-not-rise', warnings };
  }
  if (times.length === 2 && chosen.candidate.family === 'first-order') {
    warnings.push(warning('delay-assumed', { delay: options.assumedDelayMinutes ?? 0 }));
  }
  const model = described(chosen, {
    count: data.length,
    times: times.length,
    q,
    fitsQ,
    referenceCelsius,
    range,
    asked: family !== 'automatic',
    timing,
    warnings,
  });
  return { status: 'ok', model, warnings };
}

/** The readings with errors that count the timing, by the slopes of a law. */
function timed(
  data: readonly Datum[],
  { family, fit }: Candidate,
  timing: number,
  referenceCelsius: number,
): Datum[] {
  return data.map((datum) => {
    const { minutes, celsius, contrast } = datum;
    const form = { family, parameters: fit.parameters };
    const { byMinutes } = contrastPoint(form, minutes, celsius, referenceCelsius);
    const standardError = withTiming(errorOf(contrast), minutes * byMinutes, timing);
    return { ...datum, contrast: { value: contrast.value, standardError } };
  });
}

/** Times apart by more than a clock can tell, shortest first. */
function differentTimes(times: readonly number[]): number[] {
  const different: number[] = [];
  for (const time of [...times].sort((a, b) => a - b)) {
    const last = different.at(-1);
    if (last === undefined || time > 1.01 * last) different.push(time);
  }
  return different;
}

interface Datum {
  readonly minutes: number;
  readonly celsius: number;
  readonly contrast: Estimate;
  readonly time: number;
}

function candidate(
  family: ContrastFamily,
  data: readonly Datum[],
  times: number,
  fitsQ: boolean,
  options: ContrastModelOptions,
  referenceCelsius: number,
): Candidate | null {
  const q = options.temperatureCoefficient;
  const first = Math.min(...data.map(({ time }) => time));
  const fixedDelay = times === 2 ? (options.assumedDelayMinutes ?? 0) : null;
  const start = startOfContrast(family, data, fixedDelay);
  if (start === null) return null;
  const size = start.length + 1;
  const isFirstOrder = family === 'first-order';
  // A delay before the shortest time, within reason on the other side; q as developers have it.
  const lower = isFirstOrder ? [1e-3, 1e-4, -first, 1] : [-Infinity, 1e-4, 1];
  const upper = isFirstOrder ? [20, 20, 0.999 * first, 6] : [Infinity, 20, 6];
  // Contrasts that nobody would believe start outside the bounds.
  const parameters = [...start, q].map((value, j) =>
    Math.min(upper[j] ?? value, Math.max(lower[j] ?? value, value)),
  );
  const fixed = isFirstOrder ? [false, false, fixedDelay !== null, !fitsQ] : [false, false, !fitsQ];
  const fit = leastSquares(
    {
      residualCount: data.length,
      start: parameters,
      lower,
      upper,
      fixed,
      weights: data.map(({ contrast }) => 1 / errorOf(contrast) ** 2),
      evaluate: (p, residuals, jacobian) => {
        data.forEach(({ minutes, celsius, contrast }, i) => {
          const form = { family, parameters: Array.from(p) };
          const point = contrastPoint(form, minutes, celsius, referenceCelsius);
          residuals[i] = point.value - contrast.value;
          point.byParameter.forEach((derivative, j) => {
            jacobian[i * size + j] = derivative;
          });
        });
      },
    },
    { weightKind: 'absolute' },
  );
  const free = fixed.filter((isFixed) => !isFixed).length;
  const unsettled = fit.report.status === 'not-converged' || fit.report.status === 'too-few-data';
  const atLimit = isFirstOrder && (fit.atBound[0] === true || fit.atBound[1] === true);
  if (unsettled || atLimit) return null;
  return { family, fit, free, chiSquare: fit.residualSumOfSquares };
}

interface Choice {
  readonly candidate: Candidate;
  readonly weight: number;
  readonly rivals: readonly { readonly candidate: Candidate; readonly weight: number }[];
  /** Factor on every covariance: chi-square of the richer form over its degrees of freedom. */
  readonly excess: number;
  readonly reason: ContrastModel['reason'];
}

function choose(candidates: readonly Candidate[], count: number): Choice | null {
  const [one, two] = candidates;
  if (one === undefined) return null;
  const excesses = candidates.map((c) =>
    count > c.free ? c.chiSquare / (count - c.free) : Infinity,
  );
  const least = Math.min(...excesses);
  const excess = Number.isFinite(least) ? Math.max(1, least) : 1;
  if (two === undefined) {
    return { candidate: one, weight: 1, rivals: [], excess, reason: 'only-one-possible' };
  }
  const criterion = (c: Candidate): number => c.chiSquare / excess + 2 * c.free;
  const difference = criterion(two) - criterion(one);
  const weightOfOne = 1 / (1 + Math.exp(-difference / 2));
  const takesTwo = difference < -MARKEDLY;
  const [winner, loser, weight] = takesTwo ? [two, one, 1 - weightOfOne] : [one, two, weightOfOne];
  return {
    candidate: winner,
    weight,
    rivals: [{ candidate: loser, weight: 1 - weight }],
    excess,
    reason: takesTwo ? 'better' : 'plainest',
  };
}

interface Circumstances {
  readonly count: number;
  readonly times: number;
  readonly q: number;
  readonly fitsQ: boolean;
  readonly referenceCelsius: number;
  readonly range: readonly [number, number];
  readonly asked: boolean;
  readonly timing: number;
  readonly warnings: readonly Warning[];
}

function described(choice: Choice, circumstances: Circumstances): ContrastModel {
  const { candidate: chosen, excess } = choice;
  const { fit, family } = chosen;
  const size = fit.parameters.length;
  const covarianceOf = (c: Candidate): number[] | null =>
    c.fit.covariance?.map((value) => value * excess) ?? null;
  const covariance = covarianceOf(chosen);
  const estimate = (j: number): Estimate => {
    const variance = covariance?.[j * size + j] ?? 0;
    return {
      value: fit.parameters[j] ?? NaN,
      standardError: variance > 0 ? Math.sqrt(variance) : null,
    };
  };
  const { count, fitsQ, referenceCelsius, range, warnings } = circumstances;
  const rivals = choice.rivals.map(({ candidate: rival, weight }): ContrastForm => ({
    family: rival.family,
    parameters: rival.fit.parameters,
    covariance: covarianceOf(rival),
    weight,
  }));
  const freedom = count - chosen.free;
  const residuals = fit.residuals.reduce((sum, r) => sum + r * r, 0);
  return {
    family,
    parameters: fit.parameters,
    covariance,
    weight: choice.weight,
    basis: circumstances.times >= 3 ? 'fitted' : 'two-times',
    referenceCelsius,
    contrastInfinity: family === 'first-order' ? estimate(0) : null,
    rate: estimate(1),
    delayMinutes: family === 'first-order' ? estimate(2) : timeOfZero(fit.parameters, covariance),
    temperatureCoefficient: { ...estimate(size - 1), origin: fitsQ ? 'fitted' : 'given' },
    testedMinutes: range,
    timingDeviation: circumstances.timing,
    residualStandardDeviation: freedom > 0 ? Math.sqrt(residuals / freedom) : null,
    reason: circumstances.asked ? 'asked-for' : choice.reason,
    rivals,
    warnings,
  };
}

/** exp(-a/s), the time at which the log-linear contrast is 0. */
function timeOfZero(parameters: readonly number[], covariance: readonly number[] | null): Estimate {
  const [a = 0, slope = 1] = parameters;
  const value = Math.exp(-a / slope);
  if (covariance === null) return { value, standardError: null };
  const byA = -value / slope;
  const bySlope = (value * a) / (slope * slope);
  const variance =
    byA * byA * (covariance[0] ?? 0) +
    2 * byA * bySlope * (covariance[1] ?? 0) +
    bySlope * bySlope * (covariance[4] ?? 0);
  return { value, standardError: Math.sqrt(Math.max(0, variance)) };
}

/** One time only: the contrast is taken as half of what the film can do. */
function guessed(
  data: readonly Datum[],
  q: number,
  referenceCelsius: number,
  range: readonly [number, number],
): { model: ContrastModel; warnings: Warning[] } {
  const mean = data.reduce((sum, { contrast }) => sum + contrast.value, 0) / data.length;
  const limit = mean / GUESSED_PART;
  const rate = -Math.log1p(-GUESSED_PART) / range[0];
  const warnings = [warning('development-scaled-guess', { part: GUESSED_PART })];
  const guess = (value: number): Estimate => ({ value, standardError: null });
  const model: ContrastModel = {
    family: 'first-order',
    parameters: [limit, rate, 0, q],
    covariance: null,
    weight: 1,
    basis: 'scaled-guess',
    referenceCelsius,
    contrastInfinity: guess(limit),
    rate: guess(rate),
    delayMinutes: guess(0),
    temperatureCoefficient: { ...guess(q), origin: 'given' },
    testedMinutes: range,
    residualStandardDeviation: null,
    timingDeviation: 0,
    reason: 'only-one-possible',
    rivals: [],
    warnings,
  };
  return { model, warnings };
}

function errorOf({ value, standardError }: Estimate): number {
  return standardError !== null && standardError > 0
    ? Math.max(standardError, 1e-6)
    : ASSUMED_ERROR * value;
}

/** True when the weighted line of contrast by ln time rises. */
function rises(data: readonly Datum[]): boolean {
  const meanLog = data.reduce((sum, { time }) => sum + Math.log(time), 0) / data.length;
  const slope = data.reduce(
    (sum, { time, contrast }) => sum + (Math.log(time) - meanLog) * contrast.value,
    0,
  );
  return slope > 0;
}

function check(readings: readonly ContrastReading[], q: number): void {
  readings.forEach(({ minutes, celsius, contrast }, i) => {
    if (!(minutes > 0 && minutes < Infinity)) {
      throw new InvalidArgumentError(
        'fitContrastModel',
        `minutes of strip ${i + 1}`,
        minutes,
        'above zero',
      );
    }
    if (!(contrast.value > 0 && contrast.value < Infinity)) {
      throw new InvalidArgumentError(
        'fitContrastModel',
        `contrast of strip ${i + 1}`,
        contrast.value,
        'above zero',
      );
    }
    if (celsius !== undefined) inRange('fitContrastModel', celsius);
  });
  if (!(q >= 1 && q <= 6)) {
    throw new InvalidArgumentError('fitContrastModel', 'temperatureCoefficient', q, 'from 1 to 6');
  }
}
