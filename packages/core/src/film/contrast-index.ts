/**
 * Contrast index.
 *
 * On equal axes, a centre (x0, base + fog); the points of the curve at distance 0.2 and 2.2 from
 * it lie on one line through it, and the index is the slope of that line:
 *
 *   F1 = D(x0 + 0.2 cos a) - b - 0.2 sin a = 0
 *   F2 = D(x0 + 2.2 cos a) - b - 2.2 sin a = 0        CI = tan a
 *
 * Errors by implicit differentiation of the pair (F1, F2) in (x0, a).
 *
 * Sources: [NNY1966]. Deviations: none. A long toe can have several such centres; only those where
 * the curve stands less than 0.2 above base + fog count, and of these the steepest is taken and the
 * others are named in a warning.
 */
import {
  derivedBaseFog,
  logExposureAt,
  functionOf,
  type CharacteristicCurve,
  type Derived,
} from '../curve/index.ts';

const INNER = 0.2;
const OUTER = 2.2;
/** Centres are sought on a grid this fine, in log exposure. */
const GRID_STEP = 0.04;
/** Inclination of the line below which a centre is an accident of the flat base, radians. */
const LEAST_ANGLE = 0.02;
/** Radians to which angles are found on the grid, where the sign alone counts, and at a root. */
const COARSE = 1e-6;
const FINE = 1e-14;

export interface ContrastIndexPoint {
  readonly logExposure: number;
  readonly density: number;
}

export interface ContrastIndex {
  readonly index: Derived;
  readonly centreLogExposure: number;
  readonly inner: ContrastIndexPoint;
  readonly outer: ContrastIndexPoint;
  /** Indexes of the centres that were passed over. */
  readonly others: readonly number[];
}

/**
 * Contrast index of a curve.
 *
 * @param reach - how far beyond the last reading the outer point may lie, log exposure
 * @returns the index with its points, or null where no centre exists within reach
 * @source [NNY1966]
 */
export function contrastIndex(curve: CharacteristicCurve, reach = 0): ContrastIndex | null {
  const model = functionOf(curve);
  const { parameters } = curve;
  const base = derivedBaseFog(curve);
  const net = (x: number): number => model.value(x, parameters) - base.value;

  /**
   * Angle at which the circle of radius 0.2 about (x0, base) meets the curve: one crossing, as
   * sin a grows while the net density at x0 + 0.2 cos a falls. Newton inside a bracket.
   */
  const angleFrom = (x0: number, guess: number, precision: number): number => {
    let low = 0;
    let high = Math.PI / 2;
    let angle = guess;
    for (let i = 0; i < 60; i++) {
      const sin = Math.sin(angle);
      const x = x0 + INNER * Math.cos(angle);
      const excess = net(x) - INNER * sin;
      if (excess > 0) low = angle;
      else high = angle;
      const slope = -INNER * (model.gradient(x, parameters) * sin + Math.cos(angle));
      const newton = angle - excess / slope;
      const next = newton > low && newton < high ? newton : 0.5 * (low + high);
      if (Math.abs(next - angle) < precision) return next;
      angle = next;
    }
    return angle;
  };
  let angle = 0.5;
  const miss = (x0: number, precision: number): number => {
    angle = angleFrom(x0, angle, precision);
    return net(x0 + OUTER * Math.cos(angle)) - OUTER * Math.sin(angle);
  };

  // Centres whose inner point is lower than this have an index below LEAST_ANGLE and do not count.
  const foot = logExposureAt(curve, base.value + INNER * Math.sin(LEAST_ANGLE));
  if (foot === null) return null;
  const roots: number[] = [];
  let previousX = foot - INNER;
  let previous = miss(previousX, COARSE);
  const exactly = (x0: number): number => miss(x0, FINE);
  for (;;) {
    const x = previousX + GRID_STEP;
    if (x > curve.logExposureRange[1] || net(x) >= INNER) break;
    const here = miss(x, COARSE);
    if (previous > 0 !== here > 0) roots.push(rootBetween(exactly, previousX, x, previous, here));
    previousX = x;
    previous = here;
  }

  const candidates = roots
    .map((x0) => ({ x0, slope: angleFrom(x0, angle, FINE) }))
    .filter(({ x0, slope }) => x0 + OUTER * Math.cos(slope) <= curve.logExposureRange[1] + reach)
    .sort((one, other) => other.slope - one.slope);
  const chosen = candidates[0];
  if (chosen === undefined) return null;

  const { x0, slope } = chosen;
  const x1 = x0 + INNER * Math.cos(slope);
  const x2 = x0 + OUTER * Math.cos(slope);
  return {
    index: indexWithDerivatives(curve, base, slope, x1, x2),
    centreLogExposure: x0,
    inner: { logExposure: x1, density: model.value(x1, parameters) },
    outer: { logExposure: x2, density: model.value(x2, parameters) },
    others: candidates.slice(1).map((candidate) => Math.tan(candidate.slope)),
  };
}

/** Root of f between a and b, where its values fa and fb differ in sign: the Illinois method. */
function rootBetween(
  f: (x: number) => number,
  a: number,
  b: number,
  fa: number,
  fb: number,
): number {
  let [low, high, atLow, atHigh] = [a, b, fa, fb];
  let side = 0;
  for (let i = 0; i < 60; i++) {
    const x = (low * atHigh - high * atLow) / (atHigh - atLow);
    const here = f(x);
    if (Math.abs(here) < 1e-14 || high - low < 1e-13) return x;
    if (here > 0 === atLow > 0) {
      [low, atLow] = [x, here];
      if (side === -1) atHigh /= 2;
      side = -1;
    } else {
      [high, atHigh] = [x, here];
      if (side === 1) atLow /= 2;
      side = 1;
    }
  }
  return 0.5 * (low + high);
}

/** tan a with derivatives: (x0, a)' = -J^-1 F', J the 2 x 2 matrix of F by (x0, a). */
function indexWithDerivatives(
  curve: CharacteristicCurve,
  base: Derived,
  angle: number,
  x1: number,
  x2: number,
): Derived {
  const model = functionOf(curve);
  const { parameters } = curve;
  const at1 = new Float64Array(parameters.length);
  const at2 = new Float64Array(parameters.length);
  model.derivatives(x1, parameters, at1);
  model.derivatives(x2, parameters, at2);
  const g1 = model.gradient(x1, parameters);
  const g2 = model.gradient(x2, parameters);
  const sin = Math.sin(angle);
  const cos = Math.cos(angle);
  const a1 = -INNER * (g1 * sin + cos);
  const a2 = -OUTER * (g2 * sin + cos);
  const determinant = g1 * a2 - g2 * a1;
  const derivatives = new Float64Array(parameters.length);
  for (let j = 0; j < parameters.length; j++) {
    const b = base.derivatives[j] ?? 0;
    const f1 = (at1[j] ?? 0) - b;
    const f2 = (at2[j] ?? 0) - b;
    // d a = -(g1 f2 - g2 f1) / det; d tan a = d a / cos² a.
    derivatives[j] = -(g1 * f2 - g2 * f1) / determinant / cos ** 2;
  }
  return { value: Math.tan(angle), derivatives };
}
