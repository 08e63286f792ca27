/**
 * Decorrelates residuals of known covariance: r -> L^-1 r with C = L L'.
 *
 * Sources: [Seber2003] section 2.1. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';

/**
 * Prepares the transformation.
 *
 * @param covariance - row-major n x n, positive definite
 * @param size - n
 * @returns a function that replaces an n x `columns` row-major block by L^-1 times it
 * @throws InvalidArgumentError if the covariance is not positive definite
 */
export function whitener(
  covariance: readonly number[],
  size: number,
): (block: Float64Array, columns: number) => void {
  const lower = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = covariance[i * size + j] ?? 0;
      for (let k = 0; k < j; k++) {
        sum -= (lower[i * size + k] ?? 0) * (lower[j * size + k] ?? 0);
      }
      if (i === j) {
        if (!(sum > 0)) {
          throw new InvalidArgumentError('whitener', 'covariance', covariance, 'positive definite');
        }
        lower[i * size + i] = Math.sqrt(sum);
      } else {
        lower[i * size + j] = sum / (lower[j * size + j] ?? 1);
      }
    }
  }
  return (block, columns) => {
    for (let column = 0; column < columns; column++) {
      for (let i = 0; i < size; i++) {
        let sum = block[i * columns + column] ?? 0;
        for (let k = 0; k < i; k++) {
          sum -= (lower[i * size + k] ?? 0) * (block[k * columns + column] ?? 0);
        }
        block[i * columns + column] = sum / (lower[i * size + i] ?? 1);
      }
    }
  };
}
