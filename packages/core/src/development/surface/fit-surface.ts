/**
 * The development surface of a film, fitted to all its strips together, with the errors of strips
 * left out.
 *
 *   error of a left-out strip  e_i = rms_j (D(x_ij, τ_i; without i) - D_ij)
 *
 * Forms, plainest first: toe alone or with shoulder, one toe shape for all times or a width that
 * changes, first-order or log-linear slope. A richer form is taken where it predicts left-out
 * strips better by a tenth of the mean square; with two times, where AICc says so. The same form with
 * the other law of the slope has a share in every prediction. Then the scatter of the strips about
 * the form is estimated, and what the form's shape leaves over is added.
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
import { averagedCut, type WeightedLaw } from './averaged-cut.ts';
import { bandFreedom, type SharedForm } from './band-freedom.ts';
import {
  fitSurfaceForm,
  PRIORS,
  type FittedForm,
  type SurfaceForm,
  type TimedReadings,
} from './fit-surface-form.ts';
import { rivalWeight } from './law-weight.ts';
import { quickLeaveOneOut } from './leave-one-out.ts';
import { correctionAt, fitCorrection, type ShapeCorrection } from './shape-correction.ts';
import {
  cutAt,
  SURFACE_PARAMETERS,
  type DevelopmentSurface,
  type LeftOutStrip,
  type RivalLaw,
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

/** A rival with less than this changes nothing that can be read. */
const LEAST_WEIGHT = 0.02;

interface Prepared extends TimedReadings, CutOfStrip {
  /** Standard deviation of a reading about the strip's own smooth curve. */
  readonly scatter: number;
}

