/**
 * The development surface of a film, fitted to all its strips together, with the errors of strips
 * left out.
 *
 *   error of a left-out strip  e_i = rms_j (D(x_ij, τ_i; p without i) - D_ij)
 *   inflation                  λ = max(1, (mean e_i² - s²) / mean var_i)
 *
 * Forms, plainest first: toe alone or with shoulder, one toe shape for all times or a width that
 * changes, first-order or log-linear slope. A richer form is taken where it predicts left-out
 * strips better by a tenth of the mean square; with two times, where AICc says so.
 *
 * Sources: [STONE1974] cross-validatory choice; [BA2002] section 2.4 for AICc. Deviations: whole
 * strips are left out, since a strip's readings share its development.
 */
import { fitCurve } from '../../curve/index.ts';
import { InvalidArgumentError } from '../../errors.ts';
import { akaikeCorrected, toeOnly, toeShoulder } from '../../fitting/index.ts';
import type { CurveReadings } from '../../readings/index.ts';
import { warning, type Warning } from '../../warning.ts';
import type { ContrastFamily } from '../contrast-model.ts';
import { inRange } from '../temperature.ts';
import {
  fitSurfaceForm,
  type FittedForm,
  type SurfaceForm,
  type TimedReadings,
} from './fit-surface-form.ts';
import {
  cutAt,
  cutCovariance,
  SURFACE_PARAMETERS,
  type DevelopmentSurface,
  type LeftOutStrip,
} from './surface-model.ts';
import { startOfSurface, type CutOfStrip } from './surface-start.ts';

/** One strip of the film at its development. */
export interface SurfaceStrip {
  readonly minutes: number;
  /** Temperature; the reference temperature where it is not known. */
  readonly celsius?: number;
  readonly readings: CurveReadings;
}

export interface SurfaceOptions {
  /** q for 10 °C where the strips do not tell it. */
  readonly temperatureCoefficient: number;
  /** Temperature at which times are compared, °C; 20 unless given. */
  readonly referenceCelsius?: number;
}

export type SurfaceFit =
  | {
      readonly status: 'ok';
      readonly surface: DevelopmentSurface;
      readonly warnings: readonly Warning[];
    }
  | {
      readonly status: 'not-determined';
      readonly reason: 'no-strips' | 'one-time-only' | 'contrast-does-not-rise' | 'fit-failed';
      readonly warnings: readonly Warning[];
    };

/** Part of the mean square that a richer form must save among left-out strips. */
const MARKED_GAIN = 0.1;

interface Prepared extends TimedReadings, CutOfStrip {}

interface Judged {
  readonly fitted: FittedForm;
  readonly leftOut: readonly LeftOutStrip[];
  /** Mean square of the left-out errors; null where not every strip could be predicted. */
  readonly meanSquare: number | null;
  readonly meanVariance: number;
  /** AICc for one reading, to compare where no strip can be left out. */
  readonly akaike: number;
}

/**
 * Fits the surface.
 *
 * @param strips - strips of one film in one developer, at two or more times; strips without a
 *   curve of their own take no part
 * @param options - temperature coefficient and reference temperature
 * @returns the surface, or why there is none
 * @throws InvalidArgumentError if a time, temperature or reading is out of range
 */
export function fitSurface(strips: readonly SurfaceStrip[], options: SurfaceOptions): SurfaceFit {
  const { temperatureCoefficient: q, referenceCelsius = 20 } = options;
  check(strips, q, referenceCelsius);
  const prepared = strips.map((strip) => prepare(strip, q, referenceCelsius));
  const usable = prepared.filter((strip) => strip !== null);
  const none = (reason: Extract<SurfaceFit, { status: 'not-determined' }>['reason']) =>
    ({ status: 'not-determined', reason, warnings: [] }) as const;
  if (usable.length === 0) return none('no-strips');
  const times = timesOf(usable);
  if (times.length < 2) return none('one-time-only');
  if (!(slopeOf(usable.map(contrastAgainstTime)) > 0)) {
    return {
      status: 'not-determined',
      reason: 'contrast-does-not-rise',
      warnings: [warning('contrast-falls-with-time')],
    };
  }
  const judged = formsFor(usable, referenceCelsius, times).flatMap((form) => {
    const fitted = fitFrom(usable, form, q);
    return fitted === null ? [] : [judge(usable, fitted)];
  });
  const best = choose(judged);
  if (best === null) return none('fit-failed');
  const indexes = prepared.flatMap((strip, i) => (strip === null ? [] : [i]));
  return { status: 'ok', surface: described(best, usable, indexes, times), warnings: [] };
}

