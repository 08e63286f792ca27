/**
 * A polynomial through readings, y = sum_k b_k x^k, whose powers are taken in twice the working
 * precision, so that raw powers far from the origin lose nothing.
 *
 * Sources: [NIST-STRD] Filip, where powers rounded to working precision spoil half the digits.
 * Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import { productRest } from './double-double.ts';
import { linearLeastSquares, type DesignColumn, type LinearFit } from './linear-least-squares.ts';

/**
 * Fits a polynomial; coefficients in ascending powers.
 *
 * @param x - abscissae, finite
 * @param y - observations, as many
 * @param degree - whole number of at least 0
 * @throws {InvalidArgumentError} if lengths differ, a number is not finite or the degree is not a
 *   whole number of at least 0
 * @example
 * polynomialLeastSquares([0, 1, 2, 3], [1, 3, 5, 7], 1).coefficients; // => [1, 2]
 */
export function polynomialLeastSquares(
  x: readonly number[],
  y: readonly number[],
  degree: number,
): LinearFit {
  if (!(Number.isInteger(degree) && degree >= 0)) {
    throw new InvalidArgumentError(
      'polynomialLeastSquares',
      'degree',
      degree,
      'a whole number of at least 0',
    );
  }
  const columns: DesignColumn[] = [];
  let values = new Float64Array(x.length).fill(1);
  let remainders = new Float64Array(x.length);
  for (let k = 0; k <= degree; k++) {
    columns.push({ values, remainders });
    const next = new Float64Array(x.length);
    const nextRest = new Float64Array(x.length);
    for (let i = 0; i < x.length; i++) {
      const at = x[i] as number;
      const product = (values[i] as number) * at;
      const rest = productRest(values[i] as number, at, product) + (remainders[i] as number) * at;
      next[i] = product + rest;
      nextRest[i] = rest - ((next[i] as number) - product);
    }
    values = next;
    remainders = nextRest;
  }
  return linearLeastSquares(columns, y);
}
