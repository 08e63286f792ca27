/**
 * Householder QR with column pivoting, in place, for small column-major matrices.
 *
 *   A P = Q R,  b <- Q' b
 *
 * Sources: [GVL2013] algorithm 5.4.1. Deviations: the norms that choose the pivot are computed
 * anew in each round; with at most a dozen columns that costs less than guarding a downdate.
 */

/**
 * Factorises the first `columns` columns of `a` and applies Q' to `b`.
 *
 * @param a - column-major, column j in a[j * rows ... j * rows + rows); R overwrites the upper part
 * @param rows - number of rows n
 * @param columns - number of columns to factorise
 * @param b - right-hand side, length n, overwritten by Q'b
 * @param pivot - receives the order of the columns: column k of R is column pivot[k] of A. The
 *   columns themselves are moved.
 */
export function pivotedQr(
  a: Float64Array,
  rows: number,
  columns: number,
  b: Float64Array,
  pivot: Int32Array,
): void {
  for (let j = 0; j < columns; j++) pivot[j] = j;
  for (let k = 0; k < columns && k < rows; k++) {
    choosePivot(a, rows, columns, k, pivot);
    const start = k * rows;
    let norm = 0;
    for (let i = k; i < rows; i++) norm += at(a, start + i) * at(a, start + i);
    norm = Math.sqrt(norm);
    if (norm === 0) continue;
    const head = at(a, start + k);
    const alpha = head > 0 ? -norm : norm;
    // v = (head - alpha, below ...); the factor 2 / v'v = -1 / (alpha * v0)
    const v0 = head - alpha;
    const factor = 1 / (alpha * v0);
    a[start + k] = v0;
    for (let j = k + 1; j < columns; j++) reflect(a, start, a, j * rows, k, rows, factor);
    reflect(a, start, b, 0, k, rows, factor);
    a[start + k] = alpha;
  }
}

function choosePivot(
  a: Float64Array,
  rows: number,
  columns: number,
  k: number,
  pivot: Int32Array,
): void {
  let best = k;
  let bestNorm = -1;
  for (let j = k; j < columns; j++) {
    let norm = 0;
    for (let i = k; i < rows; i++) norm += at(a, j * rows + i) * at(a, j * rows + i);
    if (norm > bestNorm) {
      bestNorm = norm;
      best = j;
    }
  }
  if (best === k) return;
  for (let i = 0; i < rows; i++) {
    const keep = at(a, k * rows + i);
    a[k * rows + i] = at(a, best * rows + i);
    a[best * rows + i] = keep;
  }
  const keep = pivot[k] ?? 0;
  pivot[k] = pivot[best] ?? 0;
  pivot[best] = keep;
}

function reflect(
  v: Float64Array,
  vStart: number,
  target: Float64Array,
  targetStart: number,
  from: number,
  rows: number,
  factor: number,
): void {
  let dot = 0;
  for (let i = from; i < rows; i++) dot += at(v, vStart + i) * at(target, targetStart + i);
  dot *= factor;
  for (let i = from; i < rows; i++) {
    target[targetStart + i] = at(target, targetStart + i) + dot * at(v, vStart + i);
  }
}

function at(array: Float64Array, index: number): number {
  return array[index] as number;
}