function prepare(
  { minutes, celsius, readings }: SurfaceStrip,
  q: number,
  referenceCelsius: number,
): Prepared | null {
  const fit = fitCurve(readings, { family: 'toe-shoulder' });
  if (fit.status !== 'ok') return null;
  const own = celsius ?? referenceCelsius;
  const { logExposures, densities, unexposedDensities = [] } = readings;
  return {
    minutes,
    celsius: own,
    time: minutes * q ** ((own - referenceCelsius) / 10),
    parameters: fit.curve.parameters,
    x: [...unexposedDensities.map(() => -Infinity), ...logExposures],
    y: [...unexposedDensities, ...densities],
  };
}

/** Different times at the reference temperature, shortest first. */
function timesOf(strips: readonly CutOfStrip[]): number[] {
  const times = new Set(strips.map(({ time }) => Number(time.toPrecision(4))));
  return [...times].sort((a, b) => a - b);
}

/** Forms to try, the plainest first. */
function formsFor(
  strips: readonly Prepared[],
  referenceCelsius: number,
  times: readonly number[],
): SurfaceForm[] {
  const temperatures = new Set(strips.map(({ celsius }) => Math.round(celsius)));
  const logs = strips.map(({ time }) => Math.log(time));
  const centreMinutes = Math.exp(logs.reduce((sum, log) => sum + log, 0) / logs.length);
  const common = {
    referenceCelsius,
    centreMinutes,
    freeDelay: times.length >= 3,
    freeTemperature: temperatures.size >= 2 && times.length >= 4,
  };
  const shoulders = strips.some(({ parameters }) => parameters.length > 4)
    ? [false, true]
    : [false];
  const toes = times.length >= 3 ? (['shared', 'by-time'] as const) : (['shared'] as const);
  const laws: readonly ContrastFamily[] = ['first-order', 'log-linear'];
  return shoulders.flatMap((hasShoulder) =>
    toes.flatMap((toe) => laws.map((law) => ({ ...common, hasShoulder, toe, law }))),
  );
}

function fitFrom(strips: readonly Prepared[], form: SurfaceForm, q: number): FittedForm | null {
  const delay = form.freeDelay ? null : 0;
  const start = startOfSurface(form.law, strips, form.centreMinutes, delay, q);
  return start === null ? null : fitSurfaceForm(strips, form, start);
}

/** Leaves out each strip in turn and predicts it from the others. */
function judge(strips: readonly Prepared[], fitted: FittedForm): Judged {
  const { form } = fitted;
  const count = strips.reduce((sum, { x }) => sum + x.length, 0);
  const leftOut: LeftOutStrip[] = [];
  let variances = 0;
  for (const [index, strip] of strips.entries()) {
    const others = strips.filter((_, i) => i !== index);
    const times = timesOf(others);
    if (times.length < 2) continue;
    const own = { ...form, freeDelay: form.freeDelay && times.length >= 3 };
    const narrower = times.length >= 3 ? own : { ...own, toe: 'shared' as const };
    const without = fitSurfaceForm(others, narrower, fitted.parameters);
    if (without === null) continue;
    const { error, variance } = missOf(strip, without);
    variances += variance;
    const [first = 0, last = 0] = [times[0], times.at(-1)];
    const extrapolated = strip.time < 0.98 * first || strip.time > 1.02 * last;
    leftOut.push({ index, minutes: strip.minutes, error, extrapolated });
  }
  const all = leftOut.length === strips.length && strips.length > 2;
  const free = count - fitted.degreesOfFreedom;
  const sumOfSquares = fitted.residualStandardDeviation ** 2 * fitted.degreesOfFreedom;
  const meanSquare = all
    ? leftOut.reduce((sum, { error }) => sum + error * error, 0) / leftOut.length
    : null;
  return {
    fitted,
    leftOut: all ? leftOut : [],
    meanSquare,
    meanVariance: variances / Math.max(1, leftOut.length),
    akaike: akaikeCorrected(sumOfSquares, count, free) / count,
  };
}

