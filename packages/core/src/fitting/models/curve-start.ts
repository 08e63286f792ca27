/**
 * First guesses for every family of characteristic curve, from the readings alone.
 */

/** What the readings show at a glance. */
export interface CurveSketch {
  /** Density of the unexposed film, or of the least exposed step. */
  readonly minimumDensity: number;
  readonly maximumDensity: number;
  /** Steepest chord over about a quarter of the range, density per log exposure; above 0. */
  readonly slope: number;
  /** Middle of that chord. */
  readonly middleLogExposure: number;
  readonly middleDensity: number;
  /** Least and greatest finite log exposure. */
  readonly first: number;
  readonly last: number;
  /** Slope of the last chord over that of the steepest, in [0, 1]; near 1 without a shoulder. */
  readonly lastSlopeShare: number;
  /** Where the steepest chord, drawn on, meets the minimum density. */
  readonly toeCentre: number;
  /** From the density there: net ln 2 of slope times width. */
  readonly toeWidth: number;
  /** Where the steepest chord, drawn on, meets the maximum density. */
  readonly shoulderCentre: number;
  readonly shoulderWidth: number;
}

/**
 * Sketches a curve.
 *
 * @param x - log exposures, ascending, -Infinity for the unexposed film
 * @param y - densities
 */
export function curveSketch(x: readonly number[], y: readonly number[]): CurveSketch {
  let unexposed = 0;
  let unexposedSum = 0;
  while (unexposed < x.length && x[unexposed] === -Infinity) unexposedSum += y[unexposed++] ?? 0;
  const n = x.length - unexposed;
  const xAt = (i: number): number => x[unexposed + i] ?? 0;
  const yAt = (i: number): number => y[unexposed + i] ?? 0;
  let maximum = -Infinity;
  let minimum = Infinity;
  for (let i = 0; i < x.length; i++) {
    maximum = Math.max(maximum, y[i] ?? 0);
    minimum = Math.min(minimum, y[i] ?? 0);
  }
  const minimumDensity = unexposed > 0 ? unexposedSum / unexposed : minimum;
  const first = n > 0 ? xAt(0) : 0;
  const last = n > 0 ? xAt(n - 1) : 1;
  const span = Math.max(1, Math.round((n - 1) / 4));
  let slope = 0;
  let from = 0;
  let to = n - 1;
  let lastSlope = 0;
  for (let i = 0; i + span < n; i++) {
    const run = xAt(i + span) - xAt(i);
    const chord = run > 0 ? (yAt(i + span) - yAt(i)) / run : 0;
    if (chord > slope) {
      slope = chord;
      from = i;
      to = i + span;
    }
    lastSlope = chord;
  }
  if (!(slope > 0)) slope = Math.max(1e-3, (maximum - minimum) / Math.max(last - first, 1e-3));
  const middleLogExposure = (xAt(from) + xAt(to)) / 2;
  const middleDensity = (yAt(from) + yAt(to)) / 2;
  const toeCentre = middleLogExposure - Math.max(0, middleDensity - minimumDensity) / slope;
  const shoulderCentre = middleLogExposure + Math.max(0, maximum - middleDensity) / slope;
  const densityAt = (at: number): number => {
    let i = 0;
    while (i < n - 2 && xAt(i + 1) < at) i++;
    const run = xAt(i + 1) - xAt(i);
    const share = run > 0 ? Math.min(1, Math.max(0, (at - xAt(i)) / run)) : 0;
    return yAt(i) + share * (yAt(i + 1) - yAt(i));
  };
  // At its centre a bend is slope * width * ln 2 away from both lines it joins.
  const widthFrom = (departure: number): number => {
    const range = Math.max(last - first, 0.1);
    return Math.min(0.2 * range, Math.max(0.02 * range, departure / (slope * Math.LN2)));
  };
  return {
    minimumDensity,
    maximumDensity: maximum,
    slope,
    middleLogExposure,
    middleDensity,
    first,
    last,
    lastSlopeShare: Math.min(1, Math.max(0, lastSlope / slope)),
    toeCentre,
    toeWidth: n > 1 ? widthFrom(densityAt(toeCentre) - minimumDensity) : 0.1,
    shoulderCentre,
    shoulderWidth: n > 1 ? widthFrom(maximum - densityAt(shoulderCentre)) : 0.1,
  };
}
