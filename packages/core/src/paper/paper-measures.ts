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
  derivedBaseFog,
  derivedDensity,
  derivedNetPoint,
  estimateOn,
  requiredEstimate,
  plus,
  quotient,
  type CharacteristicCurve,
  type CurveMeasure,
} from '../curve/index.ts';
import type { Estimate } from '../estimate.ts';
import { warning, type Warning } from '../warning.ts';
import type { GradeTable } from './grade-table.ts';
import { gradeOf, type PaperGrade } from './grade-of.ts';
import { greatestGradient } from './greatest-gradient.ts';
import { isoPaperSpeed, isoPaperSpeedRounded, isoRangeRounded } from './iso-range.ts';
import { PAPER_SPEED_NET_DENSITY, paperPoints } from './paper-points.ts';

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
  const points = paperPoints(curve, densityBasis);
  const { shadowDensity, thresholdX, shadowX } = points;
  const densityMin = requiredEstimate('paperMeasures', curve, derivedBaseFog);
  if (points.shortfall !== null) {
    warnings.push(warning('paper-maximum-not-reached', { highestNetDensity: points.shortfall }));
  }
  const densityMax = {
    ...requiredEstimate('paperMeasures', curve, points.maximum),
    basis: points.basis,
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
  const scale = both ? estimateOn(curve, points.exposureScale) : null;
  const averageGradient = both
    ? estimateOn(curve, (c) => {
        const run = points.exposureScale(c);
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
