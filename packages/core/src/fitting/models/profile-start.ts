/**
 * Starting values where one parameter is a factor: y = b f(x; others). For each candidate of the
 * others the best b is known in closed form.
 *
 * Sources: variable projection, [GP1973], on a grid. Deviations: a grid in place of iteration.
 */

/** A candidate's other parameters and its f at x. */
export interface Candidate {
  readonly others: readonly number[];
  readonly share: number;
}

/**
 * The best of `count` candidates, as [b, ...others].
 *
 * @param candidate - gives candidate k's parameters and its f(x)
 */
export function profileStart(
  x: readonly number[],
  y: readonly number[],
  count: number,
  candidate: (k: number, x: number) => Candidate,
): number[] {
  let best: number[] = [1, ...candidate(0, 0).others];
  let least = Infinity;
  for (let k = 0; k < count; k++) {
    let ff = 0;
    let fy = 0;
    let yy = 0;
    for (let i = 0; i < x.length; i++) {
      const { share } = candidate(k, x[i] ?? 0);
      const value = y[i] ?? 0;
      ff += share * share;
      fy += share * value;
      yy += value * value;
    }
    if (!(ff > 0)) continue;
    const rest = yy - (fy * fy) / ff;
    if (rest < least) {
      least = rest;
      best = [fy / ff, ...candidate(k, 0).others];
    }
  }
  return best;
}
