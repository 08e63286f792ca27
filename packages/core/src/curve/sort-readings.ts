/**
 * Readings in the order that the fits take: unexposed first, then by ascending log exposure.
 */
import { InvalidArgumentError } from '../errors.ts';
import type { CurveReadings } from '../readings/index.ts';

export interface SortedReadings {
  /** Log exposures ascending; -Infinity for unexposed readings. */
  readonly x: readonly number[];
  readonly y: readonly number[];
  /** How many of them are unexposed. */
  readonly unexposedCount: number;
  /** Different log exposures among the exposed readings. */
  readonly stepCount: number;
  readonly logExposureRange: readonly [number, number];
  readonly densityRange: readonly [number, number];
}

/**
 * @throws InvalidArgumentError if the arrays differ in length or hold a value that is not finite
 */
export function sortReadings(readings: CurveReadings): SortedReadings {
  const { logExposures, densities, unexposedDensities = [] } = readings;
  if (logExposures.length !== densities.length) {
    throw new InvalidArgumentError(
      'sortReadings',
      'densities',
      densities,
      `as many as log exposures (${logExposures.length})`,
    );
  }
  const pairs = logExposures.map((x, i): [number, number] => [x, densities[i] ?? NaN]);
  for (const [x, y] of [...pairs, ...unexposedDensities.map((y): [number, number] => [0, y])]) {
    if (!Number.isFinite(x) || !Number.isFinite(y)) {
      throw new InvalidArgumentError('sortReadings', 'readings', `(${x}, ${y})`, 'finite numbers');
    }
  }
  pairs.sort((a, b) => a[0] - b[0]);
  const first = pairs[0]?.[0] ?? 0;
  const last = pairs.at(-1)?.[0] ?? 0;
  let stepCount = 0;
  let previous = NaN;
  let lowest = Infinity;
  let highest = -Infinity;
  for (const [x, y] of pairs) {
    if (x !== previous) stepCount++;
    previous = x;
    lowest = Math.min(lowest, y);
    highest = Math.max(highest, y);
  }
  return {
    x: [...unexposedDensities.map(() => -Infinity), ...pairs.map(([x]) => x)],
    y: [...unexposedDensities, ...pairs.map(([, y]) => y)],
    unexposedCount: unexposedDensities.length,
    stepCount,
    logExposureRange: [first, last],
    densityRange: [Math.min(lowest, ...unexposedDensities), highest],
  };
}
