/**
 * All that a search for a least-squares minimum works on: the problem, where it stands, the problem
 * linearised there, and every array. A strip has the shape of the strip before it, so that searches
 * are kept for the next problem of their shape: making the arrays anew took a fifth of the time of
 * a fit. A search in use is not among those kept, so that a search within a search gets its own.
 */
import { newStepHistory, type StepHistory } from './accelerated-step.ts';
import type { LeastSquaresProblem } from './least-squares-types.ts';
import { stepWorkspace, type StepWorkspace } from './trust-region-step.ts';

/** Where the iteration stands. */
export interface Point {
  readonly parameters: Float64Array;
  /** Unweighted. */
  readonly residuals: Float64Array;
  /** Row-major n x P, unweighted. */
  readonly jacobian: Float64Array;
  /** Weighted sum of squares; Infinity outside the model's domain. */
  square: number;
}

/** State and room of a search for the minimum of one problem. */
export interface Search {
  problem: LeastSquaresProblem;
  /** Number of parameters P. */
  readonly count: number;
  /** Number of residuals. */
  readonly n: number;
  here: Point;
  there: Point;
  evaluations: number;
  radius: number;
  lambda: number;
  flatSteps: number;

  // The linear problem, written anew by each `linearise`.
  /**
   * Column-major, n rows: the free columns, scaled; then, as column `freeCount`, the weighted
   * residuals. Holds R and Q'r after the factorisation. One column more is room for `pivotedQr`.
   */
  readonly columns: Float64Array;
  /** Greatest column lengths so far, by parameter. */
  readonly scale: Float64Array;
  /** The first `freeCount` entries: column k of R belongs to parameter free[k]. */
  readonly free: Int32Array;
  /** 1 for parameters to be left out whatever the gradient says. */
  readonly held: Uint8Array;
  readonly squares: Float64Array;
  /** Roots of the weights; null where all are 1. */
  roots: Float64Array | null;
  /** Residuals with a weight above 0. */
  usable: number;
  freeCount: number;
  /** Least ratio of a column's length to its scale. */
  leastShare: number;
  rank: number;
  /** Relative offset. */
  offset: number;

  readonly work: StepWorkspace;
  readonly history: StepHistory;
  /** Step by column of R, scaled. */
  readonly step: Float64Array;
  /** Step by parameter. */
  readonly move: Float64Array;
}

/** Where every search begins. */
const AT_START = {
  evaluations: 0,
  radius: -1,
  lambda: 0,
  flatSteps: 0,
  freeCount: 0,
  leastShare: 1,
  rank: 0,
  offset: Infinity,
};

/** Shapes kept at a time; a strip is fitted by about as many families. */
const MOST_KEPT = 8;
const kept: Search[] = [];

/** A search for a problem, at its start. */
export function takeSearch(problem: LeastSquaresProblem): Search {
  const { residualCount: n, weights, start } = problem;
  const count = start.length;
  const place = kept.findIndex((one) => one.count === count && one.n === n);
  const search = place < 0 ? newSearch(problem, count, n) : (kept.splice(place, 1)[0] as Search);
  search.problem = problem;
  search.here.parameters.set(start);
  Object.assign(search, AT_START);
  search.history.filled = 0;
  search.scale.fill(0);
  search.held.fill(0);
  search.roots = weights ? Float64Array.from(weights, Math.sqrt) : null;
  search.usable = weights ? weights.filter((weight) => weight > 0).length : n;
  return search;
}

/** Keeps a search that has ended for the next problem of its shape. */
export function keepSearch(search: Search): void {
  if (kept.length >= MOST_KEPT) kept.shift();
  kept.push(search);
}

function newSearch(problem: LeastSquaresProblem, count: number, n: number): Search {
  const room = (length: number): Float64Array => new Float64Array(length);
  const point = (): Point => ({
    parameters: room(count),
    residuals: room(n),
    jacobian: room(n * count),
    square: Infinity,
  });
  return {
    problem,
    count,
    n,
    here: point(),
    there: point(),
    ...AT_START,
    columns: room(n * (count + 2)),
    scale: room(count),
    free: new Int32Array(count),
    held: new Uint8Array(count),
    squares: room(count),
    roots: null,
    usable: n,
    work: stepWorkspace(count),
    history: newStepHistory(count),
    step: room(count),
    move: room(count),
  };
}
