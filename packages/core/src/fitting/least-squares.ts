/**
 * Weighted nonlinear least squares: a trust-region Levenberg-Marquardt method with bounds.
 *
 *   minimise  sum_i w_i r_i(p)^2,  lower <= p <= upper
 *
 * Each step solves the linearised problem by QR within a radius measured in columns scaled by the
 * greatest length they have had. Parameters at a bound that the gradient pushes outwards are held
 * there; steps that would leave the bounds are cut off at them. When the relative offset is small,
 * undamped Gauss-Newton steps polish the minimum to rounding.
 *
 * Sources: [MORE1978] the step, the scaling and the radius; [BW1988] section 2.2.3, the relative
 * offset. Deviations: bounds by an active set, and the polish.
 */
import { InvalidArgumentError } from '../errors.ts';
import { covarianceFromTriangle } from './covariance-from-triangle.ts';
import type {
  FitStatus,
  LeastSquaresFit,
  LeastSquaresOptions,
  LeastSquaresProblem,
  StopTest,
} from './least-squares-types.ts';
import { pivotedQr } from './pivoted-qr.ts';
import { gaussNewtonStep, stepWorkspace, trustRegionStep } from './trust-region-step.ts';

/** First radius in lengths of the scaled start. 100 loses BoxBOD from its far start. */
const FIRST_RADIUS = 3;
/** Relative offset below which the polish takes over. */
const OFFSET_TO_POLISH = 1e-4;
/** Relative offset that counts as zero. */
const OFFSET_ZERO = 1e-13;
const ROUNDING = 2 ** -52;

