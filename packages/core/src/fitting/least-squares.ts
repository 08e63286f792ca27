/**
 * Weighted nonlinear least squares: a trust-region Levenberg-Marquardt method with bounds.
 *
 *   minimise  sum_i w_i r_i(p)^2,  lower <= p <= upper
 *
 * Each step solves the linearised problem by QR within a radius measured in columns scaled by the
 * greatest length they have had. Parameters at a bound that the gradient pushes outwards are held
 * there; steps that would leave the bounds are cut off at them. When the relative offset is small,
 * undamped, accelerated Gauss-Newton steps polish the minimum to rounding.
 *
 * Sources: [MORE1978] the step, the scaling and the radius; [BW1988] section 2.2.3, the relative
 * offset. Deviations: bounds by an active set; the polish.
 */
import { InvalidArgumentError } from '../errors.ts';
import { accelerate, type StepHistory } from './accelerated-step.ts';
import { checkProblem } from './check-problem.ts';
import { fitFromPoint } from './fit-from-point.ts';
import { evaluateAt, linearise, type Linearisation, type Point } from './linearisation.ts';
import type {
  LeastSquaresFit,
  LeastSquaresOptions,
  LeastSquaresProblem,
  StopTest,
} from './least-squares-types.ts';
import { keepBuffers, takeBuffers } from './search-buffers.ts';
import { gaussNewtonStep, trustRegionStep, type StepWorkspace } from './trust-region-step.ts';

/** First radius in lengths of the scaled start. 100 loses BoxBOD from its far start. */
const FIRST_RADIUS = 3;
/** Relative offset below which the polish begins. */
const OFFSET_TO_POLISH = 0.1;
/** Relative offset at which a step that no longer lowers it shows rounding, not trouble. */
const OFFSET_AT_ROUNDING = 1e-7;
/** A sum of squares may rise by this share in the polish: it is flat to rounding there. */
const FLAT = 1e-9;
const ROUNDING = 2 ** -52;

/** Everything that an iteration works on. */
interface Search {
  readonly problem: LeastSquaresProblem;
  readonly linear: Linearisation;
  readonly work: StepWorkspace;
  readonly history: StepHistory;
  /** Step by column of R, scaled. */
  readonly step: Float64Array;
  /** Step by parameter. */
  readonly move: Float64Array;
  readonly maxIterations: number;
  readonly offsetTolerance: number;
  readonly reductionTolerance: number;
  here: Point;
  there: Point;
  evaluations: number;
  radius: number;
  lambda: number;
  flatSteps: number;
}

/**
 * Finds the weighted least-squares estimate of the parameters of any residual function.
 *
 * @param problem - residuals with analytic Jacobian, start, bounds, weights
 * @param options - kind of weights, allowance of iterations, final relative offset
 * @returns the minimum with covariance and a report; `report.status` says whether it can be used
 * @throws {InvalidArgumentError} if lengths disagree, a number is not finite, a lower bound lies
 *   above the upper, the start lies outside the bounds, or residuals at the start are not finite
 * @source [MORE1978], [BW1988]
 */
export function leastSquares(
  problem: LeastSquaresProblem,
  options: LeastSquaresOptions = {},
): LeastSquaresFit {
  checkProblem(problem);
  const { start, fixed } = problem;
  const count = start.length;
  const { weightKind = 'relative', maxIterations = 1000 } = options;
  const { offsetTolerance = 1e-10, reductionTolerance = 4 * ROUNDING } = options;
  const buffers = takeBuffers(problem);
  const { linear, work, history, step, move, points } = buffers;
  const search: Search = {
    problem,
    linear,
    work,
    history,
    step,
    move,
    maxIterations,
    offsetTolerance,
    reductionTolerance,
    here: points[0],
    there: points[1],
    evaluations: 1,
    radius: -1,
    lambda: 0,
    flatSteps: 0,
  };
  search.here.parameters.set(start);
  evaluateAt(problem, search.here, linear.roots);
  if (search.here.square === Infinity) {
    throw new InvalidArgumentError('leastSquares', 'start', start, 'a point with finite residuals');
  }
  let permitted = count;
  if (fixed) for (const stays of fixed) if (stays) permitted--;
  const enough = linear.usable >= permitted;
  const test = enough ? iterate(search) : 'iterations';
  const { here, evaluations } = search;
  const fit = fitFromPoint(problem, here, linear, { enough, test, evaluations, weightKind });
  keepBuffers(buffers);
  return fit;
}

