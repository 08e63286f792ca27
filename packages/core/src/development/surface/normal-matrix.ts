/** J'J over some rows of a Jacobian and some of its columns. */

/**
 * @param jacobian - row-major
 * @param size - columns of the Jacobian
 * @param columns - those that count, in order
 * @param from - first row
 * @param to - row after the last
 * @returns row-major, as large as there are columns that count
 */
export function normalMatrix(
  jacobian: Float64Array,
  size: number,
  columns: readonly number[],
  from: number,
  to: number,
): Float64Array {
  const order = columns.length;
  const matrix = new Float64Array(order * order);
  for (let i = from; i < to; i++) {
    for (let a = 0; a < order; a++) {
      const left = jacobian[i * size + (columns[a] ?? 0)] ?? 0;
      if (left === 0) continue;
      for (let b = 0; b < order; b++) {
        const at = a * order + b;
        matrix[at] = (matrix[at] ?? 0) + left * (jacobian[i * size + (columns[b] ?? 0)] ?? 0);
      }
    }
  }
  return matrix;
}
