/**
 * Readings that lie too far from the curve through the others to be chance.
 *
 *   t_i = e_i / (s_(i) sqrt(1 - h_i)),  s_(i)^2 = (SS - e_i^2 / (1 - h_i)) / (v - 1)
 *
 * h_i the leverage, v the degrees of freedom. The greatest |t_i| of n is suspect where
 * n P(|T| > |t_i|) < 0.005. The curve is then fitted without it and the rest looked at again, so
 * that one slip does not hide another. A curve can also bend to a gross slip, or to two together,
 * until nothing stands out; where the scatter is greater than a densitometer's, the search begins
 * from the curve with the least trimmed squares, which leaves out the worst fifth. Nothing is
 * changed: a suspect is for the user to read again.
 *
 * Sources: [CW1982] section 2.2, the outlier test with Bonferroni's bound; [RL1987] least trimmed
 * squares. Deviations: a reading off by less than the densitometer resolves is no suspect, however
 * good the others; trimmed fits start with each pair of neighbours left out, in wider windows on
 * long strips, and end at the first core that scatters no more than a densitometer.
 */
import { InvalidArgumentError } from '../errors.ts';
import type { ModelFit } from './fit-model.ts';
import { likelySlip, type Slip } from './likely-slip.ts';
import type { FittedFunction } from './model.ts';
import { quadraticForm } from './quadratic-form.ts';
import { studentTUpperTail } from './student-t-quantile.ts';

/** sqrt(1 - 2 q f(q) / (2 F(q) - 1)) at q = 1.2816, where 0.8 of a normal law lies within. */
const TRIMMED_SCATTER = 0.662;
/** Most starts of the search for a core, a bound on its time. */
const MOST_STARTS = 16;
/** Standard deviation of the finest reading: a smaller scatter is rounding, not knowledge. */
const FINEST_READING = 1e-5;
/** Scatters beyond which a reading is left out of the second look. */
const FAR = 3.5;

/** A reading to look at again. */
export interface SuspectReading {
  /** Place in the readings given. */
  readonly index: number;
  readonly x: number;
  readonly written: number;
  /** The number that the curve through the other readings has there. */
  readonly expected: number;
  /** Of a single reading about that number. */
  readonly standardError: number;
  /** Studentised residual, reading minus curve. */
  readonly studentised: number;
  /** Probability of one so far out among as many good readings. */
  readonly probability: number;
  readonly slip: Slip | null;
}

/** A fit of some readings, as far as the search needs it. */
export interface FittedReadings {
  readonly model: FittedFunction;
  readonly fit: Pick<
    ModelFit,
    'parameters' | 'covariance' | 'residualStandardDeviation' | 'degreesOfFreedom'
  >;
}

/** Options of `suspectReadings`. */
export interface SuspectOptions {
  /** Probability below which a reading is suspect, default 0.005. */
  readonly probability?: number | undefined;
  /** Least distance from the curve that matters, default 0.02 (a working densitometer's error). */
  readonly leastDistance?: number | undefined;
  /** The curve through all readings, where it is at hand. */
  readonly fitted?: FittedReadings | undefined;
}

/**
 * Finds readings that do not belong to the curve through the others.
 *
 * @param x - log exposures
 * @param y - densities as written
 * @param fitReadings - fits the curve to some of the readings; null where it can not
 * @returns suspects, the farthest out first; at most a fifth of the readings
 * @throws {InvalidArgumentError} if lengths differ
 */
export function suspectReadings(
  x: readonly number[],
  y: readonly number[],
  fitReadings: FitReadings,
  options: SuspectOptions = {},
): SuspectReading[] {
  if (x.length !== y.length) {
    throw new InvalidArgumentError('suspectReadings', 'y', y, `a list of ${x.length}, as x`);
  }
  const { probability: least = 0.005, leastDistance = 0.02 } = options;
  const kept = x.map((_, i) => i);
  const removed: number[] = [];
  const most = Math.floor(x.length / 5);
  let fitted = options.fitted ?? fitReadings(x, y);
  while (fitted && removed.length < most) {
    const worst = farthest(x, y, kept, fitted);
    if (!worst || worst.probability >= least || worst.distance < leastDistance) break;
    removed.push(worst.index);
    kept.splice(kept.indexOf(worst.index), 1);
    fitted = fitSome(x, y, kept, fitReadings);
  }
  if (!fitted || scatterOf(fitted) > 2 * leastDistance) {
    const trimmed = trimmedOutliers(x, y, fitReadings, most, leastDistance);
    if (trimmed.length > 0) {
      removed.splice(0, removed.length, ...trimmed);
      const rest = x.map((_, i) => i).filter((i) => !trimmed.includes(i));
      kept.splice(0, kept.length, ...rest);
      fitted = fitSome(x, y, kept, fitReadings);
    }
  }
  const final = fitted;
  if (!final || removed.length === 0) return [];
  const suspects: SuspectReading[] = [];
  for (const index of removed) {
    const suspect = describe(x, y, index, kept.length, final, leastDistance);
    // Once the others are out, a reading may turn out to have been good.
    if (suspect && suspect.probability < least) suspects.push(suspect);
  }
  return suspects.sort((a, b) => a.probability - b.probability);
}

