/**
 * Cholesky factorisation of small symmetric matrices, row-major: A = L L'.
 *
 * Sources: [GVL2013] section 4.2. Deviations: none.
 */

/**
 * Factorises in place; the lower triangle receives L.
 *
 * @returns false where the matrix is not positive definite to rounding
 */
export function cholesky(a: Float64Array, order: number): boolean {
  for (let j = 0; j < order; j++) {
    const start = j * order;
    const before = a[start + j] as number;
    let diagonal = before;
    for (let k = 0; k < j; k++) diagonal -= (a[start + k] as number) * (a[start + k] as number);
    if (!(diagonal > 1e-14 * before)) return false;
    const root = Math.sqrt(diagonal);
    a[start + j] = root;
    for (let i = j + 1; i < order; i++) {
      const row = i * order;
      let sum = a[row + j] as number;
      for (let k = 0; k < j; k++) sum -= (a[row + k] as number) * (a[start + k] as number);
      a[row + j] = sum / root;
    }
  }
  return true;
}

/** b <- A^-1 b from the factor. */
export function choleskySolve(l: Float64Array, order: number, b: Float64Array): void {
  for (let i = 0; i < order; i++) {
    let sum = b[i] as number;
    for (let k = 0; k < i; k++) sum -= (l[i * order + k] as number) * (b[k] as number);
    b[i] = sum / (l[i * order + i] as number);
  }
  for (let i = order - 1; i >= 0; i--) {
    let sum = b[i] as number;
    for (let k = i + 1; k < order; k++) sum -= (l[k * order + i] as number) * (b[k] as number);
    b[i] = sum / (l[i * order + i] as number);
  }
}

/** A^-1 from the factor, row-major. */
export function choleskyInverse(l: Float64Array, order: number): Float64Array {
  // The inverse of L, then its product with its transpose.
  const m = new Float64Array(order * order);
  for (let j = 0; j < order; j++) {
    m[j * order + j] = 1 / (l[j * order + j] as number);
    for (let i = j + 1; i < order; i++) {
      let sum = 0;
      for (let k = j; k < i; k++)
        sum -= (l[i * order + k] as number) * (m[k * order + j] as number);
      m[i * order + j] = sum / (l[i * order + i] as number);
    }
  }
  const inverse = new Float64Array(order * order);
  for (let i = 0; i < order; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = 0;
      for (let k = i; k < order; k++)
        sum += (m[k * order + i] as number) * (m[k * order + j] as number);
      inverse[i * order + j] = sum;
      inverse[j * order + i] = sum;
    }
  }
  return inverse;
}
