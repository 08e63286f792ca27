/**
 * Control chart of a process: the same strip, developed again and again, must keep its measures.
 *
 *   centre  mean of the first m strips
 *   sigma   mean moving range of the first m / 1.128
 *   limits  centre ± 3 sigma, warning ± 2 sigma
 *   signals one point beyond 3 sigma; two of three beyond 2 sigma on one side; eight in a row on
 *           one side of the centre; six in a row that rise or fall
 *
 * Sources: [SHEWHART1931] the chart and its three sigma; [NISTEH] section 6.3 the moving range, its
 * divisor 1.128 and the run rules. Deviations: a shift of limits is the user's: they come from the
 * user's own first strips, never from a table.
 */
import { InvalidArgumentError } from '../errors.ts';

/** Mean range of two normal deviates in standard deviations, 2 / sqrt(pi). */
const RANGE_OF_TWO = 2 / Math.sqrt(Math.PI);
/** Fewest strips that set limits. */
const FEWEST = 3;

export type DriftSignal = 'beyond-limits' | 'two-of-three' | 'one-side' | 'trend';

export interface DriftPoint {
  readonly value: number;
  /** (value - centre) / sigma. */
  readonly deviations: number;
  /** True for the strips that set the limits. */
  readonly setsLimits: boolean;
  readonly signals: readonly DriftSignal[];
}

export type DriftChart =
  | {
      readonly status: 'ok';
      readonly centre: number;
      readonly sigma: number;
      /** Centre ± 2 sigma. */
      readonly warningLimits: readonly [number, number];
      /** Centre ± 3 sigma. */
      readonly actionLimits: readonly [number, number];
      readonly points: readonly DriftPoint[];
    }
  | { readonly status: 'not-determined'; readonly reason: 'too-few-strips' | 'no-scatter' };

export interface DriftOptions {
  /** Strips that set the limits, at least 3; 5 unless given, or all where there are fewer. */
  readonly first?: number;
  /** Least sigma, such as the error of one reading, so that rounding is no alarm; 0 unless given. */
  readonly leastSigma?: number;
}

/**
 * Control chart of one measure.
 *
 * @param values - the measure of each control strip, in the order of their days
 * @param options - how many strips set the limits, least sigma
 * @returns centre, limits, and each strip with what it signals; not determined below three strips
 * @throws InvalidArgumentError if a value is not finite or an option out of range
 * @source [NISTEH] section 6.3.2.2
 */
export function driftChart(values: readonly number[], options: DriftOptions = {}): DriftChart {
  const { first = 5, leastSigma = 0 } = options;
  values.forEach((value, i) => {
    if (!Number.isFinite(value)) {
      throw new InvalidArgumentError('driftChart', `value ${i + 1}`, value, 'a finite number');
    }
  });
  if (!(Number.isInteger(first) && first >= FEWEST)) {
    throw new InvalidArgumentError('driftChart', 'first', first, 'an integer of at least 3');
  }
  if (!(leastSigma >= 0 && leastSigma < Infinity)) {
    throw new InvalidArgumentError('driftChart', 'leastSigma', leastSigma, 'zero or more');
  }
  if (values.length < FEWEST) return { status: 'not-determined', reason: 'too-few-strips' };
  const count = Math.min(first, values.length);
  const own = values.slice(0, count);
  const centre = own.reduce((sum, value) => sum + value, 0) / count;
  const ranges = own.slice(1).map((value, i) => Math.abs(value - (own[i] ?? value)));
  const meanRange = ranges.reduce((sum, range) => sum + range, 0) / ranges.length;
  const sigma = Math.max(leastSigma, meanRange / RANGE_OF_TWO);
  if (!(sigma > 0)) return { status: 'not-determined', reason: 'no-scatter' };
  const deviations = values.map((value) => (value - centre) / sigma);
  return {
    status: 'ok',
    centre,
    sigma,
    warningLimits: [centre - 2 * sigma, centre + 2 * sigma],
    actionLimits: [centre - 3 * sigma, centre + 3 * sigma],
    points: values.map((value, i) => ({
      value,
      deviations: deviations[i] ?? 0,
      setsLimits: i < count,
      signals: signalsAt(deviations, i),
    })),
  };
}

function signalsAt(deviations: readonly number[], i: number): DriftSignal[] {
  const signals: DriftSignal[] = [];
  const last = (n: number): readonly number[] | null =>
    i + 1 >= n ? deviations.slice(i + 1 - n, i + 1) : null;
  const sides = [1, -1];
  if (Math.abs(deviations[i] ?? 0) > 3) signals.push('beyond-limits');
  const three = last(3);
  if (
    three !== null &&
    sides.some((side) => beyond(three, side) >= 2 && beyond([deviations[i] ?? 0], side) === 1)
  ) {
    signals.push('two-of-three');
  }
  const eight = last(8);
  if (eight !== null && sides.some((side) => eight.every((d) => side * d > 0))) {
    signals.push('one-side');
  }
  const six = last(6);
  if (
    six !== null &&
    sides.some((side) => six.every((d, k) => k === 0 || side * (d - (six[k - 1] ?? d)) > 0))
  ) {
    signals.push('trend');
  }
  return signals;
}

function beyond(deviations: readonly number[], side: number): number {
  return deviations.filter((d) => side * d > 2).length;
}
