/**
 * Weighted nonlinear least squares: a trust-region Levenberg-Marquardt method with bounds.
 *
 *   minimise  sum_i w_i r_i(p)^2,  lower <= p <= upper
 *
 * Each step solves the linearised problem by QR within a radius measured in columns scaled by the
 * greatest length they have had. Parameters at a bound that the gradient pushes outwards are held
 * there; steps that would leave the bounds are cut off at them. When the relative offset is small,
 * undamped, accelerated Gauss-Newton steps polish the minimum to rounding. Residuals whose squares are
 * lost to underflow end the search; `least-squares-in-units.ts` goes on from there.
 *
 * Sources: [MORE1978] the step, the scaling and the radius; [BW1988] section 2.2.3, the relative
 * offset. Deviations: bounds by an active set; the polish.
 */
import { refusing } from '../errors.ts';
import { accelerate } from './accelerated-step.ts';
import { checkProblem } from './check-problem.ts';
import { fitFromSearch } from './fit-from-search.ts';
import { evaluateAt, linearise } from './linearisation.ts';
import type {
  LeastSquaresFit,
  LeastSquaresOptions,
  LeastSquaresProblem,
  StopTest,
} from './least-squares-types.ts';
import { keepSearch, takeSearch, type Search } from './search.ts';
import { gaussNewtonStep, trustRegionStep } from './trust-region-step.ts';

/** First radius in lengths of the scaled start. 100 loses BoxBOD from its far start. */
const FIRST_RADIUS = 3;
/** Relative offset below which the polish begins. */
const OFFSET_TO_POLISH = 0.1;
/** Relative offset at which a step that no longer lowers it shows rounding, not trouble. */
const OFFSET_AT_ROUNDING = 1e-7;
/** A sum of squares may rise by this share in the polish: it is flat to rounding there. */
const FLAT = 1e-9;
const ROUNDING = 2 ** -52;
/** Below this a sum of squares has lost digits to underflow. */
const LEAST_SQUARE = 1e-290;

/** The options with their defaults. */
interface Allowance {
  readonly maxIterations: number;
  readonly offsetTolerance: number;
  readonly reductionTolerance: number;
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
  const allowance: Allowance = {
    maxIterations: options.maxIterations ?? 1000,
    offsetTolerance: options.offsetTolerance ?? 1e-10,
    reductionTolerance: options.reductionTolerance ?? 4 * ROUNDING,
  };
  const search = takeSearch(problem);
  evaluateAt(search, search.here);
  let permitted = search.count;
  if (fixed) for (const stays of fixed) if (stays) permitted--;
  const enough = search.usable >= permitted;
  const absolute = options.weightKind === 'absolute';
  if (search.here.square === Infinity) {
    refusing('leastSquares')('start', start, 'a point with finite residuals');
  }
  const test = enough ? iterate(search, allowance) : null;
  const fit = fitFromSearch(search, test && squaresLost(search) ? 'underflow' : test, absolute);
  keepSearch(search);
  return fit;
}

/** True where residuals are not 0 but the sum of their squares has lost digits to underflow. */
function squaresLost({ here, roots }: Search): boolean {
  if (here.square >= LEAST_SQUARE) return false;
  return here.residuals.some((residual, i) => residual !== 0 && (roots?.[i] ?? 1) !== 0);
}

/** Steps until a test ends the search. */
function iterate(search: Search, allowance: Allowance): StopTest {
  while (search.evaluations < allowance.maxIterations) {
    if (search.here.square === 0) return 'exact';
    linearise(search);
    if (search.freeCount === 0) return 'nothing-free';
    if (search.offset <= allowance.offsetTolerance) return 'relative-offset';
    if (search.radius < 0) search.radius = FIRST_RADIUS * (scaledSize(search) || 1);
    const polishable = search.rank === search.freeCount && search.offset < OFFSET_TO_POLISH;
    const test = (polishable ? polish(search, allowance) : null) ?? descend(search, allowance);
    if (test !== null) return test;
  }
  return 'iterations';
}

/**
 * Gauss-Newton steps while they lower the relative offset. Returns a test that ends the search, or
 * null with the linearisation current if damped steps must go on from here.
 */