/**
 * Finds the weighted least-squares estimate of the parameters of any residual function.
 *
 * @param problem - residuals with analytic Jacobian, start, bounds, weights
 * @param options - kind of weights, allowance of iterations
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
  const { residualCount: n, start, evaluate } = problem;
  const count = start.length;
  const { weightKind = 'relative', maxIterations = 1000 } = options;

  let parameters = Float64Array.from(start);
  let residuals = new Float64Array(n);
  let jacobian = new Float64Array(n * count);
  let trialParameters = new Float64Array(count);
  let trialResiduals = new Float64Array(n);
  let trialJacobian = new Float64Array(n * count);
  const columns = new Float64Array(n * count);
  const right = new Float64Array(n);
  const scale = new Float64Array(count);
  const step = new Float64Array(count);
  const move = new Float64Array(count);
  const free = new Int32Array(count);
  const pivot = new Int32Array(count);
  const held = new Uint8Array(count);
  const work = stepWorkspace(count);
  const { lower, upper, fixed, weights } = problem;
  const roots = weights ? Float64Array.from(weights, Math.sqrt) : null;
  let usable = n;
  if (weights) for (const weight of weights) if (weight === 0) usable--;

  evaluate(parameters, residuals, jacobian);
  let evaluations = 1;
  let square = sumOfSquares(residuals, roots, n);
  if (!Number.isFinite(square)) {
    throw new InvalidArgumentError('leastSquares', 'start', start, 'a point with finite residuals');
  }

  let freeCount = 0;
  let rank = 0;
  let condition = 1;
  let offset = Infinity;
  let test: StopTest = 'iterations';
  let radius = -1;
  let lambda = 0;
  let polishing = false;

  const permitted = fixed ? start.filter((_, j) => fixed[j] !== true).length : count;
  const enough = usable >= permitted;

  /** Chooses the free parameters from the gradient; keeps those in `held` out. */
  const chooseFree = (): void => {
    freeCount = 0;
    for (let j = 0; j < count; j++) {
      if (fixed?.[j] === true || held[j] === 1) continue;
      const value = at(parameters, j);
      const atLower = lower !== undefined && value <= (lower[j] ?? -Infinity);
      const atUpper = upper !== undefined && value >= (upper[j] ?? Infinity);
      if (atLower || atUpper) {
        let gradient = 0;
        for (let i = 0; i < n; i++) {
          const weight = weights ? (weights[i] ?? 0) : 1;
          gradient += weight * at(jacobian, i * count + j) * at(residuals, i);
        }
        if ((atLower && gradient > 0) || (atUpper && gradient < 0)) continue;
      }
      free[freeCount++] = j;
    }
  };

  /** Scales and factorises the free columns; sets rank, condition and relative offset. */
  const factorise = (scaling: Float64Array): void => {
    for (let k = 0; k < freeCount; k++) {
      const j = at32(free, k);
      let length = 0;
      for (let i = 0; i < n; i++) {
        const value = at(jacobian, i * count + j) * (roots ? at(roots, i) : 1);
        columns[k * n + i] = value;
        length += value * value;
      }
      length = Math.sqrt(length);
      if (length > at(scaling, j)) scaling[j] = length;
      const factor = at(scaling, j) > 0 ? 1 / at(scaling, j) : 1;
      for (let i = 0; i < n; i++) columns[k * n + i] = at(columns, k * n + i) * factor;
    }
    for (let i = 0; i < n; i++) right[i] = at(residuals, i) * (roots ? at(roots, i) : 1);
    pivotedQr(columns, n, freeCount, right, pivot);
    rank = 0;
    const first = Math.abs(at(columns, 0));
    let last = first;
    while (rank < freeCount && rank < n) {
      const diagonal = Math.abs(at(columns, rank * n + rank));
      if (!(diagonal > ROUNDING * n * first)) break;
      last = diagonal;
      rank++;
    }
    condition = freeCount === 0 ? 1 : rank < freeCount ? Infinity : first / last;
    let tangent = 0;
    let normal = 0;
    for (let i = 0; i < n; i++) {
      if (i < rank) tangent += at(right, i) * at(right, i);
      else normal += at(right, i) * at(right, i);
    }
    if (tangent === 0) offset = 0;
    else if (usable > freeCount) {
      offset = Math.sqrt(tangent / Math.max(1, rank) / (normal / (usable - rank)));
    } else offset = Infinity;
  };

  /** Moves to parameters + step within the bounds and evaluates there; the trial's squares. */
  const tryStep = (): number => {
    move.fill(0);
    for (let k = 0; k < freeCount; k++) {
      const j = at32(free, at32(pivot, k));
      move[j] = at(scale, j) > 0 ? at(step, k) / at(scale, j) : 0;
    }
    for (let j = 0; j < count; j++) {
      let next = at(parameters, j) + at(move, j);
      if (lower && next < (lower[j] ?? -Infinity)) next = lower[j] ?? next;
      if (upper && next > (upper[j] ?? Infinity)) next = upper[j] ?? next;
      trialParameters[j] = next;
    }
    evaluate(trialParameters, trialResiduals, trialJacobian);
    evaluations++;
    const result = sumOfSquares(trialResiduals, roots, n);
    return Number.isFinite(result) ? result : Infinity;
  };

  const accept = (trialSquare: number): void => {
    [parameters, trialParameters] = [trialParameters, parameters];
    [residuals, trialResiduals] = [trialResiduals, residuals];
    [jacobian, trialJacobian] = [trialJacobian, jacobian];
    square = trialSquare;
  };

  /** True if a step leads out of a bound that its parameter is at; that parameter is then held. */
  const holdBlocked = (): boolean => {
    if (!lower && !upper) return false;
    let found = false;
    for (let k = 0; k < freeCount; k++) {
      const j = at32(free, at32(pivot, k));
      const value = at(parameters, j);
      const out =
        (at(step, k) < 0 && lower !== undefined && value <= (lower[j] ?? -Infinity)) ||
        (at(step, k) > 0 && upper !== undefined && value >= (upper[j] ?? Infinity));
      if (out) {
        held[j] = 1;
        found = true;
      }
    }
    return found;
  };

  let blocked = false;
  while (enough && evaluations < maxIterations) {
    if (square === 0) {
      test = 'exact';
      break;
    }
    if (!blocked) held.fill(0);
    chooseFree();
    if (freeCount === 0) {
      test = 'nothing-free';
      break;
    }
    factorise(scale);
    if (offset <= OFFSET_ZERO) {
      test = 'relative-offset';
      break;
    }
    polishing = rank === freeCount && offset < OFFSET_TO_POLISH;
    if (radius < 0) {
      let length = 0;
      for (let j = 0; j < count; j++) length += (at(scale, j) * at(parameters, j)) ** 2;
      radius = FIRST_RADIUS * (length > 0 ? Math.sqrt(length) : 1);
    }
    if (polishing) {
      const before = offset;
      gaussNewtonStep(columns, n, freeCount, right, step);
      if (holdBlocked()) {
        blocked = true;
        continue;
      }
      blocked = false;
      const trialSquare = tryStep();
      if (trialSquare <= square * (1 + 1e-9)) {
        const keep = square;
        accept(trialSquare);
        held.fill(0);
        chooseFree();
        factorise(scale);
        if (offset < 0.5 * before) continue;
        test = 'relative-offset';
        if (offset < before) break;
        accept(keep);
        break;
      }
      test = 'relative-offset';
      if (before < 1e-6) break;
    }
    // Damped steps until one is accepted.
    let outcome: 'accepted' | 'blocked' | 'stop' = 'stop';
    while (evaluations < maxIterations) {
      lambda = trustRegionStep(columns, n, freeCount, rank, right, radius, lambda, step, work);
      if (holdBlocked()) {
        outcome = 'blocked';
        break;
      }
      const trialSquare = tryStep();
      let length = 0;
      let size = 0;
      for (let k = 0; k < freeCount; k++) {
        const j = at32(free, at32(pivot, k));
        const moved = (at(trialParameters, j) - at(parameters, j)) * at(scale, j);
        step[k] = moved;
        length += moved * moved;
        size += (at(parameters, j) * at(scale, j)) ** 2;
      }
      length = Math.sqrt(length);
      size = Math.sqrt(size);
      // Reduction that the linear model promised for the step as it was cut off by the bounds.
      let slope = 0;
      let bend = 0;
      for (let i = 0; i < freeCount; i++) {
        let product = 0;
        for (let k = i; k < freeCount; k++) product += at(columns, k * n + i) * at(step, k);
        slope += product * at(right, i);
        bend += product * product;
      }
      const promised = -(2 * slope + bend);
      const actual = square - trialSquare;
      const ratio = promised > 0 ? actual / promised : actual > 0 ? 1 : -1;
      if (evaluations === 2) radius = Math.min(radius, length);
      if (ratio <= 0.25) {
        let factor = 0.5;
        if (actual < 0 && slope < 0) factor = Math.min(0.5, slope / (2 * slope + actual));
        if (!Number.isFinite(trialSquare) || !(factor >= 0.1)) factor = 0.1;
        radius = factor * Math.min(radius, length / 0.1);
        lambda /= factor;
      } else if (lambda === 0 || ratio >= 0.75) {
        radius = Math.max(radius, 2 * length);
        lambda *= 0.5;
      }
      const accepted = ratio > 1e-4 && actual > 0;
      if (accepted) {
        accept(trialSquare);
        outcome = 'accepted';
      }
      if (Math.abs(actual) <= 4 * ROUNDING * square && promised <= 4 * ROUNDING * square) {
        test = 'reduction';
        outcome = 'stop';
      } else if (length <= ROUNDING * size || radius <= ROUNDING * size) {
        test = 'step';
        outcome = 'stop';
      }
      if (outcome !== 'stop' || test === 'reduction' || test === 'step') break;
    }
    blocked = outcome === 'blocked';
    if (outcome === 'stop') break;
  }

  // The state of the minimum, with columns scaled by their own lengths.
  held.fill(0);
  chooseFree();
  scale.fill(0);
  factorise(scale);
  const atBound: boolean[] = [];
  for (let j = 0; j < count; j++) atBound.push(fixed?.[j] !== true);
  for (let k = 0; k < freeCount; k++) atBound[at32(free, k)] = false;
  const degreesOfFreedom = Math.max(0, usable - freeCount);
  const status: FitStatus = !enough
    ? 'too-few-data'
    : test === 'iterations'
      ? 'not-converged'
      : rank < freeCount
        ? 'rank-deficient'
        : 'converged';
  const variance =
    weightKind === 'absolute'
      ? 1
      : degreesOfFreedom > 0 && enough
        ? square / degreesOfFreedom
        : null;
  const covariance =
    rank === freeCount && enough && variance !== null
      ? covarianceFromTriangle(columns, n, freeCount, pivot, free, scale, count, variance)
      : null;
  const standardErrors: (number | null)[] = [];
  for (let j = 0; j < count; j++) {
    const isFree = covariance !== null && atBound[j] !== true && fixed?.[j] !== true;
    standardErrors.push(isFree ? Math.sqrt(covariance[j * count + j] ?? 0) : null);
  }
  return {
    parameters: Array.from(parameters),
    standardErrors,
    covariance,
    residuals: Array.from(residuals),
    residualSumOfSquares: square,
    residualStandardDeviation:
      enough && degreesOfFreedom > 0 ? Math.sqrt(square / degreesOfFreedom) : null,
    degreesOfFreedom,
    atBound,
    report: {
      status,
      test,
      iterations: evaluations,
      rank,
      condition,
      relativeOffset: square === 0 ? 0 : offset,
    },
  };
}