/** Steps until a test ends the search. */
function iterate(search: Search): StopTest {
  const { problem, linear } = search;
  while (search.evaluations < search.maxIterations) {
    if (search.here.square === 0) return 'exact';
    linearise(problem, search.here, linear);
    if (linear.freeCount === 0) return 'nothing-free';
    if (linear.offset <= search.offsetTolerance) return 'relative-offset';
    if (search.radius < 0) setFirstRadius(search);
    const polishable = linear.rank === linear.freeCount && linear.offset < OFFSET_TO_POLISH;
    const test = (polishable ? polish(search) : null) ?? descend(search);
    if (test !== null) return test;
  }
  return 'iterations';
}

/**
 * Gauss-Newton steps while they lower the relative offset. Returns a test that ends the search, or
 * null with the linearisation current if damped steps must go on from here.
 */
function polish(search: Search): StopTest | null {
  const { problem, linear, history, step, move } = search;
  const n = problem.residualCount;
  history.filled = 0;
  while (search.evaluations < search.maxIterations) {
    const before = linear.offset;
    gaussNewtonStep(linear.columns, n, linear.freeCount, linear.right, step);
    if (blockedByBound(search)) return null;
    spread(search);
    const free = linear.freeCount;
    accelerate(history, search.here.parameters, move, linear.scale);
    tryMove(search);
    const kept = search.here;
    if (search.there.square <= kept.square * (1 + FLAT)) {
      swap(search);
      linearise(problem, search.here, linear);
      if (search.here.square === 0) return 'exact';
      if (linear.offset <= search.offsetTolerance) return 'relative-offset';
      if (linear.offset < before && linear.rank === linear.freeCount) {
        if (linear.freeCount !== free) history.filled = 0;
        continue;
      }
      swap(search);
    }
    linearise(problem, search.here, linear);
    if (history.filled > 1) {
      history.filled = 0;
      continue;
    }
    return before < OFFSET_AT_ROUNDING ? 'relative-offset' : null;
  }
  return 'iterations';
}

/**
 * Damped steps until one is accepted (null) or a test ends the search. The linearisation must be
 * current.
 */
function descend(search: Search): StopTest | null {
  const { problem, linear, step } = search;
  const n = problem.residualCount;
  const { columns, right, scale } = linear;
  while (search.evaluations < search.maxIterations) {
    const { freeCount, rank } = linear;
    search.lambda = trustRegionStep(
      columns,
      n,
      freeCount,
      rank,
      right,
      search.radius,
      search.lambda,
      step,
      search.work,
    );
    if (blockedByBound(search)) {
      linearise(problem, search.here, linear);
      if (linear.freeCount === 0) break;
      continue;
    }
    spread(search);
    tryMove(search);
    const { here, there } = search;
    let square = 0;
    for (let k = 0; k < freeCount; k++) {
      const j = parameterOf(linear, k);
      const moved = (there.parameters[j] as number) - (here.parameters[j] as number);
      step[k] = moved * (scale[j] as number);
      square += (step[k] as number) * (step[k] as number);
    }
    const length = Math.sqrt(square);
    // The linear model's promise for the step as it was cut off by the bounds: -(2 slope + bend).
    let slope = 0;
    let bend = 0;
    for (let i = 0; i < freeCount; i++) {
      let product = 0;
      for (let k = i; k < freeCount; k++) {
        product += (columns[k * n + i] as number) * (step[k] as number);
      }
      slope += product * (right[i] as number);
      bend += product * product;
    }
    const promised = -(2 * slope + bend);
    const actual = here.square - there.square;
    const ratio = promised > 0 ? actual / promised : actual > 0 ? 1 : -1;
    if (search.evaluations === 2) search.radius = Math.min(search.radius, length);
    adjustRadius(search, ratio, length, slope, actual);
    const size = scaledSize(search);
    const accepted = ratio > 1e-4 && actual > 0;
    if (accepted) {
      swap(search);
      linear.held.fill(0);
    }
    const flat = search.reductionTolerance * here.square;
    search.flatSteps = Math.abs(actual) <= flat && promised <= flat ? search.flatSteps + 1 : 0;
    const rounding = 4 * ROUNDING * here.square;
    const exhausted = Math.abs(actual) <= rounding && promised <= rounding;
    if (search.flatSteps >= 3 || exhausted) return 'reduction';
    if (length <= ROUNDING * size || search.radius <= ROUNDING * size) return 'step';
    if (accepted) return null;
  }
  return search.evaluations < search.maxIterations ? 'step' : 'iterations';
}

