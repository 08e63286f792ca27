/**
 * ln(1 + exp(z)) and its derivative, safe at both ends. Deviations: none.
 */

/** ln(1 + exp(z)): 0 at -Infinity, z at great z. */
export function softplus(z: number): number {
  return z > 0 ? z + Math.log1p(Math.exp(-z)) : Math.log1p(Math.exp(z));
}

/** 1 / (1 + exp(-z)): 0 at -Infinity, 1 at Infinity. */
export function sigmoid(z: number): number {
  return 1 / (1 + Math.exp(-z));
}
