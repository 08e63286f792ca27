/**
 * Inner parameters that keep the last natural one above 0 by its logarithm: widths, doses.
 */
import type { InnerParameters, ParameterBounds } from '../model.ts';

/**
 * The other parameters stay as they are.
 *
 * @param count - number of parameters
 * @param least - the least value of the last one, above 0
 * @param bounds - bounds on the inner parameters
 */
export function lastAsLogarithm(
  count: number,
  least: number,
  bounds: (x: readonly number[]) => ParameterBounds,
): InnerParameters {
  const last = count - 1;
  return {
    toNatural(u, p, chain) {
      chain.fill(0);
      for (let j = 0; j < last; j++) {
        p[j] = u[j] as number;
        chain[j * count + j] = 1;
      }
      const value = Math.exp(u[last] as number);
      p[last] = value;
      chain[last * count + last] = value;
    },
    fromNatural: (p) =>
      p.map((value, j) => (j === last ? Math.log(Math.max(value, least)) : value)),
    bounds,
  };
}
