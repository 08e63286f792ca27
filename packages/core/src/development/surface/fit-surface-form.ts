/**
 * One form of the development surface, fitted to all readings of all strips at once, each strip at a
 * time of its own near the stated one.
 *
 *   D_ij = D(x_ij, τ_i e^(δ_i); p) + ε_ij,   ε ~ N(0, σ²),   δ ~ N(0, ω²)
 *   minimise  Σ (D - D_ij)² / σ² + Σ δ_i² / ω² + Σ ((h_k(p) - m_k) / s_k)²
 *   ω² <- (ν0 s0² + Σ (δ_i² + var δ_i)) / (ν0 + strips),   with leaps, until it stands
 *
 * δ is what timing, temperature and agitation do to a whole strip. h are the delay in minutes and
 * ln(k τ0), about which a film in a usual developer leaves little doubt; three strips alone could not
 * tell them from δ.
 *
 * Sources: [LW1982] random effects, the update is the step of expectation and maximisation, sped up
 * by Aitken's rule;
 * `surface-model.ts` for the rest. Deviations: the priors of `PRIORS` are the project's own.
 */
import { leastSquares, toeOnly, toeShoulder, type LeastSquaresFit } from '../../fitting/index.ts';
import { ASSUMED_TIMING_DEVIATION } from '../timing-deviation.ts';
import {
  cutAt,
  leastSeparation,
  SURFACE_SIZE,
  type SurfaceFrame,
  type SurfaceCut,
} from './surface-model.ts';

/** Readings of one strip in the order that the fits take, unexposed ones at -Infinity. */
export interface TimedReadings {
  readonly minutes: number;
  readonly celsius: number;
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/** What is free in a form, beside what its law and shoulder need. */
export interface SurfaceForm extends SurfaceFrame {
  readonly toe: 'shared' | 'by-time';
  readonly freeTemperature: boolean;
}

/** What is known before any strip: means and standard deviations. */
export const PRIORS = {
  /** ω, deviation of ln time: 1.5 %, worth one strip. */
  timing: { deviation: ASSUMED_TIMING_DEVIATION, strips: 1 },
  delayMinutes: { mean: 0.5, deviation: 0.5 },
  /** ln(k τ0): at k τ = 1 the first-order law is straight over ln τ, as its rival is everywhere. */
  logRate: { mean: 0, deviation: 0.35 },
} as const;

/** Rounds in which ω must settle, and the step of ln ω below which it has. */
const MOST_ROUNDS = 15;
const SETTLED = 0.02;

export interface FittedForm {
  readonly form: SurfaceForm;
  readonly parameters: readonly number[];
  /** Row-major, for the parameters alone; zero for what was held. */
  readonly covariance: readonly number[];
  /** δ of each strip. */
  readonly shifts: readonly number[];
  /** ω. */
  readonly timingDeviation: number;
  /** Strips' worth of knowledge behind ω. */
  readonly timingFreedom: number;
  readonly residualSumOfSquares: number;
  readonly readings: number;
}

/**
 * Fits one form.
 *
 * @param strips - strips at two or more times
 * @param form - law, shoulder, what is free
 * @param start - parameters of the surface to start from
 * @param scatter - σ, of a reading
 * @param timing - ω to hold; estimated unless given
 * @returns the fit, or null where the readings do not determine the form
 */
export function fitSurfaceForm(
  strips: readonly TimedReadings[],
  form: SurfaceForm,
  start: readonly number[],
  scatter: number,
  timing: number | null = null,
): FittedForm | null {
  const { deviation, strips: worth } = PRIORS.timing;
  const size = SURFACE_SIZE + strips.length;
  let from = [...start, ...strips.map(() => 0)];
  let omega = timing ?? deviation;
  /** ln ω of the rounds since the last leap. */
  let trail = [Math.log(omega)];
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const fit = solve(strips, form, from, scatter, omega);
    const { covariance, report, parameters } = fit;
    if (report.status !== 'converged' || covariance === null) return null;
    const shifts = parameters.slice(SURFACE_SIZE);
    const variances = shifts.map((_, i) => covariance[(SURFACE_SIZE + i) * (size + 1)] ?? 0);
    const sum = shifts.reduce((total, shift, i) => total + shift ** 2 + (variances[i] ?? 0), 0);
    const next = Math.sqrt((worth * deviation ** 2 + sum) / (worth + strips.length));
    if (timing !== null || Math.abs(Math.log(next / omega)) < SETTLED) {
      if (degenerate(form, fit, strips)) return null;
      const told = variances.reduce((total, variance) => total + 1 - variance / omega ** 2, 0);
      return {
        form,
        parameters: parameters.slice(0, SURFACE_SIZE),
        covariance: block(covariance, size),
        shifts,
        timingDeviation: omega,
        timingFreedom: worth + Math.max(0, told),
        residualSumOfSquares: readingsSum(strips, fit),
        readings: strips.reduce((total, { x }) => total + x.length, 0),
      };
    }
    from = [...parameters];
    trail = [...trail, Math.log(next)];
    const leap = leapOf(trail);
    omega = Math.exp(leap ?? Math.log(next));
    if (leap !== null) trail = [leap];
  }
  return null;
}

