/**
 * Starting values for contrast against time.
 *
 * Sources: none; a grid over rate and delay with the limit solved linearly. Deviations: none.
 */
import type { Estimate } from '../estimate.ts';
import type { ContrastFamily } from './contrast-model.ts';

interface Timed {
  /** Minutes at the reference temperature. */
  readonly time: number;
  readonly contrast: Estimate;
}

/**
 * Parameters to start from, without the temperature coefficient.
 *
 * @param family - first-order (c_inf, k, t0) or log-linear (a, s)
 * @param data - contrasts at times, at least two different times
 * @param delay - the delay where it is given, null where it is free
 * @returns parameters, or null where the family cannot follow the contrasts
 */
export function startOfContrast(
  family: ContrastFamily,
  data: readonly Timed[],
  delay: number | null,
): number[] | null {
  return family === 'log-linear' ? logLine(data) : firstOrder(data, delay);
}

function logLine(data: readonly Timed[]): number[] {
  const count = data.length;
  const meanLog = data.reduce((sum, { time }) => sum + Math.log(time), 0) / count;
  const mean = data.reduce((sum, { contrast }) => sum + contrast.value, 0) / count;
  let cross = 0;
  let square = 0;
  for (const { time, contrast } of data) {
    const log = Math.log(time) - meanLog;
    cross += log * (contrast.value - mean);
    square += log * log;
  }
  const slope = Math.max(1e-3, cross / square);
  return [mean - slope * meanLog, slope];
}

function firstOrder(data: readonly Timed[], given: number | null): number[] | null {
  const shortest = Math.min(...data.map(({ time }) => time));
  const longest = Math.max(...data.map(({ time }) => time));
  const delays = given === null ? [-0.2, 0, 0.2, 0.4, 0.6, 0.8].map((f) => f * shortest) : [given];
  let best: number[] | null = null;
  let least = Infinity;
  for (const delay of delays) {
    if (!(delay < shortest)) continue;
    for (let step = 0; step <= 40; step++) {
      // From a curve that is straight over the times to one that is flat.
      const rate = (0.02 * 10 ** (step / 13.3)) / (longest - delay);
      let cross = 0;
      let square = 0;
      for (const { time, contrast } of data) {
        const part = 1 - Math.exp(-rate * (time - delay));
        cross += part * contrast.value;
        square += part * part;
      }
      const limit = cross / square;
      const misses = data.reduce((sum, { time, contrast }) => {
        const part = 1 - Math.exp(-rate * (time - delay));
        return sum + (limit * part - contrast.value) ** 2;
      }, 0);
      if (misses < least && limit > 0 && limit < 20) {
        least = misses;
        best = [limit, rate, delay];
      }
    }
  }
  return best;
}
