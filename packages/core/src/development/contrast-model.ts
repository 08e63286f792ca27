/**
 * Contrast against development time, as plain data, and its values.
 *
 *   first-order   c = c_inf (1 - exp(-k (τ - t0)))      parameters c_inf, k, t0, q
 *   log-linear    c = a + s ln τ                        parameters a, s, q
 *   τ = t q^((T - T_ref) / 10)
 *
 * Sources: [SM1907] the law, [GLAFKIDES] with delay, [FH1905] the temperature. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';
import { unconditionalError } from '../fitting/index.ts';
import type { Warning } from '../warning.ts';
import { inRange } from './temperature.ts';

export type ContrastFamily = 'first-order' | 'log-linear';

/** Where the model comes from: enough strips, two with an assumed delay, or one and a guess. */
export type ContrastBasis = 'fitted' | 'two-times' | 'scaled-guess';

/** A form of the model with its errors. */
export interface ContrastForm {
  readonly family: ContrastFamily;
  /** Parameters in the order above; the temperature coefficient is the last. */
  readonly parameters: readonly number[];
  /** Row-major covariance, zero for what was given or assumed; null where nothing tells it. */
  readonly covariance: readonly number[] | null;
  /** Akaike weight among the forms compared, 0 to 1. */
  readonly weight: number;
}

export interface ContrastModel extends ContrastForm {
  readonly basis: ContrastBasis;
  readonly referenceCelsius: number;
  /** c_inf; null for the log-linear family, which has no limit. */
  readonly contrastInfinity: Estimate | null;
  /** k per minute, or the slope by ln t of the log-linear family. */
  readonly rate: Estimate;
  /** t0 in minutes at the reference temperature; for the log-linear family the time of contrast 0. */
  readonly delayMinutes: Estimate;
  readonly temperatureCoefficient: Estimate & { readonly origin: 'fitted' | 'given' };
  /** Shortest and longest time tried, minutes at the reference temperature. */
  readonly testedMinutes: readonly [number, number];
  readonly residualStandardDeviation: number | null;
  /** ω that the errors count beside those of the strips; see `timing-deviation.ts`. */
  readonly timingDeviation: number;
  /** Why this family. */
  readonly reason: 'asked-for' | 'only-one-possible' | 'plainest' | 'better';
  /** The other form where the strips hardly tell it from this one; it widens every error. */
  readonly rivals: readonly ContrastForm[];
  readonly warnings: readonly Warning[];
}

/** Contrast with its derivatives. */
export interface ContrastPoint {
  readonly value: number;
  readonly byMinutes: number;
  readonly byParameter: readonly number[];
}

/**
 * Contrast of a form at a time and temperature.
 *
 * @param minutes - development time, > 0
 * @param celsius - temperature, 0 to 60 °C
 * @param referenceCelsius - temperature at which the parameters hold
 * @throws InvalidArgumentError if an argument is out of range
 */
export function contrastPoint(
  { family, parameters }: Pick<ContrastForm, 'family' | 'parameters'>,
  minutes: number,
  celsius: number,
  referenceCelsius: number,
): ContrastPoint {
  if (!(minutes > 0 && minutes < Infinity)) {
    throw new InvalidArgumentError('contrastAt', 'minutes', minutes, 'above zero');
  }
  const tens = (inRange('contrastAt', celsius) - referenceCelsius) / 10;
  const q = parameters.at(-1) ?? 1;
  const speed = q ** tens;
  const time = minutes * speed;
  if (family === 'log-linear') {
    const [a = 0, slope = 0] = parameters;
    const log = Math.log(time);
    return {
      value: a + slope * log,
      byMinutes: slope / minutes,
      byParameter: [1, log, (slope * tens) / q],
    };
  }
  const [limit = 0, rate = 0, delay = 0] = parameters;
  const left = Math.exp(-rate * (time - delay));
  const byTime = limit * rate * left;
  return {
    value: limit * (1 - left),
    byMinutes: byTime * speed,
    byParameter: [1 - left, limit * left * (time - delay), -byTime, (byTime * time * tens) / q],
  };
}

