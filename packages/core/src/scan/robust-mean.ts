/**
 * The mean of pixels without dust and scratches: values far from the median, measured by the median
 * absolute deviation, are left out.
 *
 *   s = 1.4826 median |v - median v|;   mean of all v with |v - median v| <= 3 s
 *
 * Sources: [HUBER1981] section 5.1, the median absolute deviation as a scale. Deviations: the
 * limit is never below 1.5 levels, for where most pixels are equal the deviation is 0.
 */
import { InvalidArgumentError } from '../errors.ts';
import { median } from '../fitting/index.ts';

/** Standard deviation of a normal law in units of its median absolute deviation. */
const NORMAL_MAD = 1.4826;
const FAR = 3;

export interface RobustMean {
  readonly mean: number;
  /** Standard deviation of one value, by the median absolute deviation. */
  readonly scale: number;
  /** Values within these were kept. */
  readonly limits: readonly [number, number];
  /** Part of the values left out, 0 to 1. */
  readonly rejected: number;
}

/**
 * Robust mean of pixel values.
 *
 * @param values - at least one, finite
 * @param level - one level of the picture in the unit of the values, at least 0
 * @throws InvalidArgumentError if there is no value, or a number is not finite
 * @example
 * robustMean([10, 11, 10, 9, 200], 1).mean; // => 10
 */
export function robustMean(values: ArrayLike<number>, level: number): RobustMean {
  if (values.length === 0) {
    throw new InvalidArgumentError('robustMean', 'values', [], 'at least one value');
  }
  const middle = median(values);
  const deviations = Float64Array.from(values, (value) => Math.abs(value - middle));
  const scale = NORMAL_MAD * median(deviations);
  const limit = Math.max(FAR * scale, 1.5 * level);
  if (!(limit < Infinity)) {
    throw new InvalidArgumentError('robustMean', 'values', middle, 'finite numbers');
  }
  let sum = 0;
  let kept = 0;
  for (let i = 0; i < values.length; i++) {
    if ((deviations[i] ?? Infinity) > limit) continue;
    sum += values[i] ?? 0;
    kept += 1;
  }
  return {
    mean: sum / kept,
    scale,
    limits: [middle - limit, middle + limit],
    rejected: 1 - kept / values.length,
  };
}
