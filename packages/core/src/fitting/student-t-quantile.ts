/**
 * Quantile of Student's t distribution.
 *
 *   P(T <= t) = 1 - I_{v/(v+t^2)}(v/2, 1/2) / 2,  t > 0
 *
 * solved for t by Newton's method from the normal quantile, kept within a bracket.
 *
 * Sources: [AS1964] 26.7.1, 26.5.8. Deviations: none.
 */
import { OutOfDomainError } from '../errors.ts';
import { incompleteBeta, logGamma } from './incomplete-beta.ts';

/**
 * Number t below which a share p of the distribution lies.
 *
 * @param p - probability, in (0, 1)
 * @param degreesOfFreedom - above 0; Infinity gives the normal quantile
 * @throws {OutOfDomainError} if p or the degrees of freedom are outside their range
 * @source [AS1964] 26.7
 * @example
 * studentTQuantile(0.975, 10); // => 2.2281388519649385
 */
export function studentTQuantile(p: number, degreesOfFreedom: number): number {
  if (!(p > 0 && p < 1)) throw new OutOfDomainError('studentTQuantile', 'p', p, [0, 1]);
  if (!(degreesOfFreedom > 0)) {
    throw new OutOfDomainError('studentTQuantile', 'degreesOfFreedom', degreesOfFreedom, [
      0,
      Infinity,
    ]);
  }
  if (p === 0.5) return 0;
  if (p < 0.5) return -studentTQuantile(1 - p, degreesOfFreedom);
  const v = Math.min(degreesOfFreedom, 1e9);
  const logDensity0 = logGamma((v + 1) / 2) - logGamma(v / 2) - 0.5 * Math.log(v * Math.PI);
  let low = 0;
  let high = 1;
  while (studentTUpperTail(high, v) > 1 - p && high < 1e300) high *= 2;
  let t = high / 2;
  for (let round = 0; round < 200; round++) {
    const excess = studentTUpperTail(t, v) - (1 - p);
    if (excess > 0) low = t;
    else high = t;
    const density = Math.exp(logDensity0 - ((v + 1) / 2) * Math.log1p((t * t) / v));
    let next = t + excess / density;
    if (!(next > low && next < high)) next = (low + high) / 2;
    if (Math.abs(next - t) <= 1e-15 * Math.abs(t)) return next;
    t = next;
  }
  return t;
}

/**
 * Probability of a value above t.
 *
 * @param t - at least 0
 * @param degreesOfFreedom - above 0
 */
export function studentTUpperTail(t: number, degreesOfFreedom: number): number {
  const v = degreesOfFreedom;
  return 0.5 * incompleteBeta(v / (v + t * t), v / 2, 0.5);
}