/** [MORE1978] section 4: widens the radius after a good step, narrows it after a poor one. */
function adjustRadius(
  search: Search,
  ratio: number,
  length: number,
  slope: number,
  actual: number,
): void {
  if (ratio <= 0.25) {
    // The minimum of the parabola through both squares with the slope at the start.
    let factor = actual < 0 && slope < 0 ? Math.min(0.5, slope / (2 * slope + actual)) : 0.5;
    if (!(factor >= 0.1)) factor = 0.1;
    search.radius = factor * Math.min(search.radius, 10 * length);
    search.lambda /= factor;
  } else if (search.lambda === 0 || ratio >= 0.75) {
    search.radius = Math.max(search.radius, 2 * length);
    search.lambda *= 0.5;
  }
}

/** Moves within the bounds by `move` and evaluates there. */
function tryMove(search: Search): void {
  const { lower, upper } = search.problem;
  const { here, there, move } = search;
  for (let j = 0; j < move.length; j++) {
    let next = (here.parameters[j] as number) + (move[j] as number);
    if (lower && next < (lower[j] as number)) next = lower[j] as number;
    if (upper && next > (upper[j] as number)) next = upper[j] as number;
    there.parameters[j] = next;
  }
  evaluateAt(search.problem, there, search.linear.roots);
  search.evaluations++;
}

/** Spreads the scaled step of the columns over the parameters. */
function spread(search: Search): void {
  const { linear, step, move } = search;
  move.fill(0);
  for (let k = 0; k < linear.freeCount; k++) {
    const j = parameterOf(linear, k);
    const scale = linear.scale[j] as number;
    move[j] = scale > 0 ? (step[k] as number) / scale : 0;
  }
}

/** True if a step leads out of a bound that its parameter is at; that parameter is then held. */
function blockedByBound(search: Search): boolean {
  const { lower, upper } = search.problem;
  if (!lower && !upper) return false;
  const { linear, step } = search;
  const { parameters } = search.here;
  let found = false;
  for (let k = 0; k < linear.freeCount; k++) {
    const j = parameterOf(linear, k);
    const value = parameters[j] as number;
    const down = lower !== undefined && value <= (lower[j] as number);
    const up = upper !== undefined && value >= (upper[j] as number);
    if ((down && (step[k] as number) < 0) || (up && (step[k] as number) > 0)) {
      linear.held[j] = 1;
      found = true;
    }
  }
  return found;
}

function parameterOf(linear: Linearisation, column: number): number {
  return linear.free[linear.pivot[column] as number] as number;
}

function swap(search: Search): void {
  const { here } = search;
  search.here = search.there;
  search.there = here;
}

function setFirstRadius(search: Search): void {
  const size = scaledSize(search);
  search.radius = FIRST_RADIUS * (size > 0 ? size : 1);
}

function scaledSize(search: Search): number {
  const { scale } = search.linear;
  const { parameters } = search.here;
  let sum = 0;
  for (let j = 0; j < parameters.length; j++) {
    const value = (scale[j] as number) * (parameters[j] as number);
    sum += value * value;
  }
  return Math.sqrt(sum);
}
