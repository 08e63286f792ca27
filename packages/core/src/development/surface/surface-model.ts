/**
 * The development surface: density over log exposure and development time, for all strips of one
 * film and developer together.
 *
 *   D(x, τ) = b(τ) + g(τ) [ w ln(1 + exp((x - xt) / w)) - ws ln(1 + exp((x - xs) / ws)) ]
 *   b  = b0 + b1 (τ / τ0 - 1)                 base + fog grows with time
 *   g  = c_inf (1 - exp(-k (τ - t0)))         or  a + s ln(τ / τ0)
 *   xt = x0 + x1 ln(τ / τ0)                   the toe moves to less exposure
 *   w  = exp(w0 + w1 ln(τ / τ0))              w1 = 0: one toe shape for all times
 *   xs = xt + sqrt(4 w ws + 16 (ws - w)²) + d0 + d1 ln(τ / τ0),  ws = exp(v0),  0 <= d0
 *   τ  = t q^((T - T_ref) / 10),  τ0 the geometric mean of the times tried
 *
 * A cut at one time is a toe-shoulder curve, whose parameters are functions of those of the surface;
 * the root keeps its centres so far apart that the curve nowhere dips.
 *
 * Sources: [SM1907], [GLAFKIDES] the law of the slope; [FH1905] the temperature. Deviations: how
 * toe, shoulder and fog move with time is the project's own description.
 */
import type { CharacteristicCurve } from '../../curve/index.ts';
import type { ContrastFamily } from '../contrast-model.ts';
import type { ShapeCorrection } from './shape-correction.ts';

/** Parameters of the surface, in order; a surface without shoulder keeps the last but one at 0. */
export const SURFACE_PARAMETERS = [
  'fog',
  'fogGrowth',
  'limitOrLevel',
  'rateOrSlope',
  'delayMinutes',
  'toeCentre',
  'toeShift',
  'logToeWidth',
  'logToeWidthShift',
  'shoulderDistance',
  'shoulderShift',
  'logShoulderWidth',
  'temperatureCoefficient',
] as const;

export const SURFACE_SIZE = SURFACE_PARAMETERS.length;

/** Squared multiple of the widths' difference that the centres keep apart, as in the curve. */
const APART = 16; // 4^2

/** Numbers that a surface needs beside its parameters. */
export interface SurfaceFrame {
  readonly law: ContrastFamily;
  readonly hasShoulder: boolean;
  readonly referenceCelsius: number;
  /** τ0, minutes at the reference temperature. */
  readonly centreMinutes: number;
}

/** Errors of prediction for a strip that was left out of the fit. */
export interface LeftOutStrip {
  /** Place of the strip among those given. */
  readonly index: number;
  readonly minutes: number;
  /** Root mean square of prediction minus reading, density. */
  readonly error: number;
  /** True where its time lies outside those of the other strips. */
  readonly extrapolated: boolean;
}

/** The other law of the slope in the same form, which the strips hardly tell from the one in use. */
export interface RivalLaw {
  readonly law: ContrastFamily;
  readonly parameters: readonly number[];
  /** Row-major, as that of the surface. */
  readonly covariance: readonly number[];
  /** Its share of a prediction, 0 to 1; the law in use has the rest. */
  readonly weight: number;
}

export interface DevelopmentSurface extends SurfaceFrame {
  readonly parameters: readonly number[];
  readonly parameterNames: readonly string[];
  /** Row-major; zero for what was held. Includes `inflation`. */
  readonly covariance: readonly number[];
  /** Whether one toe width serves all times, or it changes with time. */
  readonly toe: 'shared' | 'by-time';
  readonly temperatureOrigin: 'fitted' | 'given';
  /** Shortest and longest time tried, minutes at the reference temperature. */
  readonly testedMinutes: readonly [number, number];
  readonly logExposureRange: readonly [number, number];
  readonly densityRangeRead: readonly [number, number];
  /** Standard deviation of a reading about the curve of its own strip, density. */
  readonly residualStandardDeviation: number;
  /** Deviation of ln time by which whole strips scatter: timing, temperature, agitation. */
  readonly timingDeviation: number;
  /** Null where the strips determine one law only. */
  readonly rival: RivalLaw | null;
  /** Degrees of freedom of the band; not a whole number. */
  readonly degreesOfFreedom: number;
  /** What the shape leaves over; null where the form follows the film. */
  readonly correction: ShapeCorrection | null;
  /** Every strip predicted from the others; empty with two times. */
  readonly leftOut: readonly LeftOutStrip[];
  /** Root mean square of `leftOut`; null with two times. */
  readonly leaveOneOutError: number | null;
  /** Factor on the covariance, 1 or more, by which readings miss the form more than their scatter. */
  readonly inflation: number;
}

/** Parameters of the curve at one time, with derivatives by the parameters of the surface. */
export interface SurfaceCut {
  readonly parameters: readonly number[];
  /** Row-major, one row for each parameter of the curve. */
  readonly jacobian: Float64Array;
  /** Derivative of each parameter of the curve by ln τ. */
  readonly byLogTime: readonly number[];
}

