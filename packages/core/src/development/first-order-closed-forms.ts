/**
 * The first-order law of contrast solved for two or three times without a fit.
 *
 *   c = c_inf (1 - exp(-k (t - t0)))
 *   times t, 2t and t0 = 0:   k = ln(g1 / (g2 - g1)) / t,   c_inf = g1² / (2 g1 - g2)
 *   three times, h apart:     exp(-k h) = (g3 - g2) / (g2 - g1)
 *                             c_inf = (g1 g3 - g2²) / (g1 + g3 - 2 g2),   t0 = t1 + ln(1 - g1/c_inf) / k
 *
 * Sources: [SM1907] the law and the two-time form; [GLAFKIDES] the form with a delay. Deviations:
 * none.
 */
import { InvalidArgumentError, OutOfDomainError } from '../errors.ts';

/** Constants of the first-order law. */
export interface FirstOrderConstants {
  readonly contrastInfinity: number;
  /** k, per minute. */
  readonly rate: number;
  /** t0, minutes. */
  readonly delayMinutes: number;
}

/**
 * Constants from the contrasts at a time and at twice that time, no delay.
 *
 * @param minutes - the shorter time, > 0
 * @param first - contrast at that time
 * @param second - contrast at twice that time
 * @throws OutOfDomainError unless first < second < 2 first
 * @throws InvalidArgumentError if `minutes` is not positive
 * @source [SM1907]
 */
export function firstOrderFromTwoTimes(
  minutes: number,
  first: number,
  second: number,
): FirstOrderConstants {
  if (!(minutes > 0 && minutes < Infinity)) {
    throw new InvalidArgumentError('firstOrderFromTwoTimes', 'minutes', minutes, 'above zero');
  }
  if (!(first > 0 && second > first && second < 2 * first)) {
    throw new OutOfDomainError('firstOrderFromTwoTimes', 'second contrast', second, [
      first,
      2 * first,
    ]);
  }
  return {
    contrastInfinity: (first * first) / (2 * first - second),
    rate: Math.log(first / (second - first)) / minutes,
    delayMinutes: 0,
  };
}

/**
 * Constants from the contrasts at three equally spaced times.
 *
 * @param firstMinutes - the shortest time, > 0
 * @param spacingMinutes - from each time to the next, > 0
 * @param contrasts - at the three times
 * @throws OutOfDomainError unless the contrasts rise by ever smaller amounts
 * @throws InvalidArgumentError if a time is not positive
 * @source [GLAFKIDES]
 */
export function firstOrderFromThreeTimes(
  firstMinutes: number,
  spacingMinutes: number,
  contrasts: readonly [number, number, number],
): FirstOrderConstants {
  for (const [name, value] of Object.entries({ firstMinutes, spacingMinutes })) {
    if (!(value > 0 && value < Infinity)) {
      throw new InvalidArgumentError('firstOrderFromThreeTimes', name, value, 'above zero');
    }
  }
  const [g1, g2, g3] = contrasts;
  const ratio = (g3 - g2) / (g2 - g1);
  if (!(g1 > 0 && g2 > g1 && ratio > 0 && ratio < 1)) {
    throw new OutOfDomainError('firstOrderFromThreeTimes', 'ratio of rises', ratio, [0, 1]);
  }
  const rate = -Math.log(ratio) / spacingMinutes;
  const contrastInfinity = (g1 * g3 - g2 * g2) / (g1 + g3 - 2 * g2);
  return {
    contrastInfinity,
    rate,
    delayMinutes: firstMinutes + Math.log(1 - g1 / contrastInfinity) / rate,
  };
}

/**
 * Ratio of the development time for N+n to that for N, without delay.
 *
 *   ln(1 - r f) / ln(1 - f),   r = S / (S - n),   f = N contrast / c_inf
 *
 * @param part - f, in (0, 1)
 * @param change - n, stops that the subject range is stretched (+) or squeezed (-)
 * @param texturalStops - S, stops between the textured shadow and highlight; 7 unless given
 * @returns the ratio
 * @throws OutOfDomainError if `part` is not in (0, 1), or r f not below 1
 * @example
 * developmentTimeRatio(0.5, 0); // => 1
 */
export function developmentTimeRatio(part: number, change: number, texturalStops = 7): number {
  const factor = contrastFactor(change, texturalStops);
  if (!(part > 0 && part < 1 && factor * part < 1)) {
    throw new OutOfDomainError('developmentTimeRatio', 'part', part, [0, Math.min(1, 1 / factor)]);
  }
  return Math.log1p(-factor * part) / Math.log1p(-part);
}

/**
 * Contrast of N+n over that of N.
 *
 * @param change - n, in stops, below the textural scale
 * @param texturalStops - S, > 0; 7 unless given
 * @returns S / (S - n)
 * @throws InvalidArgumentError if `texturalStops` is not above zero or `change` not below it
 * @example
 * contrastFactor(0); // => 1
 */
export function contrastFactor(change: number, texturalStops = 7): number {
  if (!(texturalStops > 0 && texturalStops < Infinity)) {
    throw new InvalidArgumentError('contrastFactor', 'texturalStops', texturalStops, 'above zero');
  }
  if (!(change < texturalStops && change > -Infinity)) {
    throw new InvalidArgumentError(
      'contrastFactor',
      'change',
      change,
      `below ${texturalStops} stops`,
    );
  }
  return texturalStops / (texturalStops - change);
}
