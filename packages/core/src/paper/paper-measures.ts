/**
 * Measures of a printing paper from the fitted curve of one reflection strip.
 *
 *   n(x) = D(x) - D_min
 *   threshold      n(x_t) = 0.04
 *   speed point    n(x_m) = 0.60,  P = 1000 / 10^x_m
 *   shadow point   D(x_s) = D_min + 0.90 (D_max - D_min)   net form, the default
 *                  D(x_s) = 0.90 D_max                     gross form
 *   exposure scale x_s - x_t,  R = 100 (x_s - x_t)
 *
 * Sources: [ISO6846] the three points, R and P; the net forms of the second and third from memory.
 * Deviations: D_max is the curve's asymptote where the strip determines and practically reaches it,
 * else the density at the greatest exposure, with a warning.
 */
import {
  constant,
  derivedBaseFog,
  derivedDensity,
  derivedLogExposure,
  derivedNetPoint,
  estimateOn,
  requiredEstimate,
  modelOf,
  plus,
  quotient,
  scaled,
  type CharacteristicCurve,
  type CurveMeasure,
  type Derived,
} from '../curve/index.ts';
import type { Estimate } from '../estimate.ts';
import { warning, type Warning } from '../warning.ts';
import type { GradeTable } from './grade-table.ts';
import { gradeOf, type PaperGrade } from './grade-of.ts';
import { greatestGradient } from './greatest-gradient.ts';
import { isoPaperSpeed, isoPaperSpeedRounded, isoRangeRounded } from './iso-range.ts';

/** Net density of the threshold, just darker than paper white. */
export const THRESHOLD_NET_DENSITY = 0.04;
/** Net density of the speed point. */
export const PAPER_SPEED_NET_DENSITY = 0.6;
/** Part of the maximum density at which the exposure scale ends. */
export const SHADOW_FRACTION = 0.9;

/** Part of the net asymptote that the greatest exposure must reach for the asymptote to count. */
const PLATEAU_REACHED = 0.95;
/** Standard error of the asymptote, as a part of it, beyond which it is not determined. */
const PLATEAU_ERROR = 0.03;
/** Half a stop: a point farther outside the readings is not given. */
const FARTHEST = 0.151;

export interface PaperMeasureOptions {
  /** Whether 90 % is taken of the net or of the gross maximum density; net unless given. */
  readonly densityBasis?: 'net' | 'gross';
  /** `absolute`: log exposures are log10 of lux-seconds, so that a speed has a meaning. */
  readonly exposureKind?: 'absolute' | 'relative';
  /** Table to look the grade up in; without it `paperGrade` is null. */
  readonly gradeTable?: GradeTable;
}

export interface PaperMeasures {
  readonly densityBasis: 'net' | 'gross';
  readonly densityMin: Estimate;
  readonly densityMax: Estimate & { readonly basis: 'asymptote' | 'highest-reading' };
  /** Net 0.04, where the paper just darkens. */
  readonly threshold: { readonly logExposure: Estimate } | null;
  /** Net 0.60. */
  readonly speedPoint: { readonly logExposure: Estimate } | null;
  /** 90 % of the maximum density. */
  readonly shadowPoint: { readonly logExposure: Estimate; readonly density: number } | null;
  readonly exposureScale: Estimate | null;
  readonly isoRange: { readonly exact: Estimate; readonly rounded: number } | null;
  readonly isoSpeed: { readonly exact: Estimate; readonly rounded: number | null } | null;
  /** Slope of the chord from the threshold to the shadow point. */
  readonly averageGradient: Estimate | null;
  readonly greatestGradient: Estimate | null;
  readonly paperGrade: PaperGrade | null;
  readonly warnings: readonly Warning[];
}

/**
 * Measures of a paper strip.
 *
 * @param curve - fitted curve of reflection densities, darker with more exposure
 * @param options - net or gross, whether exposures are absolute, the grade table
 * @returns measures with standard errors; null where the strip does not reach a point, with a
 *   warning that says which
 * @throws InvalidArgumentError if the curve's densities are not finite
 * @source [ISO6846]
 */
