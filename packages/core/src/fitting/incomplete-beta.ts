/**
 * The regularised incomplete beta function and the logarithm of the gamma function.
 *
 *   I_x(a, b) = x^a (1-x)^b / (a B(a, b)) * 1 / (1 + d1 / (1 + d2 / (1 + ...)))
 *
 * Sources: [AS1964] 26.5.8 (continued fraction), 6.1.41 (Stirling's series). Deviations: none.
 */

/** Stirling's coefficients B_2k / (2k (2k - 1)). */
const STIRLING = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360];

/** ln Gamma(x) for x > 0. */
export function logGamma(x: number): number {
  let shift = 0;
  let z = x;
  while (z < 12) {
    shift += Math.log(z);
    z += 1;
  }
  let series = 0;
  for (let k = STIRLING.length - 1; k >= 0; k--) {
    series = series / (z * z) + (STIRLING[k] ?? 0);
  }
  return (z - 0.5) * Math.log(z) - z + 0.5 * Math.log(2 * Math.PI) + series / z - shift;
}

/**
 * I_x(a, b).
 *
 * @param x - in [0, 1]
 * @param a - above 0
 * @param b - above 0
 */
export function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const front = Math.exp(
    logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x),
  );
  // Lentz's evaluation of the continued fraction, term by term: d_2m, then d_2m+1.
  let c = 1;
  let d = 1 / notZero(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let k = 2; k < 20_000; k++) {
    const m = k >> 1;
    const top = k % 2 === 0 ? m * (b - m) : -(a + m) * (a + b + m);
    const term = (top * x) / ((a + k - 1) * (a + k));
    d = 1 / notZero(1 + term * d);
    c = notZero(1 + term / c);
    const change = d * c;
    fraction *= change;
    if (k % 2 === 1 && Math.abs(change - 1) < 1e-16) break;
  }
  return (front * fraction) / a;
}

const notZero = (value: number): number => (Math.abs(value) < 1e-300 ? 1e-300 : value);