/** Time at which a form reaches a contrast, minutes at the temperature; null beyond its limit. */
export function minutesOfForm(
  { family, parameters }: Pick<ContrastForm, 'family' | 'parameters'>,
  contrast: number,
  celsius: number,
  referenceCelsius: number,
): number | null {
  const q = parameters.at(-1) ?? 1;
  const speed = q ** ((celsius - referenceCelsius) / 10);
  if (family === 'log-linear') {
    const [a = 0, slope = 0] = parameters;
    const minutes = Math.exp((contrast - a) / slope) / speed;
    // A law almost level has no time that a number can hold.
    return minutes > 0 && minutes < Infinity ? minutes : null;
  }
  const [limit = 0, rate = 0, delay = 0] = parameters;
  if (!(contrast < limit)) return null;
  const time = delay - Math.log1p(-contrast / limit) / rate;
  return time > 0 ? time / speed : null;
}

/**
 * Contrast at a development time, with an error that includes the choice of the family.
 *
 * @param model - fitted model
 * @param minutes - development time, > 0
 * @param celsius - temperature, the model's reference unless given
 * @throws InvalidArgumentError if an argument is out of range
 */
export function contrastAt(
  model: ContrastModel,
  minutes: number,
  celsius = model.referenceCelsius,
): Estimate {
  const { value, byParameter } = contrastPoint(model, minutes, celsius, model.referenceCelsius);
  return {
    value,
    standardError: errorAmong(model, value, byParameter, (rival) =>
      contrastPoint(rival, minutes, celsius, model.referenceCelsius),
    ),
  };
}

/** A development time for a contrast, or why there is none. */
export type MinutesForContrast =
  | { readonly status: 'ok'; readonly minutes: Estimate }
  | {
      readonly status: 'not-reachable';
      /** Contrast that the film tends to; null for a law without a limit. */
      readonly limit: number | null;
    };

/**
 * Development time for a contrast.
 *
 * @param model - fitted model
 * @param contrast - wanted contrast, > 0
 * @param celsius - temperature, the model's reference unless given
 * @returns minutes with an error that includes the choice of the family; `not-reachable` at or
 *   beyond the contrast that the film tends to
 * @throws InvalidArgumentError if an argument is out of range
 */
export function minutesForContrast(
  model: ContrastModel,
  contrast: number,
  celsius = model.referenceCelsius,
): MinutesForContrast {
  if (!(contrast > 0 && contrast < Infinity)) {
    throw new InvalidArgumentError('minutesForContrast', 'contrast', contrast, 'above zero');
  }
  inRange('minutesForContrast', celsius);
  const minutes = minutesOfForm(model, contrast, celsius, model.referenceCelsius);
  if (minutes === null || !Number.isFinite(minutes)) {
    return { status: 'not-reachable', limit: model.contrastInfinity?.value ?? null };
  }
  const timeDerivatives = (form: ContrastForm, at: number): number[] => {
    const point = contrastPoint(form, at, celsius, model.referenceCelsius);
    return point.byParameter.map((derivative) => -derivative / point.byMinutes);
  };
  const standardError = errorAmong(model, minutes, timeDerivatives(model, minutes), (rival) => {
    const value = minutesOfForm(rival, contrast, celsius, model.referenceCelsius);
    return value === null || !Number.isFinite(value)
      ? null
      : { value, byParameter: timeDerivatives(rival, value) };
  });
  return { status: 'ok', minutes: { value: minutes, standardError } };
}

/** Delta-method error of a number, widened by the rival forms; null without a covariance. */
function errorAmong(
  model: ContrastModel,
  value: number,
  byParameter: readonly number[],
  ofRival: (rival: ContrastForm) => { value: number; byParameter: readonly number[] } | null,
): number | null {
  return unconditionalError(
    { value, derivatives: byParameter, covariance: model.covariance, weight: model.weight },
    model.rivals.map((rival) => {
      const other = ofRival(rival);
      return (
        other && {
          value: other.value,
          derivatives: other.byParameter,
          covariance: rival.covariance,
          weight: rival.weight,
        }
      );
    }),
  );
}