/** Forms with what their shape leaves over. */
interface Predictor {
  /** The one in use first. */
  readonly forms: readonly SharedForm[];
  readonly correction: ShapeCorrection | null;
  /** Mean square of what both leave over, in units of σ². */
  readonly excess: number;
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
  const chosen = choose(usable, fits, scatter, times.length);
  const predictor = predictorOf(usable, chosen, scatter, null);
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

/**
 * The plainest form that no richer one beats markedly, and the same form with the other law of the
 * slope, each with its share.
 */
function choose(
  strips: readonly Prepared[],
  fits: readonly FittedForm[],
  scatter: number,
  times: number,
): readonly SharedForm[] {
  const judged = fits.map((fitted) => ({
    fitted,
    criterion:
      times > 2 ? Math.log(quickLeaveOneOut(strips, fitted, scatter)) : akaikeOf(strips, fitted),
  }));
  const best = judged.reduce<(typeof judged)[number] | null>(
    (plainest, next) =>
      plainest === null || next.criterion < plainest.criterion + Math.log1p(-MARKED_GAIN)
        ? next
        : plainest,
    null,
  );
  if (best === null) return [];
  const { form } = best.fitted;
  const rival = judged.find(
    ({ fitted: { form: other } }) =>
      other.law !== form.law && other.hasShoulder === form.hasShoulder && other.toe === form.toe,
  );
  // Two times leave no strip to be predicted from others.
  if (rival === undefined || times < 3) return [{ fitted: best.fitted, weight: 1 }];
  const weight = rivalWeight(Math.exp(best.criterion), Math.exp(rival.criterion), strips.length);
  return weight < LEAST_WEIGHT
    ? [{ fitted: best.fitted, weight: 1 }]
    : [
        { fitted: best.fitted, weight: 1 - weight },
        { fitted: rival.fitted, weight },
      ];
}

/** AICc for one reading, to compare where no strip can be left out. */
function akaikeOf(strips: readonly Prepared[], { form, residualSumOfSquares }: FittedForm): number {
  const count = countOf(strips);
  const free = 8 + (form.hasShoulder ? 2 : 0) + (form.toe === 'by-time' ? 1 : 0);
  return akaikeCorrected(residualSumOfSquares, count, free) / count;
}

/** Forms fitted with the strips' own scatter, and what they leave over together. */
function predictorOf(
  strips: readonly Prepared[],
  from: readonly SharedForm[],
  scatter: number,
  timing: number | null,
): Predictor | null {
  const forms = from.flatMap(({ fitted, weight }): SharedForm[] => {
    const own = fitSurfaceForm(strips, fitted.form, fitted.parameters, scatter, timing);
    // Where the scatter of the strips does not settle, what is known beforehand of it stands.
    const found = own ?? (timing === null ? fitted : null);
    return found === null ? [] : [{ fitted: found, weight }];
  });
  const [first] = forms;
  if (first === undefined) return null;
  const { centreMinutes, hasShoulder } = first.fitted.form;
  const model = hasShoulder ? toeShoulder : toeOnly;
  const total = forms.reduce((sum, { weight }) => sum + weight, 0);
  const left = strips.flatMap(({ minutes, celsius, x, y }, s) => {
    const cuts = forms.map(({ fitted: { form, parameters, shifts }, weight }) => ({
      share: weight / total,
      ...cutAt(form, parameters, minutes, celsius, shifts[s]),
    }));
    const time = timeOf(first.fitted, minutes, celsius);
    return x.map((at, k) => ({
      x: at,
      time,
      residual:
        (y[k] ?? 0) -
        cuts.reduce((sum, { share, parameters }) => sum + share * model.value(at, parameters), 0),
    }));
  });
  const correction = fitCorrection(left, scatter, centreMinutes);
  const squares = left.reduce(
    (sum, { x, time, residual }) => sum + (residual - correctionAt(correction, x, time)) ** 2,
    0,
  );
  return { forms, correction, excess: squares / left.length / scatter ** 2 };
}

/** Predicts each strip from the others, fitted anew; empty where one of them cannot be spared. */
function leaveOut(
  strips: readonly Prepared[],
  { forms }: Predictor,
  scatter: number,
): LeftOutStrip[] {
  const all = strips.flatMap((strip, index): LeftOutStrip[] => {
    const others = strips.filter((_, i) => i !== index);
    const times = timesOf(others);
    if (times.length < 2) return [];
    // The coefficient of temperature stays as all strips tell it.
    const from = forms.map(({ fitted, weight }) => ({
      fitted: { ...fitted, form: { ...fitted.form, freeTemperature: false } },
      weight,
    }));
    const without = predictorOf(others, from, scatter, forms[0]?.fitted.timingDeviation ?? null);
    const error = without && missOf(strip, without);
    if (error === null) return [];
    const [first = 0, last = 0] = [times[0], times.at(-1)];
    const extrapolated = strip.time < 0.98 * first || strip.time > 1.02 * last;
    return [{ index, minutes: strip.minutes, error, extrapolated }];
  });
  return all.length === strips.length ? all : [];
}

/** Root mean square of prediction minus reading; null where there is no prediction. */
function missOf(
  { minutes, celsius, x, y }: Prepared,
  { forms, correction }: Predictor,
): number | null {
  const [first] = forms;
  if (first === undefined) return null;
  const cut = averagedCut(first.fitted.form, lawsOf(forms), minutes, celsius);
  if (cut === null) return null;
  const model = first.fitted.form.hasShoulder ? toeShoulder : toeOnly;
  const time = timeOf(first.fitted, minutes, celsius);
  const squares = x.reduce((sum, at, k) => {
    const predicted = model.value(at, cut.parameters) + correctionAt(correction, at, time);
    return sum + (predicted - (y[k] ?? 0)) ** 2;
  }, 0);
  return Math.sqrt(squares / x.length);
}

function lawsOf(forms: readonly SharedForm[]): readonly WeightedLaw[] {
  return forms.map(({ fitted: { form, parameters, covariance }, weight }) => ({
    law: form.law,
    parameters,
    covariance,
    weight,
  }));
}

/** Minutes at the reference temperature. */
function timeOf({ form, parameters }: FittedForm, minutes: number, celsius: number): number {
  return minutes * (parameters[12] ?? 1) ** ((celsius - form.referenceCelsius) / 10);
}

function described(
  { forms, correction, excess }: Predictor,
  leftOut: readonly LeftOutStrip[],
  strips: readonly Prepared[],
  times: readonly number[],
  scatter: number,
): DevelopmentSurface {
  const [first, second] = forms;
  if (first === undefined) throw new Error('a predictor has a form');
  const { fitted } = first;
  const { form, parameters, covariance } = fitted;
  const inflation = Math.max(1, excess);
  const total = forms.reduce((sum, { weight }) => sum + weight, 0);
  const rival: RivalLaw | null =
    second === undefined
      ? null
      : {
          law: second.fitted.form.law,
          parameters: second.fitted.parameters,
          covariance: second.fitted.covariance.map((value) => value * inflation),
          weight: second.weight / total,
        };
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
    rival,
    degreesOfFreedom: bandFreedom(strips, forms, scatter),
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
