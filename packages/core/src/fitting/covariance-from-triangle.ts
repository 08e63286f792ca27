/**
 * Covariance of least-squares estimates from the pivoted triangle of the Jacobian.
 *
 *   C = sigma^2 D^-1 P R^-1 R^-T P' D^-1
 *
 * Sources: [BW1988] section 2.3. Deviations: none.
 */
import type { Search } from './search.ts';

/**
 * Row-major covariance of all parameters; rows and columns of those not free are zero.
 *
 * @param search - with a current linearisation of full rank
 * @param variance - sigma^2
 */
export function covarianceFromTriangle(search: Search, variance: number): number[] {
  const { columns: r, freeCount: order, free, scale, n, count } = search;
  // The step has ended: its room is free.
  const inverse = search.work.s;
  for (let j = 0; j < order; j++) {
    for (let i = j; i >= 0; i--) {
      let sum = i === j ? 1 : 0;
      for (let k = i + 1; k <= j; k++) {
        sum -= (r[k * n + i] as number) * (inverse[k * order + j] as number);
      }
      inverse[i * order + j] = sum / (r[i * n + i] as number);
    }
  }
  const covariance = new Array<number>(count * count).fill(0);
  for (let a = 0; a < order; a++) {
    const first = free[a] as number;
    for (let b = a; b < order; b++) {
      const second = free[b] as number;
      let sum = 0;
      for (let k = b; k < order; k++) {
        sum += (inverse[a * order + k] as number) * (inverse[b * order + k] as number);
      }
      const value = (variance * sum) / ((scale[first] as number) * (scale[second] as number));
      covariance[first * count + second] = value;
      covariance[second * count + first] = value;
    }
  }
  return covariance;
}
