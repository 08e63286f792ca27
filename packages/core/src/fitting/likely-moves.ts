/**
 * Places of a strip from which on a small move of all later exposures would lower the sum of squares
 * most, by the linear part of the move.
 *
 *   g_k = (d_k' M e)^2 / (d_k' M d_k),  d_k = dD/dx from step k on, 0 before
 *
 * e the residuals, M what the tangent plane of the fit leaves: g_k is what the sum of squares would
 * lose if the later readings could be moved by any amount. All places and both directions are told
 * by one pass, as the sums over the later readings grow step by step.
 *
 * Sources: [BW1988] section 2.2, the tangent plane; [DS1998] section 6.3, the extra sum of squares.
 * Deviations: none.
 */
import type { TangentBasis } from './tangent-basis.ts';

/** A place, which way its later readings would move, and the gain. */
export interface LikelyMove {
  /** Number of the first step moved, from 0. */
  readonly k: number;
  /** 1 towards greater exposures, -1 towards smaller ones. */
  readonly by: 1 | -1;
  /** What the sum of squares would lose, in its unit. */
  readonly gain: number;
}

/** The readings about a fitted curve. */
export interface MoveProblem {
  /** Number of each reading's step in ascending order of exposure, -1 for the unexposed film. */
  readonly places: readonly number[];
  readonly stepCount: number;
  /** dD/dx of the curve at each reading. */
  readonly gradients: ArrayLike<number>;
  /** Model minus reading. */
  readonly residuals: ArrayLike<number>;
  readonly basis: TangentBasis;
}

/**
 * The gains of all places with at least so many steps beside.
 *
 * @param beside - steps that must lie on either side of a place
 * @returns one move a place, the way that the residuals ask for; none where nothing would be gained
 */
export function likelyMoves(problem: MoveProblem, beside: number): LikelyMove[] {
  const { places, stepCount, gradients, residuals, basis } = problem;
  const { q, rows, columns } = basis;
  const order = places.map((_, i) => i);
  order.sort((a, b) => (places[b] as number) - (places[a] as number));
  const dots = new Float64Array(columns);
  let along = 0;
  let length = 0;
  let next = 0;
  const moves: LikelyMove[] = [];
  for (let k = stepCount - 1; k >= beside; k--) {
    while (next < rows && (places[order[next] as number] as number) >= k) {
      const i = order[next++] as number;
      const d = gradients[i] as number;
      along -= d * (residuals[i] as number);
      length += d * d;
      for (let c = 0; c < columns; c++) {
        dots[c] = (dots[c] as number) + d * (q[c * rows + i] as number);
      }
    }
    if (k > stepCount - beside) continue;
    let square = length;
    for (let c = 0; c < columns; c++) square -= (dots[c] as number) ** 2;
    // Residuals are model minus reading: moving on must raise the model where it lies too low.
    if (along === 0 || !(square > 1e-9 * length)) continue;
    moves.push({ k, by: along > 0 ? 1 : -1, gain: (along * along) / square });
  }
  return moves;
}

/**
 * Exposures with all from a place on taken one step further, or one back.
 *
 * @param places - number of each reading's step, -1 for the unexposed film
 * @param x - log exposures as written
 * @param steps - the steps' log exposures, ascending, at least two
 */
export function movedFrom(
  places: readonly number[],
  x: readonly number[],
  steps: readonly number[],
  { k, by }: Pick<LikelyMove, 'k' | 'by'>,
): number[] {
  const m = steps.length;
  const beyond = 2 * (steps[m - 1] as number) - (steps[m - 2] as number);
  return places.map((j, i) => (j < k ? (x[i] as number) : (steps[j + by] ?? beyond)));
}