/** Where three values whose steps shrink evenly lead, by Aitken's rule, at most a factor e away. */
function leapOf([first, second, third]: readonly number[]): number | null {
  if (first === undefined || second === undefined || third === undefined) return null;
  const shrink = (third - second) / (second - first);
  if (!(shrink > 0 && shrink < 1)) return third;
  const rest = ((third - second) * shrink) / (1 - shrink);
  return third + Math.max(-1, Math.min(1, rest));
}

/** Residuals of one form at given parameters: readings, then δ, then the priors of the law. */
export interface SurfaceRows {
  readonly residualCount: number;
  readonly size: number;
  /** First row of each strip, and the end of the last. */
  readonly firstRows: readonly number[];
  readonly evaluate: (p: Float64Array, residuals: Float64Array, jacobian: Float64Array) => void;
}

export function surfaceRows(
  strips: readonly TimedReadings[],
  form: SurfaceForm,
  scatter: number,
  omega: number,
): SurfaceRows {
  const size = SURFACE_SIZE + strips.length;
  const firstRows = [0];
  for (const { x } of strips) firstRows.push((firstRows.at(-1) ?? 0) + x.length);
  const readings = firstRows.at(-1) ?? 0;
  const model = form.hasShoulder ? toeShoulder : toeOnly;
  const byCurve = new Float64Array(form.hasShoulder ? 6 : 4);
  const knowsLaw = form.law === 'first-order';
  const { delayMinutes, logRate } = PRIORS;
  return {
    residualCount: readings + strips.length + (knowsLaw ? 2 : 0),
    size,
    firstRows,
    evaluate: (p, residuals, jacobian) => {
      jacobian.fill(0);
      let i = 0;
      for (const [s, { minutes, celsius, x, y }] of strips.entries()) {
        const at = SURFACE_SIZE + s;
        const cut = cutAt(form, p, minutes, celsius, p[at]);
        for (let k = 0; k < x.length; k++, i++) {
          const value = model.derivatives(x[k] as number, cut.parameters, byCurve);
          residuals[i] = (value - (y[k] as number)) / scatter;
          jacobian[i * size + at] = chain(byCurve, cut, jacobian, i * size, scatter);
        }
      }
      for (const s of strips.keys()) {
        residuals[i] = (p[SURFACE_SIZE + s] as number) / omega;
        jacobian[i * size + SURFACE_SIZE + s] = 1 / omega;
        i++;
      }
      if (!knowsLaw) return;
      residuals[i] = ((p[4] as number) - delayMinutes.mean) / delayMinutes.deviation;
      jacobian[i * size + 4] = 1 / delayMinutes.deviation;
      i++;
      const rate = p[3] as number;
      residuals[i] = (Math.log(rate * form.centreMinutes) - logRate.mean) / logRate.deviation;
      jacobian[i * size + 3] = 1 / (rate * logRate.deviation);
    },
  };
}