/** Error of a strip's exposed readings, and the mean variance that the fit expected. */
function missOf(strip: Prepared, { form, parameters, covariance }: FittedForm) {
  const cut = cutAt(form, parameters, strip.minutes, strip.celsius);
  const ofCut = cutCovariance(cut, covariance);
  const model = form.hasShoulder ? toeShoulder : toeOnly;
  const size = cut.parameters.length;
  const derivatives = new Float64Array(size);
  let squares = 0;
  let variance = 0;
  strip.x.forEach((x, k) => {
    const value = model.derivatives(x, cut.parameters, derivatives);
    squares += (value - (strip.y[k] ?? 0)) ** 2;
    derivatives.forEach((a, i) => {
      derivatives.forEach((b, j) => {
        variance += a * b * (ofCut[i * size + j] ?? 0);
      });
    });
  });
  return { error: Math.sqrt(squares / strip.x.length), variance: variance / strip.x.length };
}

/** The plainest form that no richer one beats markedly. */
function choose(judged: readonly Judged[]): Judged | null {
  const predicted = judged.filter(({ meanSquare }) => meanSquare !== null);
  const [candidates, criterion] =
    predicted.length > 0
      ? [predicted, ({ meanSquare }: Judged) => Math.log(meanSquare ?? Infinity)]
      : [judged, ({ akaike }: Judged) => akaike];
  return candidates.reduce<Judged | null>(
    (best, next) =>
      best === null || criterion(next) < criterion(best) + Math.log1p(-MARKED_GAIN) ? next : best,
    null,
  );
}

function described(
  { fitted, leftOut, meanSquare, meanVariance }: Judged,
  strips: readonly Prepared[],
  indexes: readonly number[],
  times: readonly number[],
): DevelopmentSurface {
  const { form, parameters, covariance, residualStandardDeviation: scatter } = fitted;
  const excess =
    meanSquare !== null && meanVariance > 0 ? (meanSquare - scatter ** 2) / meanVariance : 1;
  const inflation = Math.max(1, excess);
  const exposed = strips.flatMap(({ x }) => x.filter(Number.isFinite));
  const densities = strips.flatMap(({ y }) => y);
  return {
    law: form.law,
    hasShoulder: form.hasShoulder,
    referenceCelsius: form.referenceCelsius,
    centreMinutes: form.centreMinutes,
    parameters,
    parameterNames: SURFACE_PARAMETERS,
    covariance: covariance.map((value) => value * inflation),
    toe: form.toe,
    temperatureOrigin: form.freeTemperature ? 'fitted' : 'given',
    testedMinutes: [times[0] ?? 0, times.at(-1) ?? 0],
    logExposureRange: [Math.min(...exposed), Math.max(...exposed)],
    densityRangeRead: [Math.min(...densities), Math.max(...densities)],
    residualStandardDeviation: scatter,
    // Strips, not readings, are what a prediction for another strip rests on.
    degreesOfFreedom: strips.length,
    leftOut: leftOut.map((strip) => ({ ...strip, index: indexes[strip.index] ?? strip.index })),
    leaveOneOutError: meanSquare === null ? null : Math.sqrt(meanSquare),
    inflation,
  };
}

/** Log time and the slope of one line through all exposed readings: a contrast that needs no model. */
function contrastAgainstTime({ time, x, y }: Prepared): readonly [number, number] {
  const exposed = x.map((value, k) => [value, y[k] ?? 0] as const);
  return [Math.log(time), slopeOf(exposed.filter(([value]) => Number.isFinite(value)))];
}

/** Slope of the least-squares line. */
function slopeOf(points: readonly (readonly [number, number])[]): number {
  const mean = points.reduce((sum, [x]) => sum + x, 0) / points.length;
  const square = points.reduce((sum, [x]) => sum + (x - mean) ** 2, 0);
  return points.reduce((sum, [x, y]) => sum + (x - mean) * y, 0) / square;
}

function check(strips: readonly SurfaceStrip[], q: number, referenceCelsius: number): void {
  inRange('fitSurface', referenceCelsius);
  if (!(q >= 1 && q <= 6)) {
    throw new InvalidArgumentError('fitSurface', 'temperatureCoefficient', q, 'from 1 to 6');
  }
  strips.forEach(({ minutes, celsius }, i) => {
    if (!(minutes > 0 && minutes < Infinity)) {
      const name = `minutes of strip ${i + 1}`;
      throw new InvalidArgumentError('fitSurface', name, minutes, 'above zero');
    }
    if (celsius !== undefined) inRange('fitSurface', celsius);
  });
}
