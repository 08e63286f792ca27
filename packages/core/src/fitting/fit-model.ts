/**
 * Fits a model y = f(x; p) to readings: the one entry that the other rooms use.
 *
 * Sources: [MORE1978], [BW1988] for the estimate; [HUBER1964] for the robust one. Deviations: none.
 */
import { refusing } from '../errors.ts';
import { finiteOrNull } from './finite-or-null.ts';
import { leastSquares } from './least-squares.ts';
import type {
  FitReport,
  LeastSquaresFit,
  LeastSquaresOptions,
  LeastSquaresProblem,
} from './least-squares-types.ts';
import { listOf } from './list-of.ts';
import type { Model } from './model.ts';
import type { RobustFit } from './robust-least-squares.ts';

/** How well each observation is known. */
export interface Sigma {
  /**
   * `absolute`: standard deviations in the unit of y; the covariance is taken from them.
   * `relative`: right up to one common factor, which the residuals estimate.
   */
  readonly kind: 'absolute' | 'relative';
  /** One positive number for each observation. */
  readonly values: readonly number[];
}

/** A method of `fitModel`. */
export type Solver = (
  problem: LeastSquaresProblem,
  options: LeastSquaresOptions,
) => LeastSquaresFit | RobustFit;

/** Options of `fitModel`; every one has a default. */
export interface FitModelOptions {
  /** Starting values, natural parameters. Default: the model's own, from the readings. */
  readonly start?: readonly number[] | undefined;
  /** Default: all observations equally good, to an unknown degree. */
  readonly sigma?: Sigma | undefined;
  /**
   * How the minimum is found: `leastSquares` unless given, `robustLeastSquares` for Huber's loss
   * with a scale from the median absolute deviation.
   */
  readonly solve?: Solver | undefined;
  /** True for each parameter to keep at its starting value. Default: none. */
  readonly fixed?: readonly boolean[] | undefined;
  /** Steps allowed. Default 1,000. */
  readonly maxIterations?: number | undefined;
  /** Final relative offset. Default 1e-8, a hundred-millionth of a standard error. */
  readonly offsetTolerance?: number | undefined;
}

/** A fitted model. */
export interface ModelFit {
  /** Name of the model. */
  readonly model: string;
  /** Natural parameters, in the order of the model's `parameterNames`. */
  readonly parameters: readonly number[];
  /** Null for parameters fixed, at a bound, or not determined by the readings. */
  readonly standardErrors: readonly (number | null)[];
  /**
   * Row-major P x P; a parameter fixed or at a bound adds nothing. Null when the readings do not
   * determine the parameters or leave no degree of freedom.
   */
  readonly covariance: readonly number[] | null;
  /** Model minus observation. */
  readonly residuals: readonly number[];
  /** Weighted sum of squares. */
  readonly residualSumOfSquares: number;
  readonly residualStandardDeviation: number | null;
  readonly degreesOfFreedom: number;
  readonly atBound: readonly boolean[];
  /** Weight that the robust loss left to each reading, 1 where it kept its full weight. */
  readonly robustWeights: readonly number[] | null;
  readonly report: FitReport;
}

/**
 * Estimates the parameters of `model` from readings.
 *
 * @param model - any built-in or own model
 * @param x - abscissae, any order; -Infinity (the unexposed film) only for curve models
 * @param y - observations, as many
 * @param options - start, sigma, loss, fixed parameters
 * @returns parameters with errors and a report whose `status` says whether they can be used
 * @throws {InvalidArgumentError} if lengths differ, a value is not finite, or a start is malformed
 * @example
 * fitModel(straightLine, [0, 1, 2, 3], [1, 3, 5, 7]).parameters; // => [1, 2]
 */
