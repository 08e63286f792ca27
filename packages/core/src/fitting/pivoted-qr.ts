/**
 * Householder QR with column pivoting, in place, for small column-major matrices.
 *
 *   A P = Q R,  b <- Q' b
 *
 * Sources: [GVL2013] algorithm 5.4.1, with the norms that choose the pivot downdated. Deviations:
 * a norm is computed anew when most of it has cancelled; columns are reflected in pairs, as the
 * sums of one wait for each other.
 */

/** Share of the original squared norm, about 1, below which a downdated one is not trusted. */
const CANCELLED = 1e-6;

/** A squared norm that its own reciprocal would not survive; columns are scaled to about 1. */
const VANISHED = 1e-250;

/**
 * Factorises the first `columns` columns of `a` and applies Q' to the one after them.
 *
 * @param a - column-major, column j in a[j * rows ... (j + 1) * rows): the matrix, the right-hand
 *   side b, and one column of room. R overwrites the upper part, Q'b the right-hand side
 * @param rows - number of rows
 * @param columns - number of columns to factorise
 * @param labels - one a column; they move with their columns
 * @param squares - in: squared norms of the columns; overwritten
 */
export function pivotedQr(
  a: Float64Array,
  rows: number,
  columns: number,
  labels: Int32Array,
  squares: Float64Array,
): void {
  for (let k = 0; k < columns && k < rows; k++) {
    let best = k;
    for (let j = k + 1; j < columns; j++) {
      if ((squares[j] as number) > (squares[best] as number)) best = j;
    }
    if (best !== k) swapColumns(a, rows, k, best, labels, squares);
    const start = k * rows;
    const end = start + rows;
    const top = start + k;
    let square = 0;
    for (let i = top; i < end; i++) square += (a[i] as number) * (a[i] as number);
    if (!(square > VANISHED)) {
      a.fill(0, top, end);
      continue;
    }
    const head = a[top] as number;
    const alpha = head > 0 ? -Math.sqrt(square) : Math.sqrt(square);
    // v = (head - alpha, below ...), and 2 / v'v = -1 / (alpha v0)
    const v0 = head - alpha;
    const factor = 1 / (alpha * v0);
    a[top] = v0;
    for (let j = k + 1; j <= columns; j += 2) {
      const shift = j * rows - start;
      const other = shift + rows;
      let dot = 0;
      let dotOther = 0;
      for (let i = top; i < end; i++) {
        const v = a[i] as number;
        dot += v * (a[i + shift] as number);
        dotOther += v * (a[i + other] as number);
      }
      dot *= factor;
      dotOther *= factor;
      for (let i = top; i < end; i++) {
        const v = a[i] as number;
        a[i + shift] = (a[i + shift] as number) + dot * v;
        a[i + other] = (a[i + other] as number) + dotOther * v;
      }
    }
    a[top] = alpha;
    for (let j = k + 1; j < columns; j++) {
      const above = j * rows + k;
      let left = (squares[j] as number) - (a[above] as number) ** 2;
      if (!(left > CANCELLED)) {
        left = 0;
        for (let i = above + 1; i < (j + 1) * rows; i++) left += (a[i] as number) ** 2;
      }
      squares[j] = left;
    }
  }
}

function swapColumns(
  a: Float64Array,
  rows: number,
  first: number,
  second: number,
  labels: Int32Array,
  squares: Float64Array,
): void {
  for (let i = first * rows, j = second * rows; i < (first + 1) * rows; i++, j++) {
    const keep = a[i] as number;
    a[i] = a[j] as number;
    a[j] = keep;
  }
  const keep = labels[first] as number;
  labels[first] = labels[second] as number;
  labels[second] = keep;
  squares[second] = squares[first] as number;
}
