/**
 * Sums and products to twice the working precision, as an unevaluated sum high + low.
 *
 * Sources: [DEKKER1971] the exact product by splitting; [KNUTH1997] section 4.2.2, the exact sum.
 * Deviations: none.
 */

const SPLITTER = 134217729; // 2^27 + 1

/** A running sum; `high + low` to twice the working precision. */
export interface Accumulator {
  high: number;
  low: number;
}

/** Adds a number to the sum. */
export function addTo(sum: Accumulator, value: number): void {
  const total = sum.high + value;
  const back = total - sum.high;
  const error = sum.high - (total - back) + (value - back);
  const low = sum.low + error;
  sum.high = total + low;
  sum.low = low - (sum.high - total);
}

/** Adds the exact product a * b to the sum. */
export function addProductTo(sum: Accumulator, a: number, b: number): void {
  const product = a * b;
  const rest = productRest(a, b, product);
  addTo(sum, product);
  addTo(sum, rest);
}

/** a * b - product, exact where nothing overflows. */
export function productRest(a: number, b: number, product: number): number {
  const ta = SPLITTER * a;
  const aHigh = ta - (ta - a);
  const aLow = a - aHigh;
  const tb = SPLITTER * b;
  const bHigh = tb - (tb - b);
  const bLow = b - bHigh;
  return aLow * bLow - (product - aHigh * bHigh - aLow * bHigh - aHigh * bLow);
}