/**
 * The curve's parameters at a time.
 *
 * @param frame - law, shoulder, reference temperature, τ0
 * @param p - parameters of the surface
 * @param minutes - development time, > 0
 * @param celsius - temperature
 * @param shift - ln of real over stated time
 */
export function cutAt(
  frame: SurfaceFrame,
  p: ArrayLike<number>,
  minutes: number,
  celsius: number,
  shift = 0,
): SurfaceCut {
  const at = (j: number): number => p[j] ?? 0;
  const tens = (celsius - frame.referenceCelsius) / 10;
  const q = at(12);
  const time = minutes * q ** tens * Math.exp(shift);
  const ratio = time / frame.centreMinutes;
  const log = Math.log(ratio);
  const rows = frame.hasShoulder ? 6 : 4;
  const jacobian = new Float64Array(rows * SURFACE_SIZE);
  const put = (row: number, column: number, value: number): void => {
    jacobian[row * SURFACE_SIZE + column] = value;
  };
  // Each curve parameter's derivative by ln τ; by q it is that times tens / q.
  const byLog: number[] = [];

  const fog = at(0) + at(1) * (ratio - 1);
  put(0, 0, 1);
  put(0, 1, ratio - 1);
  byLog.push(at(1) * ratio);

  const slope = slopeAt(frame.law, at, time, log, put, byLog);

  const toe = at(5) + at(6) * log;
  put(2, 5, 1);
  put(2, 6, log);
  byLog.push(at(6));

  const width = Math.exp(at(7) + at(8) * log);
  put(3, 7, width);
  put(3, 8, width * log);
  byLog.push(width * at(8));

  const parameters = [fog, slope, toe, width];
  if (frame.hasShoulder) {
    const shoulderWidth = Math.exp(at(11));
    const apart = leastSeparation(width, shoulderWidth);
    const byWidth = (2 * shoulderWidth - APART * (shoulderWidth - width)) / apart;
    const byShoulderWidth = (2 * width + APART * (shoulderWidth - width)) / apart;
    parameters.push(toe + apart + at(9) + at(10) * log, shoulderWidth);
    put(4, 5, 1);
    put(4, 6, log);
    put(4, 7, byWidth * width);
    put(4, 8, byWidth * width * log);
    put(4, 9, 1);
    put(4, 10, log);
    put(4, 11, byShoulderWidth * shoulderWidth);
    put(5, 11, shoulderWidth);
    byLog.push(at(6) + at(10) + byWidth * width * at(8), 0);
  }
  byLog.forEach((derivative, row) => {
    put(row, 12, (derivative * tens) / q);
  });
  return { parameters, jacobian, byLogTime: byLog };
}

function slopeAt(
  law: ContrastFamily,
  at: (j: number) => number,
  time: number,
  log: number,
  put: (row: number, column: number, value: number) => void,
  byLog: number[],
): number {
  if (law === 'log-linear') {
    put(1, 2, 1);
    put(1, 3, log);
    byLog.push(at(3));
    return at(2) + at(3) * log;
  }
  const left = Math.exp(-at(3) * (time - at(4)));
  put(1, 2, 1 - left);
  put(1, 3, at(2) * left * (time - at(4)));
  put(1, 4, -at(2) * at(3) * left);
  byLog.push(at(2) * at(3) * left * time);
  return at(2) * (1 - left);
}

/** Covariance of the cut's parameters, row-major: J C J'. */
export function cutCovariance(
  { parameters, jacobian }: SurfaceCut,
  covariance: readonly number[],
): number[] {
  const rows = parameters.length;
  const size = SURFACE_SIZE;
  const left = new Float64Array(rows * size); // J C
  for (let i = 0; i < rows; i++) {
    for (let k = 0; k < size; k++) {
      const entry = jacobian[i * size + k] ?? 0;
      if (entry === 0) continue;
      for (let j = 0; j < size; j++) {
        const at = i * size + j;
        left[at] = (left[at] ?? 0) + entry * (covariance[k * size + j] ?? 0);
      }
    }
  }
  return Array.from({ length: rows * rows }, (_, at) => {
    const [i, j] = [Math.floor(at / rows), at % rows];
    let sum = 0;
    for (let k = 0; k < size; k++) sum += (left[i * size + k] ?? 0) * (jacobian[j * size + k] ?? 0);
    return sum;
  });
}

/** Least distance of the centres at which a toe-shoulder curve does not dip; see its model. */
export function leastSeparation(toeWidth: number, shoulderWidth: number): number {
  return Math.sqrt(4 * toeWidth * shoulderWidth + APART * (shoulderWidth - toeWidth) ** 2);
}

/** The family that a cut belongs to. */
export const CUT_FAMILY: CharacteristicCurve['family'] = 'toe-shoulder';
