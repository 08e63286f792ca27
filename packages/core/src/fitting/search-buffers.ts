/**
 * The arrays that a search for a minimum works in. A strip has the shape of the strip before it,
 * so that arrays are kept for the next search of the same shape: making them anew took a fifth of
 * the time of a fit. Buffers in use are not among those kept, so that a search within a search gets
 * its own.
 */
import { newStepHistory, type StepHistory } from './accelerated-step.ts';
import type { LeastSquaresProblem } from './least-squares-types.ts';
import { newLinearisation, newPoint, type Linearisation, type Point } from './linearisation.ts';
import { stepWorkspace, type StepWorkspace } from './trust-region-step.ts';

/** All arrays of one search. */
export interface SearchBuffers {
  readonly count: number;
  readonly n: number;
  readonly linear: Linearisation;
  readonly work: StepWorkspace;
  readonly history: StepHistory;
  /** Step by column of R, scaled. */
  readonly step: Float64Array;
  /** Step by parameter. */
  readonly move: Float64Array;
  readonly points: readonly [Point, Point];
}

/** Shapes kept at a time; a strip is fitted by about as many families. */
const MOST_KEPT = 8;
const kept: SearchBuffers[] = [];

/** Buffers for a problem, clean. */
export function takeBuffers(problem: LeastSquaresProblem): SearchBuffers {
  const { residualCount: n, weights } = problem;
  const count = problem.start.length;
  const place = kept.findIndex((buffers) => buffers.count === count && buffers.n === n);
  const buffers = place < 0 ? newBuffers(count, n) : (kept.splice(place, 1)[0] as SearchBuffers);
  const { linear, history } = buffers;
  linear.scale.fill(0);
  linear.held.fill(0);
  linear.roots = weights ? Float64Array.from(weights, Math.sqrt) : null;
  linear.usable = weights ? weights.filter((weight) => weight > 0).length : n;
  linear.offset = Infinity;
  linear.leastShare = 1;
  history.filled = 0;
  return buffers;
}

/** Keeps buffers for the next search of their shape. */
export function keepBuffers(buffers: SearchBuffers): void {
  if (kept.length >= MOST_KEPT) kept.shift();
  kept.push(buffers);
}

function newBuffers(count: number, n: number): SearchBuffers {
  return {
    count,
    n,
    linear: newLinearisation(count, n),
    work: stepWorkspace(count),
    history: newStepHistory(count),
    step: new Float64Array(count),
    move: new Float64Array(count),
    points: [newPoint(count, n), newPoint(count, n)],
  };
}