export function paperMeasures(
  curve: CharacteristicCurve,
  options: PaperMeasureOptions = {},
): PaperMeasures {
  const { densityBasis = 'net', exposureKind = 'relative', gradeTable } = options;
  const warnings: Warning[] = [];
  const densityMin = requiredEstimate('paperMeasures', curve, derivedBaseFog);
  const { basis, measure: maximum } = maximumDensity(curve, densityMin.value, warnings);
  const densityMax = { ...requiredEstimate('paperMeasures', curve, maximum), basis };

  const shadowDensity: CurveMeasure = (c) => {
    const top = maximum(c);
    if (top === null || densityBasis === 'gross') return top && scaled(top, SHADOW_FRACTION);
    const bottom = derivedBaseFog(c);
    return plus(bottom, plus(top, bottom, -1), SHADOW_FRACTION);
  };
  const thresholdX: CurveMeasure = (c) => derivedNetPoint(c, THRESHOLD_NET_DENSITY);
  const shadowX: CurveMeasure = (c) => {
    const density = shadowDensity(c);
    return density && derivedLogExposure(c, density);
  };
  const threshold = pointWithin(curve, thresholdX, 'paper-minimum-not-reached', warnings);
  const speedX = pointWithin(
    curve,
    (c) => derivedNetPoint(c, PAPER_SPEED_NET_DENSITY),
    'measure-not-reached',
    warnings,
  );
  const shadow = pointWithin(curve, shadowX, 'paper-maximum-not-reached', warnings);

  const both = threshold !== null && shadow !== null && shadow.value > threshold.value;
  const scale = both ? estimateOn(curve, (c) => difference(shadowX(c), thresholdX(c))) : null;
  const averageGradient = both
    ? estimateOn(curve, (c) => {
        const run = difference(shadowX(c), thresholdX(c));
        const top = shadowDensity(c);
        const x = thresholdX(c);
        if (run === null || top === null || x === null) return null;
        return quotient(plus(top, derivedDensity(c, x), -1), run);
      })
    : null;
  if (exposureKind === 'relative') warnings.push(warning('exposure-relative'));

  const paperGrade = scale && gradeTable ? gradeOf(scale.value, gradeTable) : null;
  if (paperGrade?.outside) {
    warnings.push(warning('range-outside-grades', { outside: paperGrade.outside }));
  }
  const shadowD = estimateOn(curve, shadowDensity);
  return {
    densityBasis,
    densityMin,
    densityMax,
    threshold: threshold && { logExposure: threshold },
    speedPoint: speedX && { logExposure: speedX },
    shadowPoint: shadow && shadowD && { logExposure: shadow, density: shadowD.value },
    exposureScale: scale,
    isoRange: scale && { exact: times(scale, 100), rounded: isoRangeRounded(scale.value) },
    isoSpeed: exposureKind === 'absolute' && speedX ? paperSpeed(speedX) : null,
    averageGradient,
    greatestGradient: estimateOn(curve, greatestGradient),
    paperGrade,
    warnings,
  };
}

/** The asymptote where the strip determines and reaches it, else the last point of the curve. */
function maximumDensity(
  curve: CharacteristicCurve,
  densityMin: number,
  warnings: Warning[],
): { basis: 'asymptote' | 'highest-reading'; measure: CurveMeasure } {
  const asymptote: CurveMeasure = (c) => {
    const derivatives = new Float64Array(c.parameters.length);
    const value = modelOf(c).upperAsymptote(c.parameters, derivatives);
    return value === null ? null : { value, derivatives };
  };
  const highest: CurveMeasure = (c) => derivedDensity(c, constant(c, curve.logExposureRange[1]));
  const top = estimateOn(curve, asymptote);
  const last = requiredEstimate('paperMeasures', curve, highest).value - densityMin;
  if (top !== null) {
    const net = top.value - densityMin;
    const determined = (top.standardError ?? 0) <= PLATEAU_ERROR * net;
    if (determined && last >= PLATEAU_REACHED * net)
      return { basis: 'asymptote', measure: asymptote };
  }
  if (!flatAtTheEnd(curve, last)) {
    warnings.push(warning('paper-maximum-not-reached', { highestNetDensity: last }));
  }
  return { basis: 'highest-reading', measure: highest };
}

/** True where the last stop of exposure adds less than 2 % of the density. */
function flatAtTheEnd(curve: CharacteristicCurve, netMaximum: number): boolean {
  const [, end] = curve.logExposureRange;
  const model = modelOf(curve);
  const { parameters } = curve;
  const lastStop = model.value(end, parameters) - model.value(end - 0.301, parameters);
  return lastStop < 0.02 * netMaximum;
}

function pointWithin(
  curve: CharacteristicCurve,
  measure: CurveMeasure,
  code: 'paper-minimum-not-reached' | 'paper-maximum-not-reached' | 'measure-not-reached',
  warnings: Warning[],
): Estimate | null {
  const point = estimateOn(curve, measure);
  const [first, last] = curve.logExposureRange;
  const beyond = point === null ? Infinity : Math.max(first - point.value, point.value - last, 0);
  if (beyond > FARTHEST) {
    warnings.push(warning(code, { measure: 'paper point' }));
    return null;
  }
  if (beyond > 1e-9) {
    warnings.push(warning('measure-extrapolated', { measure: 'paper point', beyond }));
  }
  return point;
}

function difference(a: Derived | null, b: Derived | null): Derived | null {
  return a && b && plus(a, b, -1);
}

function times(estimate: Estimate, factor: number): Estimate {
  const { value, standardError } = estimate;
  return {
    value: factor * value,
    standardError: standardError === null ? null : factor * standardError,
  };
}

function paperSpeed(speedX: Estimate): PaperMeasures['isoSpeed'] {
  const value = isoPaperSpeed(10 ** speedX.value);
  const { standardError } = speedX;
  return {
    exact: {
      value,
      standardError: standardError === null ? null : Math.LN10 * value * standardError,
    },
    rounded: isoPaperSpeedRounded(value),
  };
}