function checkProblem(problem: LeastSquaresProblem): void {
  const { residualCount, start, lower, upper, fixed, weights } = problem;
  const name = 'leastSquares';
  if (!(Number.isInteger(residualCount) && residualCount > 0)) {
    throw new InvalidArgumentError(name, 'residualCount', residualCount, 'a positive integer');
  }
  if (!(start.length > 0 && start.every(Number.isFinite))) {
    throw new InvalidArgumentError(name, 'start', start, 'a list of finite numbers');
  }
  for (const [argument, list] of [
    ['lower', lower],
    ['upper', upper],
    ['fixed', fixed],
  ] as const) {
    if (list && list.length !== start.length) {
      throw new InvalidArgumentError(name, argument, list, `a list of ${start.length}`);
    }
  }
  start.forEach((value, j) => {
    const low = lower?.[j] ?? -Infinity;
    const high = upper?.[j] ?? Infinity;
    if (!(low <= high)) {
      throw new InvalidArgumentError(name, `lower[${j}]`, low, `at most upper[${j}] = ${high}`);
    }
    if (!(value >= low && value <= high)) {
      throw new InvalidArgumentError(name, `start[${j}]`, value, `within [${low}, ${high}]`);
    }
  });
  if (weights) {
    const good = weights.length === residualCount && weights.every((w) => w >= 0 && w < Infinity);
    if (!good) {
      throw new InvalidArgumentError(
        name,
        'weights',
        weights,
        `${residualCount} finite numbers of at least 0`,
      );
    }
  }
}

function sumOfSquares(residuals: Float64Array, roots: Float64Array | null, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const value = at(residuals, i) * (roots ? at(roots, i) : 1);
    sum += value * value;
  }
  return sum;
}

function at(array: Float64Array, index: number): number {
  return array[index] as number;
}

function at32(array: Int32Array, index: number): number {
  return array[index] as number;
}