type FitReadings = (x: readonly number[], y: readonly number[]) => FittedReadings | null;

function fitSome(
  x: readonly number[],
  y: readonly number[],
  kept: readonly number[],
  fitReadings: FitReadings,
): FittedReadings | null {
  return fitReadings(
    kept.map((i) => x[i] as number),
    kept.map((i) => y[i] as number),
  );
}

function scatterOf({ fit }: FittedReadings): number {
  return fit.residualStandardDeviation ?? Infinity;
}

/** Readings far from the curve of least trimmed squares, by its scatter. */
function trimmedOutliers(
  x: readonly number[],
  y: readonly number[],
  fitReadings: FitReadings,
  most: number,
  leastDistance: number,
): number[] {
  const n = x.length;
  const all = x.map((_, i) => i);
  const core = n - most;
  if (most < 1) return [];
  let best: { readonly square: number; readonly misses: readonly number[] } | null = null;
  // Windows that overlap by one reading, so that every pair of neighbours is left out once.
  const window = Math.max(2, Math.ceil(n / MOST_STARTS));
  for (let start = 0; start + 1 < n; start += window - 1) {
    let kept = all.filter((i) => i < start || i >= start + window);
    for (let round = 0; round < 3; round++) {
      const fitted = fitSome(x, y, kept, fitReadings);
      if (!fitted) break;
      const { model, fit } = fitted;
      const misses = all.map((i) =>
        Math.abs((y[i] as number) - model.value(x[i] as number, fit.parameters)),
      );
      const miss = (i: number): number => misses[i] as number;
      const next = [...all].sort((a, b) => miss(a) - miss(b)).slice(0, core);
      const square = next.reduce((sum, i) => sum + miss(i) ** 2, 0);
      if (!best || square < best.square) best = { square, misses };
      if (next.every((i) => kept.includes(i))) break;
      kept = next.sort((a, b) => a - b);
    }
    // As good as a densitometer: no other start finds a core that matters more.
    if (best && Math.sqrt(best.square / core) < leastDistance / 2) break;
  }
  if (!best) return [];
  const scatter = Math.sqrt(best.square / core) / TRIMMED_SCATTER;
  const limit = Math.max(FAR * scatter, leastDistance);
  const { misses } = best;
  return all
    .filter((i) => (misses[i] as number) > limit)
    .sort((a, b) => (misses[b] as number) - (misses[a] as number))
    .slice(0, most);
}

interface Farthest {
  readonly index: number;
  readonly distance: number;
  readonly probability: number;
}

function farthest(
  x: readonly number[],
  y: readonly number[],
  kept: readonly number[],
  { model, fit }: FittedReadings,
): Farthest | null {
  const { parameters, covariance, residualStandardDeviation: sigma } = fit;
  const v = fit.degreesOfFreedom;
  if (!covariance || sigma === null || !(sigma > 0) || !(v > 1)) return null;
  const row = new Float64Array(parameters.length);
  let best = -1;
  let bestT = 0;
  let bestDistance = 0;
  for (const index of kept) {
    const residual = (y[index] as number) - model.derivatives(x[index] as number, parameters, row);
    const leverage = Math.min(1, quadraticForm(row, covariance) / (sigma * sigma));
    if (leverage > 1 - 1e-6) continue;
    const deleted = (residual * residual) / (1 - leverage);
    const rest = v * sigma * sigma - deleted;
    const t = rest > 0 ? Math.sqrt((deleted * (v - 1)) / rest) : Infinity;
    if (t > bestT) {
      best = index;
      bestT = t;
      bestDistance = Math.abs(residual) / (1 - leverage);
    }
  }
  if (best < 0) return null;
  const tail = bestT === Infinity ? 0 : 2 * studentTUpperTail(bestT, v - 1);
  return { index: best, distance: bestDistance, probability: Math.min(1, kept.length * tail) };
}

function describe(
  x: readonly number[],
  y: readonly number[],
  index: number,
  keptCount: number,
  { model, fit }: FittedReadings,
  leastDistance: number,
): SuspectReading | null {
  const { parameters, covariance, residualStandardDeviation: sigma, degreesOfFreedom } = fit;
  if (!covariance || sigma === null || !(degreesOfFreedom > 0)) return null;
  const row = new Float64Array(parameters.length);
  const at = x[index] as number;
  const written = y[index] as number;
  const expected = model.derivatives(at, parameters, row);
  const standardError = Math.max(
    FINEST_READING,
    Math.sqrt(sigma * sigma + quadraticForm(row, covariance)),
  );
  const studentised = (written - expected) / standardError;
  const tail = 2 * studentTUpperTail(Math.abs(studentised), degreesOfFreedom);
  const finite = [...new Set(x.filter(Number.isFinite))].sort((a, b) => a - b);
  const place = finite.indexOf(at);
  const neighbours = [finite[place - 1], finite[place + 1]].flatMap((other) =>
    place < 0 || other === undefined ? [] : [model.value(other, parameters)],
  );
  return {
    index,
    x: at,
    written,
    expected,
    standardError,
    studentised,
    probability: Math.min(1, (keptCount + 1) * tail),
    slip: likelySlip(
      written,
      expected,
      Math.max(2.5 * standardError, leastDistance / 2),
      neighbours,
    ),
  };
}
