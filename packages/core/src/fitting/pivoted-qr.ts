/**
 * Householder QR with column pivoting, in place, for small column-major matrices.
 *
 *   A P = Q R,  b <- Q' b
 *
 * Sources: [GVL2013] algorithm 5.4.1, with the norms that choose the pivot downdated. Deviations:
 * a norm is computed anew when most of it has cancelled.
 */

/** Share of a squared norm below which a downdated value is no longer trusted. */
const CANCELLED = 1e-6;

/** A squared norm that its own reciprocal would not survive; columns are scaled to about 1. */
const VANISHED = 1e-250;

/**
 * Factorises the first `columns` columns of `a` and applies Q' to `b`.
 *
 * @param a - column-major, column j in a[j * rows ... (j + 1) * rows); R overwrites the upper part
 * @param rows - number of rows
 * @param columns - number of columns to factorise
 * @param b - right-hand side, length `rows`, overwritten by Q'b
 * @param pivot - receives the order: column k of R is column pivot[k] of A. The columns move.
 * @param squares - in: squared norms of the columns; overwritten
 * @param originals - room for as many numbers
 */
export function pivotedQr(
  a: Float64Array,
  rows: number,
  columns: number,
  b: Float64Array,
  pivot: Int32Array,
  squares: Float64Array,
  originals: Float64Array,
): void {
  for (let j = 0; j < columns; j++) {
    pivot[j] = j;
    originals[j] = squares[j] as number;
  }
  for (let k = 0; k < columns && k < rows; k++) {
    let best = k;
    for (let j = k + 1; j < columns; j++) {
      if ((squares[j] as number) > (squares[best] as number)) best = j;
    }
    if (best !== k) swapColumns(a, rows, k, best, pivot, squares, originals);
    const start = k * rows;
    let square = 0;
    for (let i = start + k; i < start + rows; i++) square += (a[i] as number) * (a[i] as number);
    if (!(square > VANISHED)) {
      a.fill(0, start + k, start + rows);
      continue;
    }
    const head = a[start + k] as number;
    const alpha = head > 0 ? -Math.sqrt(square) : Math.sqrt(square);
    // v = (head - alpha, below ...), and 2 / v'v = -1 / (alpha v0)
    const v0 = head - alpha;
    const factor = 1 / (alpha * v0);
    a[start + k] = v0;
    for (let j = k + 1; j < columns; j++) {
      const shift = j * rows - start;
      let dot = 0;
      for (let i = start + k; i < start + rows; i++) {
        dot += (a[i] as number) * (a[i + shift] as number);
      }
      dot *= factor;
      for (let i = start + k; i < start + rows; i++) {
        a[i + shift] = (a[i + shift] as number) + dot * (a[i] as number);
      }
      const top = a[j * rows + k] as number;
      let left = (squares[j] as number) - top * top;
      if (!(left > CANCELLED * (originals[j] as number))) {
        left = 0;
        for (let i = j * rows + k + 1; i < (j + 1) * rows; i++) {
          left += (a[i] as number) * (a[i] as number);
        }
        originals[j] = left;
      }
      squares[j] = left;
    }
    let dot = 0;
    for (let i = k; i < rows; i++) dot += (a[start + i] as number) * (b[i] as number);
    dot *= factor;
    for (let i = k; i < rows; i++) b[i] = (b[i] as number) + dot * (a[start + i] as number);
    a[start + k] = alpha;
  }
}

function swapColumns(
  a: Float64Array,
  rows: number,
  first: number,
  second: number,
  pivot: Int32Array,
  squares: Float64Array,
  originals: Float64Array,
): void {
  for (let i = 0; i < rows; i++) {
    const keep = a[first * rows + i] as number;
    a[first * rows + i] = a[second * rows + i] as number;
    a[second * rows + i] = keep;
  }
  const keep = pivot[first] as number;
  pivot[first] = pivot[second] as number;
  pivot[second] = keep;
  squares[second] = squares[first] as number;
  originals[second] = originals[first] as number;
}