function solve(
  strips: readonly TimedReadings[],
  form: SurfaceForm,
  start: readonly number[],
  scatter: number,
  omega: number,
): LeastSquaresFit {
  const { residualCount, evaluate } = surfaceRows(strips, form, scatter, omega);
  const { lower, upper } = boundsOf(form, strips);
  const within = (value: number, j: number): number =>
    Math.min(upper[j] ?? Infinity, Math.max(lower[j] ?? -Infinity, value));
  return leastSquares(
    {
      residualCount,
      start: start.map(within),
      lower,
      upper,
      fixed: fixedOf(form, strips.length),
      evaluate,
    },
    { maxIterations: 40, weightKind: 'absolute', offsetTolerance: 1e-5 },
  );
}

/**
 * Row of the Jacobian: derivatives by the curve's parameters times those by the surface's.
 *
 * @returns the derivative by the shift of the strip
 */
function chain(
  byCurve: Float64Array,
  { parameters, jacobian, byLogTime }: SurfaceCut,
  out: Float64Array,
  offset: number,
  scatter: number,
): number {
  let byShift = 0;
  for (let row = 0; row < parameters.length; row++) {
    const by = (byCurve[row] as number) / scatter;
    if (by === 0) continue;
    byShift += by * (byLogTime[row] ?? 0);
    for (let j = 0; j < SURFACE_SIZE; j++) {
      const entry = jacobian[row * SURFACE_SIZE + j] as number;
      if (entry !== 0) out[offset + j] = (out[offset + j] as number) + by * entry;
    }
  }
  return byShift;
}

function readingsSum(strips: readonly TimedReadings[], { residuals }: LeastSquaresFit): number {
  const count = strips.reduce((sum, { x }) => sum + x.length, 0);
  return residuals.slice(0, count).reduce((sum, r) => sum + r * r, 0);
}

/** The covariance of the surface's own parameters. */
function block(covariance: readonly number[], size: number): number[] {
  return Array.from({ length: SURFACE_SIZE * SURFACE_SIZE }, (_, at) => {
    const [i, j] = [Math.floor(at / SURFACE_SIZE), at % SURFACE_SIZE];
    return covariance[i * size + j] ?? 0;
  });
}

/** True for each parameter that the form holds. */
export function fixedOf(
  { law, hasShoulder, toe, freeTemperature }: SurfaceForm,
  strips: number,
): boolean[] {
  const fixed = Array.from({ length: SURFACE_SIZE + strips }, () => false);
  fixed[4] = law === 'log-linear';
  fixed[8] = toe === 'shared';
  fixed[9] = fixed[11] = !hasShoulder;
  fixed[10] = !hasShoulder || toe === 'shared';
  fixed[12] = !freeTemperature;
  return fixed;
}

function boundsOf(
  { law }: SurfaceForm,
  strips: readonly TimedReadings[],
): { lower: number[]; upper: number[] } {
  const first = Math.min(...strips.map(({ minutes }) => minutes));
  const firstOrder = law === 'first-order';
  const narrowest = Math.log(1e-3);
  const widest = Math.log(3);
  const free = Infinity;
  // A strip at half or twice its time is no scatter but a slip.
  const shifts = strips.map(() => Math.LN2);
  return {
    lower: [
      ...[-free, -free, firstOrder ? 1e-3 : -free, firstOrder ? 1e-4 : 1e-4, -first],
      ...[-free, -free, narrowest, -3, 0, -5, narrowest, 1],
      ...shifts.map((shift) => -shift),
    ],
    upper: [
      ...[free, free, firstOrder ? 20 : free, 20, 0.999 * first],
      ...[free, free, widest, 3, 20, 5, widest, 6],
      ...shifts,
    ],
  };
}

/** A law that ran to its bound, or a shoulder that the curve would dip at. */
function degenerate(
  form: SurfaceForm,
  fit: { readonly parameters: readonly number[]; readonly atBound: readonly boolean[] },
  strips: readonly TimedReadings[],
): boolean {
  if (form.law === 'first-order' && (fit.atBound[2] === true || fit.atBound[3] === true)) {
    return true;
  }
  return strips.some(({ minutes, celsius }) => {
    const [, slope = 0, toe = 0, width = 0, shoulder, shoulderWidth = 0] = cutAt(
      form,
      fit.parameters,
      minutes,
      celsius,
    ).parameters;
    if (!(slope > 0)) return true;
    return shoulder !== undefined && shoulder - toe < leastSeparation(width, shoulderWidth);
  });
}
