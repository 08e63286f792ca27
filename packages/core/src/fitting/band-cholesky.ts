/**
 * Cholesky factorisation of symmetric band matrices with three diagonals below the main one, as
 * cubic splines have them: A = L L'. Entry (i, i - d) stands at band[4 i + d], d = 0 to 3; what lies
 * before the first column is not read.
 *
 *   Z = A^-1 by columns from the last:  Z_ij = ([i = j] / L_jj - sum_k L_kj Z_ik) / L_jj,  i >= j,
 *   k = j + 1 to j + 3
 *
 * Sources: [GVL2013] section 4.3.5, the band factor; the inverse from L'Z = L^-1, whose part above
 * the diagonal is 0 (derived). Deviations: the diagonal of the factor is kept as 1 / L_jj.
 */

/** Entries a row. */
export const BAND_WIDTH = 4;

/**
 * Factorises in place.
 *
 * @param band - of `order` rows; receives L, its diagonal inverted
 * @returns ln |A|, or null where A is not positive definite to rounding
 */
export function bandFactor(band: Float64Array, order: number): number | null {
  let logDeterminant = 0;
  for (let i = 0; i < order; i++) {
    const at = i * BAND_WIDTH;
    const before = band[at] as number;
    let l3 = 0;
    let l2 = 0;
    let l1 = 0;
    if (i > 2) l3 = (band[at + 3] as number) * (band[at - 12] as number);
    if (i > 1) l2 = (band[at + 2] as number) - (i > 2 ? l3 * (band[at - 7] as number) : 0);
    if (i > 1) l2 *= band[at - 8] as number;
    if (i > 0) {
      l1 = band[at + 1] as number;
      if (i > 2) l1 -= l3 * (band[at - 2] as number);
      if (i > 1) l1 -= l2 * (band[at - 3] as number);
      l1 *= band[at - 4] as number;
    }
    const pivot = before - l1 * l1 - l2 * l2 - l3 * l3;
    if (!(pivot > 1e-14 * before)) return null;
    logDeterminant += Math.log(pivot);
    band[at] = 1 / Math.sqrt(pivot);
    band[at + 1] = l1;
    band[at + 2] = l2;
    band[at + 3] = l3;
  }
  return logDeterminant;
}

/** b <- A^-1 b from the factor. */
export function bandSolve(factor: Float64Array, order: number, b: Float64Array): void {
  for (let i = 0; i < order; i++) {
    const at = i * BAND_WIDTH;
    let sum = b[i] as number;
    if (i > 0) sum -= (factor[at + 1] as number) * (b[i - 1] as number);
    if (i > 1) sum -= (factor[at + 2] as number) * (b[i - 2] as number);
    if (i > 2) sum -= (factor[at + 3] as number) * (b[i - 3] as number);
    b[i] = sum * (factor[at] as number);
  }
  for (let i = order - 1; i >= 0; i--) {
    const at = i * BAND_WIDTH;
    let sum = b[i] as number;
    if (i + 1 < order) sum -= (factor[at + 5] as number) * (b[i + 1] as number);
    if (i + 2 < order) sum -= (factor[at + 10] as number) * (b[i + 2] as number);
    if (i + 3 < order) sum -= (factor[at + 15] as number) * (b[i + 3] as number);
    b[i] = sum * (factor[at] as number);
  }
}

/** A^-1 from the factor, row-major. */
export function bandInverse(factor: Float64Array, order: number): Float64Array {
  const z = new Float64Array(order * order);
  for (let j = order - 1; j >= 0; j--) {
    const at = j * BAND_WIDTH;
    const root = factor[at] as number;
    const reach = Math.min(order - 1, j + 3);
    for (let i = order - 1; i >= j; i--) {
      let sum = i === j ? root : 0;
      for (let k = j + 1; k <= reach; k++) {
        sum -= (factor[k * BAND_WIDTH + k - j] as number) * (z[i * order + k] as number);
      }
      const value = sum * root;
      z[i * order + j] = value;
      z[j * order + i] = value;
    }
  }
  return z;
}
