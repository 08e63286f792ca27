/**
 * The development surface of a film, fitted to all its strips together, with the errors of strips
 * left out.
 *
 *   error of a left-out strip  e_i = rms_j (D(x_ij, τ_i; without i) - D_ij)
 *
 * Forms, plainest first: toe alone or with shoulder, one toe shape for all times or a width that
 * changes, first-order or log-linear slope. A richer form is taken where it predicts left-out
 * strips better by a tenth of the mean square; with two times, where AICc says so. Then the scatter
 * of the strips about the form is estimated, and what the form's shape leaves over is added.
 *
 * Sources: [STONE1974] cross-validatory choice; [BA2002] section 2.4 for AICc. Deviations: whole
 * strips are left out, since a strip's readings share its development.
 */
import { fitCurve } from '../../curve/index.ts';
import { InvalidArgumentError } from '../../errors.ts';
import { akaikeCorrected, toeOnly, toeShoulder } from '../../fitting/index.ts';
import type { CurveReadings } from '../../readings/index.ts';
import { warning, type Warning } from '../../warning.ts';
import { inRange } from '../temperature.ts';
import {
  fitSurfaceForm,
  PRIORS,
  type FittedForm,
  type SurfaceForm,
  type TimedReadings,
} from './fit-surface-form.ts';
import { quickLeaveOneOut } from './leave-one-out.ts';
import { correctionAt, fitCorrection, type ShapeCorrection } from './shape-correction.ts';
import {
  cutAt,
  SURFACE_PARAMETERS,
  type DevelopmentSurface,
  type LeftOutStrip,
} from './surface-model.ts';
import { bentLaw, startOfSurface, type CutOfStrip } from './surface-start.ts';

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

/** Least scatter of a reading: that of figures rounded to three decimals. */
const LEAST_SCATTER = 0.001;

interface Prepared extends TimedReadings, CutOfStrip {
  /** Standard deviation of a reading about the strip's own smooth curve. */
  readonly scatter: number;
}

/** A form with what its shape leaves over. */
interface Predictor {
  readonly fitted: FittedForm;
  readonly correction: ShapeCorrection | null;
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
  const scatter = scatterOf(usable);
  const fits = fitForms(usable, referenceCelsius, times, q, scatter);
  const best = choose(usable, fits, scatter, times.length);
  const predictor = best && predictorOf(usable, best, scatter, null);
  if (predictor === null) return none('fit-failed');
  const indexes = prepared.flatMap((strip, i) => (strip === null ? [] : [i]));
  const leftOut = leaveOut(usable, predictor, scatter).map((strip) => ({
    ...strip,
    index: indexes[strip.index] ?? strip.index,
  }));
  return {
    status: 'ok',
    surface: described(predictor, leftOut, usable, times, scatter),
    warnings: [],
  };
}

function prepare(
  { minutes, celsius, readings }: SurfaceStrip,
  q: number,
  referenceCelsius: number,
): Prepared | null {
  const fit = fitCurve(readings, { family: 'toe-shoulder' });
  if (fit.status !== 'ok') return null;
  const smooth = fitCurve(readings, { family: 'monotone-smooth' });
  const { residualStandardDeviation } = smooth.status === 'ok' ? smooth.curve : fit.curve;
  const own = celsius ?? referenceCelsius;
  const { logExposures, densities, unexposedDensities = [] } = readings;
  return {
    minutes,
    celsius: own,
    time: minutes * q ** ((own - referenceCelsius) / 10),
    parameters: fit.curve.parameters,
    scatter: residualStandardDeviation ?? 0,
    x: [...unexposedDensities.map(() => -Infinity), ...logExposures],
    y: [...unexposedDensities, ...densities],
  };
}

/** Pooled standard deviation of a reading about its own strip's curve. */
function scatterOf(strips: readonly Prepared[]): number {
  const squares = strips.reduce((sum, { scatter, x }) => sum + scatter ** 2 * x.length, 0);
  return Math.max(LEAST_SCATTER, Math.sqrt(squares / countOf(strips)));
}

function countOf(strips: readonly TimedReadings[]): number {
  return strips.reduce((sum, { x }) => sum + x.length, 0);
}

/** Different times at the reference temperature, shortest first. */
function timesOf(strips: readonly CutOfStrip[]): number[] {
  const times = new Set(strips.map(({ time }) => Number(time.toPrecision(4))));
  return [...times].sort((a, b) => a - b);
}

/** Every form that the readings determine, the plainest first. */
function fitForms(
  strips: readonly Prepared[],
  referenceCelsius: number,
  times: readonly number[],
  q: number,
  scatter: number,
): FittedForm[] {
  const temperatures = new Set(strips.map(({ celsius }) => Math.round(celsius)));
  const logs = strips.map(({ time }) => Math.log(time));
  const centreMinutes = Math.exp(logs.reduce((sum, log) => sum + log, 0) / logs.length);
  const common = {
    referenceCelsius,
    centreMinutes,
    freeTemperature: temperatures.size >= 2 && times.length >= 4,
  };
  const shouldered = strips.filter(({ parameters }) => parameters.length > 4).length;
  const shoulders = 2 * shouldered >= strips.length ? [false, true] : [false];
  const toes = times.length >= 3 ? (['shared', 'by-time'] as const) : (['shared'] as const);
  const { deviation } = PRIORS.timing;
  const fit = (form: SurfaceForm, start: readonly number[]) =>
    fitSurfaceForm(strips, form, start, scatter, deviation);
  const fromCurves = startOfSurface(strips, centreMinutes, q);
  return shoulders.flatMap((hasShoulder) => {
    let start: readonly number[] = fromCurves;
    return toes.flatMap((toe) => {
      const form = { ...common, hasShoulder, toe };
      // Each form starts from the plainer one that it grows out of.
      const line = fit({ ...form, law: 'log-linear' }, start);
      start = line?.parameters ?? start;
      const curved = fit({ ...form, law: 'first-order' }, bentLaw(start, centreMinutes));
      return [curved, line].filter((found) => found !== null);
    });
  });
}