export function fitModel(
  model: Model,
  x: readonly number[],
  y: readonly number[],
  options: FitModelOptions = {},
): ModelFit {
  checkReadings(model, x, y, options.sigma);
  const count = model.parameterNames.length;
  const starts = options.start ? [options.start] : startsOf(model, x, y);
  let best: ModelFit | null = null;
  for (const start of starts) {
    if (start.length !== count) {
      refusing('fitModel')('start', start, `a list of ${count} numbers`);
    }
    const fit = fitFrom(model, x, y, start, options);
    if (!best || fit.residualSumOfSquares < best.residualSumOfSquares) best = fit;
  }
  return best as ModelFit;
}

function fitFrom(
  model: Model,
  x: readonly number[],
  y: readonly number[],
  start: readonly number[],
  options: FitModelOptions,
): ModelFit {
  const { maxIterations, offsetTolerance = 1e-8, solve = leastSquares, sigma } = options;
  const solverOptions = {
    weightKind: sigma?.kind,
    maxIterations,
    offsetTolerance,
    reductionTolerance: 1e-7,
  };
  const room = takeRoom(start.length);
  const solved = solve(problemOf(model, x, y, start, options, room), solverOptions);
  const robust = 'robustWeights' in solved;
  const fit = robust ? solved.fit : solved;
  const { inner } = model;
  let { parameters, standardErrors, covariance } = fit;
  if (inner) {
    const { natural, chain } = room;
    const count = parameters.length;
    inner.toNatural(parameters, natural, chain);
    parameters = listOf(natural);
    covariance &&= finiteOrNull(sandwich(room, covariance, count));
    const variances = covariance;
    standardErrors = standardErrors.map((error, j) =>
      error === null || variances === null
        ? null
        : Math.sqrt(Math.max(0, variances[j * (count + 1)] as number)),
    );
  }
  rooms[start.length] = room;
  const robustWeights = robust ? solved.robustWeights : null;
  return { ...fit, model: model.name, parameters, standardErrors, covariance, robustWeights };
}

function problemOf(
  model: Model,
  x: readonly number[],
  y: readonly number[],
  start: readonly number[],
  options: FitModelOptions,
  room: Room,
): LeastSquaresProblem {
  const { row, natural, chain } = room;
  const count = start.length;
  const n = x.length;
  const { inner } = model;
  const { lower, upper } = inner ? inner.bounds(x, y) : model;
  const clipped = clip(inner ? inner.fromNatural(start) : start, lower, upper);
  return {
    residualCount: n,
    // A start that the user gave is refused, not moved, where bounds exclude it.
    start: options.start && !inner ? start : clipped,
    evaluate: (parameters, residuals, jacobian) => {
      if (inner) inner.toNatural(parameters, natural, chain);
      else natural.set(parameters);
      if (model.derivativesAtAll) model.derivativesAtAll(x, natural, residuals, jacobian);
      else {
        for (let i = 0; i < n; i++) {
          residuals[i] = model.derivatives(x[i] as number, natural, row);
          jacobian.set(row, i * count);
        }
      }
      for (let i = 0; i < n; i++) residuals[i] = at(residuals, i) - (y[i] as number);
      if (inner) chainRows(jacobian, n, count, room);
    },
    lower,
    upper,
    fixed: options.fixed,
    weights: options.sigma?.values.map((sigma) => 1 / (sigma * sigma)),
  };
}

/**
 * Turns the rows of derivatives by the natural parameters into those by the inner ones. Most natural
 * parameters depend on their own inner one alone: the other entries of the chain are listed first.
 */
function chainRows(rows: Float64Array, n: number, count: number, room: Room): void {
  const { row, chain, from, to, share } = room;
  let extra = 0;
  for (let k = 0; k < count; k++) {
    for (let j = 0; j < count; j++) {
      const entry = at(chain, k * count + j);
      if (k === j || entry === 0) continue;
      from[extra] = k;
      to[extra] = j;
      share[extra++] = entry;
    }
  }
  for (let first = 0; first < n * count; first += count) {
    for (let j = 0; j < count; j++) {
      row[j] = at(rows, first + j);
      rows[first + j] = at(row, j) * at(chain, j * (count + 1));
    }
    for (let m = 0; m < extra; m++) {
      const place = first + (to[m] as number);
      rows[place] = at(rows, place) + at(row, from[m] as number) * at(share, m);
    }
  }
}

