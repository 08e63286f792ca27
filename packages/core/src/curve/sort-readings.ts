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
  let isSorted = true;
  for (let i = 0; i < logExposures.length; i++) {
    requireFinite(logExposures[i] ?? NaN, densities[i] ?? NaN);
    isSorted &&= i === 0 || (logExposures[i - 1] ?? NaN) <= (logExposures[i] ?? NaN);
  }
  for (const y of unexposedDensities) requireFinite(0, y);
  // Most strips are listed in order.
  const [xs, ys] = isSorted ? [logExposures, densities] : inOrder(logExposures, densities);
  let stepCount = 0;
  let previous = NaN;
  let lowest = Infinity;
  let highest = -Infinity;
  for (let i = 0; i < xs.length; i++) {
    const x = xs[i] ?? NaN;
    if (x !== previous) stepCount++;
    previous = x;
    lowest = Math.min(lowest, ys[i] ?? NaN);
    highest = Math.max(highest, ys[i] ?? NaN);
  }
  return {
    x: [...unexposedDensities.map(() => -Infinity), ...xs],
    y: [...unexposedDensities, ...ys],
    unexposedCount: unexposedDensities.length,
    stepCount,
    logExposureRange: [xs[0] ?? 0, xs.at(-1) ?? 0],
    densityRange: [Math.min(lowest, ...unexposedDensities), highest],
  };
}

function requireFinite(x: number, y: number): void {
  if (!Number.isFinite(x) || !Number.isFinite(y)) {
    throw new InvalidArgumentError('sortReadings', 'readings', `(${x}, ${y})`, 'finite numbers');
  }
}

function inOrder(xs: readonly number[], ys: readonly number[]): [number[], number[]] {
  const pairs = xs.map((x, i): [number, number] => [x, ys[i] ?? NaN]);
  pairs.sort((a, b) => a[0] - b[0]);
  return [pairs.map(([x]) => x), pairs.map(([, y]) => y)];
}