/** The plainest form that no richer one beats markedly. */
function choose(
  strips: readonly Prepared[],
  fits: readonly FittedForm[],
  scatter: number,
  times: number,
): FittedForm | null {
  const judged = fits.map((fitted) => ({
    fitted,
    criterion:
      times > 2 ? Math.log(quickLeaveOneOut(strips, fitted, scatter)) : akaikeOf(strips, fitted),
  }));
  return (
    judged.reduce<(typeof judged)[number] | null>(
      (best, next) =>
        best === null || next.criterion < best.criterion + Math.log1p(-MARKED_GAIN) ? next : best,
      null,
    )?.fitted ?? null
  );
}

/** AICc for one reading, to compare where no strip can be left out. */
function akaikeOf(strips: readonly Prepared[], { form, residualSumOfSquares }: FittedForm): number {
  const count = countOf(strips);
  const free = 8 + (form.hasShoulder ? 2 : 0) + (form.toe === 'by-time' ? 1 : 0);
  return akaikeCorrected(residualSumOfSquares, count, free) / count;
}

/** A form fitted with the strips' own scatter, and its correction. */
function predictorOf(
  strips: readonly Prepared[],
  from: FittedForm,
  scatter: number,
  timing: number | null,
): Predictor | null {
  const { form } = from;
  const own = fitSurfaceForm(strips, form, from.parameters, scatter, timing);
  // Where the scatter of the strips does not settle, what is known beforehand of it stands.
  const fitted = own ?? (timing === null ? from : null);
  if (fitted === null) return null;
  const { parameters, shifts } = fitted;
  const model = form.hasShoulder ? toeShoulder : toeOnly;
  const left = strips.flatMap(({ minutes, celsius, x, y }, s) => {
    const cut = cutAt(form, parameters, minutes, celsius, shifts[s]);
    const time = timeOf(fitted, minutes, celsius);
    return x.map((at, k) => ({
      x: at,
      time,
      residual: (y[k] ?? 0) - model.value(at, cut.parameters),
    }));
  });
  return { fitted, correction: fitCorrection(left, scatter, form.centreMinutes) };
}

/** Predicts each strip from the others, fitted anew; empty where one of them cannot be spared. */
function leaveOut(
  strips: readonly Prepared[],
  { fitted }: Predictor,
  scatter: number,
): LeftOutStrip[] {
  const all = strips.flatMap((strip, index): LeftOutStrip[] => {
    const others = strips.filter((_, i) => i !== index);
    const times = timesOf(others);
    if (times.length < 2) return [];
    // The coefficient of temperature stays as all strips tell it.
    const from = { ...fitted, form: { ...fitted.form, freeTemperature: false } };
    const without = predictorOf(others, from, scatter, fitted.timingDeviation);
    if (without === null) return [];
    const [first = 0, last = 0] = [times[0], times.at(-1)];
    const extrapolated = strip.time < 0.98 * first || strip.time > 1.02 * last;
    return [{ index, minutes: strip.minutes, error: missOf(strip, without), extrapolated }];
  });
  return all.length === strips.length ? all : [];
}

/** Root mean square of prediction minus reading. */
function missOf({ minutes, celsius, x, y }: Prepared, { fitted, correction }: Predictor): number {
  const { form, parameters } = fitted;
  const cut = cutAt(form, parameters, minutes, celsius);
  const model = form.hasShoulder ? toeShoulder : toeOnly;
  const time = timeOf(fitted, minutes, celsius);
  const squares = x.reduce((sum, at, k) => {
    const predicted = model.value(at, cut.parameters) + correctionAt(correction, at, time);
    return sum + (predicted - (y[k] ?? 0)) ** 2;
  }, 0);
  return Math.sqrt(squares / x.length);
}

/** Minutes at the reference temperature. */
function timeOf({ form, parameters }: FittedForm, minutes: number, celsius: number): number {
  return minutes * (parameters[12] ?? 1) ** ((celsius - form.referenceCelsius) / 10);
}

function described(
  { fitted, correction }: Predictor,
  leftOut: readonly LeftOutStrip[],
  strips: readonly Prepared[],
  times: readonly number[],
  scatter: number,
): DevelopmentSurface {
  const { form, parameters, covariance, residualSumOfSquares } = fitted;
  const inflation = Math.max(1, residualSumOfSquares / countOf(strips));
  const exposed = strips.flatMap(({ x }) => x.filter(Number.isFinite));
  const densities = strips.flatMap(({ y }) => y);
  const meanSquare = leftOut.reduce((sum, { error }) => sum + error * error, 0) / leftOut.length;
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
    correction,
    timingDeviation: fitted.timingDeviation,
    // Strips, not readings, are what a prediction for another strip rests on.
    degreesOfFreedom: fitted.timingFreedom,
    leftOut,
    leaveOneOutError: leftOut.length === 0 ? null : Math.sqrt(meanSquare),
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