/** Arrays of one fit, kept for the next with as many parameters: making them takes microseconds. */
interface Room {
  readonly row: Float64Array;
  readonly natural: Float64Array;
  /** d natural / d inner, row-major. */
  readonly chain: Float64Array;
  readonly left: Float64Array;
  /** Entries of the chain off its diagonal: row, column, value. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly share: Float64Array;
}

const rooms: (Room | undefined)[] = [];

/** A room that no other fit is in. */
function takeRoom(count: number): Room {
  const known = rooms[count];
  rooms[count] = undefined;
  const square = count * count;
  return (
    known ?? {
      row: new Float64Array(count),
      natural: new Float64Array(count),
      chain: new Float64Array(square),
      left: new Float64Array(square),
      from: new Int32Array(square),
      to: new Int32Array(square),
      share: new Float64Array(square),
    }
  );
}

/** T C T' for row-major square matrices. */
function sandwich({ chain: t, left }: Room, c: readonly number[], count: number): number[] {
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < count; j++) {
      let sum = 0;
      for (let k = 0; k < count; k++) sum += at(t, i * count + k) * (c[k * count + j] as number);
      left[i * count + j] = sum;
    }
  }
  const result = new Array<number>(count * count).fill(0);
  for (let i = 0; i < count; i++) {
    for (let j = i; j < count; j++) {
      let sum = 0;
      for (let k = 0; k < count; k++) sum += at(left, i * count + k) * at(t, j * count + k);
      result[i * count + j] = sum;
      result[j * count + i] = sum;
    }
  }
  return result;
}

/** The model's own starting values, from readings put in ascending order. */
function startsOf(model: Model, x: readonly number[], y: readonly number[]): number[][] {
  let sorted = true;
  for (let i = 1; i < x.length && sorted; i++) sorted = (x[i - 1] ?? 0) <= (x[i] ?? 0);
  let [xs, ys] = [x, y];
  if (!sorted) {
    const order = x.map((_, i) => i).sort((a, b) => compare(x[a] ?? 0, x[b] ?? 0));
    xs = order.map((i) => x[i] ?? 0);
    ys = order.map((i) => y[i] ?? 0);
  }
  return [model.start(xs, ys), ...(model.otherStarts?.(xs, ys) ?? [])];
}

/** Orders -Infinity first without the NaN of its difference to itself. */
function compare(a: number, b: number): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function clip(
  values: readonly number[],
  lower: readonly number[] | undefined,
  upper: readonly number[] | undefined,
): number[] {
  return values.map((value, j) =>
    Math.min(Math.max(value, lower?.[j] ?? -Infinity), upper?.[j] ?? Infinity),
  );
}

function checkReadings(
  model: Model,
  x: readonly number[],
  y: readonly number[],
  sigma: Sigma | undefined,
): void {
  const refuse = refusing('fitModel');
  const finite = 'finite numbers';
  if (x.length === 0) refuse('x', x, 'a list of at least one number');
  if (x.length !== y.length) refuse('y', y, `a list of ${x.length}, as x`);
  const unexposed = 'baseFog' in model;
  for (const value of x) {
    if (!(Number.isFinite(value) || (unexposed && value === -Infinity))) {
      refuse('x', value, unexposed ? `${finite}, or -Infinity for the unexposed film` : finite);
    }
  }
  for (const value of y) if (!Number.isFinite(value)) refuse('y', value, finite);
  if (!sigma) return;
  const { values } = sigma;
  if (values.length !== x.length || !values.every((each) => each > 0 && each < Infinity)) {
    refuse('sigma.values', values, `${x.length} ${finite} above 0`);
  }
}

function at(array: Float64Array, index: number): number {
  return array[index] as number;
}
