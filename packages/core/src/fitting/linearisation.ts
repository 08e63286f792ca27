/**
 * The least-squares problem linearised at a point: free parameters, scaled and factorised columns,
 * rank and relative offset.
 *
 *   relative offset = sqrt(|Q1'r|^2 / p) / sqrt(|Q2'r|^2 / (n - p))
 *
 * with Q1 spanning the tangent plane and Q2 its complement: how far the point is from the minimum,
 * in units of the size of the confidence region.
 *
 * Sources: [BW1988] section 2.2.3, the offset; [MORE1978] section 6, the scaling by the greatest
 * column norms so far. Deviations: parameters at a bound that the gradient pushes outwards are
 * left out.
 */
import { pivotedQr } from './pivoted-qr.ts';
import type { Point, Search } from './search.ts';

const ROUNDING = 2 ** -52;

/** Evaluates residuals, Jacobian and the weighted sum of squares at the point's parameters. */
export function evaluateAt(search: Search, point: Point): void {
  const { residuals } = point;
  const { roots, n } = search;
  search.problem.evaluate(point.parameters, residuals, point.jacobian);
  search.evaluations++;
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const value = roots
      ? (residuals[i] as number) * (roots[i] as number)
      : (residuals[i] as number);
    sum += value * value;
  }
  point.square = Number.isFinite(sum) ? sum : Infinity;
}

/** Linearises where the search stands, scaling the columns by the greatest lengths so far. */
export function linearise(search: Search): void {
  chooseFree(search);
  fillColumns(search);
  const { columns, n, freeCount, usable } = search;
  pivotedQr(columns, n, freeCount, search.free, search.squares);
  const first = Math.abs(columns[0] as number);
  let rank = 0;
  while (rank < freeCount && Math.abs(columns[rank * n + rank] as number) > ROUNDING * n * first) {
    rank++;
  }
  search.rank = rank;
  const right = freeCount * n;
  let tangent = 0;
  let normal = 0;
  for (let i = 0; i < n; i++) {
    const square = (columns[right + i] as number) ** 2;
    if (i < rank) tangent += square;
    else normal += square;
  }
  search.offset =
    tangent === 0
      ? 0
      : usable > rank
        ? Math.sqrt(tangent / rank / (normal / (usable - rank)))
        : Infinity;
}

/** Condition estimate of the scaled columns, from their R; Infinity when singular. */
export function conditionOf({ columns, n, freeCount, rank }: Search): number {
  if (freeCount === 0) return 1;
  const last = (freeCount - 1) * (n + 1);
  return rank < freeCount ? Infinity : Math.abs((columns[0] as number) / (columns[last] as number));
}

/** Leaves out parameters that are fixed, held, or at a bound that the gradient pushes against. */
function chooseFree(search: Search): void {
  const { lower, upper, fixed } = search.problem;
  const { parameters } = search.here;
  let freeCount = 0;
  for (let j = 0; j < search.count; j++) {
    if (fixed?.[j] === true || search.held[j] === 1) continue;
    const value = parameters[j] as number;
    const atLower = lower !== undefined && value <= (lower[j] as number);
    const atUpper = upper !== undefined && value >= (upper[j] as number);
    if (atLower || atUpper) {
      const gradient = gradientOf(search, j);
      if ((atLower && (gradient > 0 || atUpper)) || (atUpper && gradient < 0)) continue;
    }
    search.free[freeCount++] = j;
  }
  search.freeCount = freeCount;
}

function gradientOf({ here, roots, n, count }: Search, j: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const weight = roots ? (roots[i] as number) ** 2 : 1;
    sum += weight * (here.jacobian[i * count + j] as number) * (here.residuals[i] as number);
  }
  return sum;
}

/** Copies free columns, each divided by its scale, and residuals, all weighted. */
function fillColumns(search: Search): void {
  const { columns, scale, free, freeCount, squares, roots, n, count } = search;
  const { residuals, jacobian } = search.here;
  let leastShare = 1;
  for (let k = 0; k < freeCount; k++) {
    const j = free[k] as number;
    const start = k * n;
    let square = 0;
    for (let i = 0; i < n; i++) {
      let value = jacobian[i * count + j] as number;
      if (roots) value *= roots[i] as number;
      columns[start + i] = value;
      square += value * value;
    }
    const length = Math.sqrt(square);
    if (length > (scale[j] as number)) scale[j] = length;
    const factor = (scale[j] as number) > 0 ? 1 / (scale[j] as number) : 1;
    for (let i = start; i < start + n; i++) columns[i] = (columns[i] as number) * factor;
    squares[k] = square * factor * factor;
    leastShare = Math.min(leastShare, length * factor);
  }
  search.leastShare = leastShare;
  const right = freeCount * n;
  for (let i = 0; i < n; i++) {
    const value = residuals[i] as number;
    columns[right + i] = roots ? value * (roots[i] as number) : value;
  }
}