function polish(search: Search, allowance: Allowance): StopTest | null {
  const { columns, n, history } = search;
  history.filled = 0;
  while (search.evaluations < allowance.maxIterations) {
    const before = search.offset;
    const free = search.freeCount;
    gaussNewtonStep(columns, n, free, search.step);
    if (blockedByBound(search)) return null;
    spread(search);
    accelerate(history, search.here.parameters, search.move, search.scale);
    tryMove(search);
    const flat = search.here.square * (1 + FLAT);
    if (search.there.square <= flat) {
      swap(search);
      linearise(search);
      if (search.here.square === 0) return 'exact';
      if (search.offset <= allowance.offsetTolerance) return 'relative-offset';
      if (search.offset < before && search.rank === search.freeCount) {
        if (search.freeCount !== free) history.filled = 0;
        continue;
      }
      swap(search);
    }
    linearise(search);
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
function descend(search: Search, allowance: Allowance): StopTest | null {
  const { columns, n, scale, step, free } = search;
  while (search.evaluations < allowance.maxIterations) {
    trustRegionStep(search);
    if (blockedByBound(search)) {
      linearise(search);
      if (search.freeCount === 0) break;
      continue;
    }
    spread(search);
    tryMove(search);
    const { here, there, freeCount } = search;
    const right = freeCount * n;
    let length = 0;
    for (let k = 0; k < freeCount; k++) {
      const j = free[k] as number;
      const moved = (there.parameters[j] as number) - (here.parameters[j] as number);
      step[k] = moved * (scale[j] as number);
      length += (step[k] as number) ** 2;
    }
    length = Math.sqrt(length);
    // The linear model's promise for the step as it was cut off by the bounds: -(2 slope + bend).
    let slope = 0;
    let bend = 0;
    for (let i = 0; i < freeCount; i++) {
      let product = 0;
      for (let k = i; k < freeCount; k++) {
        product += (columns[k * n + i] as number) * (step[k] as number);
      }
      slope += product * (columns[right + i] as number);
      bend += product * product;
    }
    const promised = -(2 * slope + bend);
    const actual = here.square - there.square;
    const ratio = promised > 0 ? actual / promised : actual > 0 ? 1 : -1;
    if (search.evaluations === 2) search.radius = Math.min(search.radius, length);
    adjustRadius(search, ratio, length, slope, actual);
    const size = ROUNDING * scaledSize(search);
    const accepted = ratio > 1e-4 && actual > 0;
    if (accepted) {
      swap(search);
      search.held.fill(0);
    }
    const gain = Math.max(Math.abs(actual), promised);
    const flat = gain <= allowance.reductionTolerance * here.square;
    search.flatSteps = flat ? search.flatSteps + 1 : 0;
    if (search.flatSteps >= 3 || gain <= 4 * ROUNDING * here.square) return 'reduction';
    if (length <= size || search.radius <= size) return 'step';
    if (accepted) return null;
  }
  return search.evaluations < allowance.maxIterations ? 'step' : 'iterations';
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
  evaluateAt(search, there);
}

/** Spreads the scaled step of the columns over the parameters. */
function spread({ freeCount, free, scale, step, move }: Search): void {
  move.fill(0);
  for (let k = 0; k < freeCount; k++) {
    const j = free[k] as number;
    move[j] = (scale[j] as number) > 0 ? (step[k] as number) / (scale[j] as number) : 0;
  }
}

/** True if a step leads out of a bound that its parameter is at; that parameter is then held. */
function blockedByBound({ problem, here, freeCount, free, step, held }: Search): boolean {
  const { lower, upper } = problem;
  let found = false;
  for (let k = 0; k < freeCount; k++) {
    const j = free[k] as number;
    const value = here.parameters[j] as number;
    const down = lower !== undefined && value <= (lower[j] as number);
    const up = upper !== undefined && value >= (upper[j] as number);
    if ((down && (step[k] as number) < 0) || (up && (step[k] as number) > 0)) {
      held[j] = 1;
      found = true;
    }
  }
  return found;
}

function swap(search: Search): void {
  const { here } = search;
  search.here = search.there;
  search.there = here;
}

/** Length of the scaled parameters. */
function scaledSize({ scale, here, count }: Search): number {
  let sum = 0;
  for (let j = 0; j < count; j++) {
    sum += ((scale[j] as number) * (here.parameters[j] as number)) ** 2;
  }
  return Math.sqrt(sum);
}
