import { expect } from 'vitest';
/** Half a unit in the last printed decimal: the tolerance a table printed to `decimals` places supports. */
export const printedTo = (decimals: number) => 0.5 * 10 ** -decimals * (1 + 1e-9);
export function expectWithin(actual: number, expected: number, abs: number, what = 'value') {
  const error = Math.abs(actual - expected);
  expect(
    error <= abs,
    `${what}: got ${actual}, expected ${expected} ± ${abs} (off by ${error})`,
  ).toBe(true);
}
