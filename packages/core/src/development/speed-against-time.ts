/**
 * Exposure index against development time: the speed point moves to less exposure as development
 * goes on, and the exposure index is read at the very time that is planned.
 *
 *   log H_m = a + b ln τ,   τ = t q^((T - T_ref) / 10),   EI = 0.8 / H_m
 *   error of a strip: s² + (b ω)², ω of clock, thermometer and agitation (`timing-deviation.ts`), with b
 *   of a first line without ω
 *
 * Sources: [ISO6] for 0.8 / H_m. Deviations: the straight line over ln τ is the project's own, a
 * description within the times that were tried.
 */
import { InvalidArgumentError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';
import { isoSpeed } from '../film/index.ts';
import { inRange } from './temperature.ts';
import { ASSUMED_TIMING_DEVIATION, checkedTiming, withTiming } from './timing-deviation.ts';

/** Speed point of one strip at its development. */
export interface SpeedReading {
  readonly minutes: number;
  readonly celsius?: number;
  /** Log exposure of the speed point, log10 of lux-seconds. */
  readonly logExposure: Estimate;
}

/** Line of the speed point over ln time. */
export interface SpeedModel {
  /** log H_m at the mean of ln time. */
  readonly level: number;
  readonly slope: number;
  readonly meanLogMinutes: number;
  /** Variances of level and slope, which are uncorrelated; null with one strip. */
  readonly variances: readonly [number, number] | null;
  readonly temperatureCoefficient: number;
  readonly referenceCelsius: number;
}

/** An exposure index, exact and as a meter dial has it. Never an ISO speed. */
export interface ExposureIndex {
  readonly exact: Estimate;
  /** Number of the series of thirds of a stop. */
  readonly arithmetic: number;
  readonly degrees: number;
}

const ASSUMED_ERROR = 0.03;

/**
 * Fits the line of speed points.
 *
 * @param readings - one per strip, at least one
 * @param options - temperature coefficient, reference temperature, and the deviation of ln time of a
 *   strip: 0.015 unless given, 0 for times that are exact
 * @throws InvalidArgumentError if there is no reading or a value is out of range
 */
export function fitSpeedModel(
  readings: readonly SpeedReading[],
  options: {
    readonly temperatureCoefficient: number;
    readonly referenceCelsius?: number;
    readonly timingDeviation?: number;
  },
): SpeedModel {
  const { temperatureCoefficient: q, referenceCelsius = 20 } = options;
  if (readings.length === 0) {
    throw new InvalidArgumentError('fitSpeedModel', 'readings', readings, 'at least one strip');
  }
  const data = readings.map(({ minutes, celsius = referenceCelsius, logExposure }, i) => {
    if (!(minutes > 0 && Number.isFinite(logExposure.value))) {
      throw new InvalidArgumentError('fitSpeedModel', `reading ${i + 1}`, minutes, 'finite');
    }
    const log = Math.log(minutes) + ((celsius - referenceCelsius) / 10) * Math.log(q);
    const error = logExposure.standardError ?? ASSUMED_ERROR;
    return { log, value: logExposure.value, error: Math.max(error, 1e-6) };
  });
  const timing = checkedTiming(
    'fitSpeedModel',
    options.timingDeviation ?? ASSUMED_TIMING_DEVIATION,
  );
  const { slope } = lineOf(data);
  const line = lineOf(
    data.map((datum) => ({ ...datum, error: withTiming(datum.error, slope, timing) })),
  );
  return { ...line, temperatureCoefficient: q, referenceCelsius };
}

/** The weighted line of speed points over ln time. */
function lineOf(
  points: readonly { readonly log: number; readonly value: number; readonly error: number }[],
): Pick<SpeedModel, 'level' | 'slope' | 'meanLogMinutes' | 'variances'> {
  const data = points.map(({ error, ...point }) => ({ ...point, weight: 1 / error ** 2 }));
  const total = data.reduce((sum, { weight }) => sum + weight, 0);
  const mean = (of: (d: (typeof data)[number]) => number): number =>
    data.reduce((sum, d) => sum + d.weight * of(d), 0) / total;
  const meanLogMinutes = mean(({ log }) => log);
  const level = mean(({ value }) => value);
  const square = total * mean(({ log }) => (log - meanLogMinutes) ** 2);
  const several = square > 1e-9 * total;
  const slope = several
    ? (total * mean(({ log, value }) => (log - meanLogMinutes) * (value - level))) / square
    : 0;
  const chiSquare =
    total * mean(({ log, value }) => (value - level - slope * (log - meanLogMinutes)) ** 2);
  const freedom = data.length - 2;
  const excess = freedom > 0 ? Math.max(1, chiSquare / freedom) : 1;
  return {
    level,
    slope,
    meanLogMinutes,
    variances: several ? [excess / total, excess / square] : null,
  };
}

/**
 * Exposure index at a development time.
 *
 * @param model - the fitted line
 * @param minutes - development time, > 0
 * @param celsius - temperature, the model's reference unless given
 * @returns exact and rounded to thirds of a stop
 * @throws InvalidArgumentError if an argument is out of range
 */
export function exposureIndexAt(
  model: SpeedModel,
  minutes: number,
  celsius = model.referenceCelsius,
): ExposureIndex {
  const { value, standardError } = speedPointAt(model, minutes, celsius);
  const { exact, arithmetic, degrees } = isoSpeed(value);
  return {
    exact: {
      value: exact,
      standardError: standardError === null ? null : Math.LN10 * exact * standardError,
    },
    arithmetic,
    degrees,
  };
}

/**
 * Log exposure of the speed point at a development time.
 *
 * @throws InvalidArgumentError if an argument is out of range
 */
export function speedPointAt(
  model: SpeedModel,
  minutes: number,
  celsius = model.referenceCelsius,
): Estimate {
  if (!(minutes > 0 && minutes < Infinity)) {
    throw new InvalidArgumentError('speedPointAt', 'minutes', minutes, 'above zero');
  }
  const tens = (inRange('speedPointAt', celsius) - model.referenceCelsius) / 10;
  const log = Math.log(minutes) + tens * Math.log(model.temperatureCoefficient);
  const distance = log - model.meanLogMinutes;
  const { variances } = model;
  return {
    value: model.level + model.slope * distance,
    standardError:
      variances === null ? null : Math.sqrt(variances[0] + distance * distance * variances[1]),
  };
}
