/**
 * Every measure of a film strip, from its fitted curve.
 *
 *   net density       n(x) = D(x) - base fog
 *   speed point       n(x_m) = 0.10
 *   ISO triangle      D(x_m + 1.30) - D(x_m) = 0.80 within a tolerance
 *   average gradient  chord between named end points
 *
 * Sources: [ISO6] speed point, contrast condition, speed; [NNY1966] contrast index; [NS1956]
 * fractional gradient; [HD1890] gamma and inertia. Deviations: the tolerance of 0.05 on the
 * contrast condition is a setting (a teaching workbook's figure, not seen in the standard).
 */
import {
  constant,
  derivedBaseFog,
  derivedDensity,
  derivedNetPoint,
  estimateOn,
  requiredEstimate,
  through,
  type CharacteristicCurve,
  type CurveMeasure,
} from '../curve/index.ts';
import { InvalidArgumentError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';
import { warning, type Warning } from '../warning.ts';
import {
  averageGradients,
  riseFrom,
  type AverageGradient,
  type StartOfChords,
} from './average-gradients.ts';
import { contrastIndex } from './contrast-index.ts';
import { deltaXSpeed, type DeltaXSpeed } from './fractional-gradient.ts';
import { isoSpeed } from './iso-speed.ts';
import { FARTHEST_EXTRAPOLATION, withinReadings } from './reach.ts';
import { steepestPart } from './steepest-part.ts';
import { usefulRange, type UsefulRange } from './useful-range.ts';

/** Net density of the speed point. */
export const SPEED_POINT_DENSITY = 0.1;
/** Log exposure from the speed point to the second corner of the ISO triangle. */
export const ISO_TRIANGLE_LOG_EXPOSURE = 1.3;
/** Density rise that the contrast condition asks for. */
export const ISO_TRIANGLE_RISE = 0.8;

export interface FilmMeasureOptions {
  /** `absolute`: log exposures are log10 of lux-seconds, so that a speed has a meaning. */
  readonly exposureKind: 'absolute' | 'relative';
  /** Allowed departure of the ISO triangle's rise from 0.80; 0.05 unless given. */
  readonly isoTolerance?: number;
}

/** Speed or exposure index. Without the contrast condition the figure is never an ISO speed. */
export interface FilmSpeed {
  readonly arithmetic: number;
  readonly degrees: number;
  /** Unrounded 0.8 / H_m. */
  readonly exact: Estimate;
  readonly kind: 'iso' | 'exposure-index';
}

export interface FilmMeasures {
  readonly baseFog: Estimate;
  /** Density of the curve at the greatest exposure read. */
  readonly densityMax: Estimate;
  readonly gamma: Estimate | null;
  readonly inertia: { readonly logExposure: Estimate } | null;
  readonly speedPoint: { readonly logExposure: Estimate } | null;
  readonly isoTriangle: { readonly densityRise: Estimate; readonly met: boolean } | null;
  readonly speed: FilmSpeed | null;
  /** Speed by the fractional gradient, from the speed point and the rise over 1.30. */
  readonly fractionalGradientSpeed: DeltaXSpeed | null;
  /** H&D speed, 34 / inertia in candle-metre-seconds. */
  readonly hurterDriffieldSpeed: Estimate | null;
  readonly contrastIndex: Estimate | null;
  readonly averageGradients: readonly AverageGradient[];
  readonly usefulRange: UsefulRange | null;
  readonly warnings: readonly Warning[];
}

/**
 * Measures of a film strip.
 *
 * @param curve - the fitted curve
 * @param options - whether exposures are absolute, and the tolerance of the contrast condition
 * @returns measures with standard errors; null where the readings do not determine one, with a
 *   warning that says why
 * @throws InvalidArgumentError if the tolerance is negative or not a number
 */
export function filmMeasures(
  curve: CharacteristicCurve,
  options: FilmMeasureOptions,
): FilmMeasures {
  const { exposureKind, isoTolerance = 0.05 } = options;
  if (!(isoTolerance >= 0)) {
    throw new InvalidArgumentError('filmMeasures', 'isoTolerance', isoTolerance, 'zero or more');
  }
  const warnings: Warning[] = [];
  const [, lastX] = curve.logExposureRange;
  const baseFog = requiredEstimate('filmMeasures', curve, derivedBaseFog);
  const densityMax = requiredEstimate('filmMeasures', curve, (c) =>
    derivedDensity(c, constant(c, lastX)),
  );

  const partOf = cached(steepestPart);
  const steepest = curve.family === 'as-drawn' ? null : partOf(curve);
  if (curve.family === 'as-drawn') warnings.push(warning('slope-from-drawn-curve'));
  if (steepest?.stillRising === true) {
    warnings.push(warning('no-straight-part', { gamma: steepest.gamma.value }));
  }
  const inertia = steepest && estimateOn(curve, (c) => partOf(c)?.inertia ?? null);

  const pointX = cached((c) => derivedNetPoint(c, SPEED_POINT_DENSITY));
  const pointDensity = cached((c) => {
    const x = pointX(c);
    return x && derivedDensity(c, x);
  });
  const point: StartOfChords = { logExposure: pointX, density: pointDensity };
  const speedX = speedPointWithin(curve, pointX, warnings);
  const triangle = isoTriangle(curve, point, speedX, isoTolerance, warnings);
  const absolute = exposureKind === 'absolute';
  const speed = absolute ? filmSpeed(speedX, triangle?.met === true) : null;
  if (!absolute) warnings.push(warning('exposure-relative'));

  return {
    baseFog,
    densityMax,
    gamma: steepest && estimateOn(curve, (c) => partOf(c)?.gamma ?? null),
    inertia: inertia && { logExposure: inertia },
    speedPoint: speedX && { logExposure: speedX },
    isoTriangle: triangle,
    speed,
    fractionalGradientSpeed:
      absolute && speedX && triangle ? deltaXSpeed(speedX, triangle.densityRise) : null,
    hurterDriffieldSpeed:
      absolute && inertia
        ? estimateOn(curve, (c) => {
            const i = partOf(c)?.inertia;
            if (i === undefined) return null;
            const value = 34 / 10 ** i.value;
            return through(i, value, -Math.LN10 * value);
          })
        : null,
    contrastIndex: contrastIndexOf(curve, warnings),
    averageGradients: averageGradients(
      curve,
      SPEED_POINT_DENSITY,
      point,
      speedX?.value ?? null,
      warnings,
    ),
    usefulRange: steepest && speedX ? usefulRange(curve, speedX.value, steepest.gamma.value) : null,
    warnings,
  };
}

/** Remembers what was derived from a curve for the time of one call. */
function cached<T>(derive: (curve: CharacteristicCurve) => T): (curve: CharacteristicCurve) => T {
  const known = new Map<CharacteristicCurve, T>();
  return (curve) => {
    const found = known.get(curve);
    if (found !== undefined) return found;
    const derived = derive(curve);
    known.set(curve, derived);
    return derived;
  };
}

function speedPointWithin(
  curve: CharacteristicCurve,
  point: CurveMeasure,
  warnings: Warning[],
): Estimate | null {
  const speedX = estimateOn(curve, point);
  if (speedX === null) {
    warnings.push(warning('speed-point-not-reached', { netDensity: SPEED_POINT_DENSITY }));
    return null;
  }
  const { beyond } = withinReadings(curve, speedX.value);
  if (beyond > FARTHEST_EXTRAPOLATION) {
    warnings.push(warning('speed-point-not-reached', { netDensity: SPEED_POINT_DENSITY, beyond }));
    return null;
  }
  if (beyond > 0) warnings.push(warning('speed-point-extrapolated', { beyond }));
  return speedX;
}

function isoTriangle(
  curve: CharacteristicCurve,
  point: StartOfChords,
  speedX: Estimate | null,
  tolerance: number,
  warnings: Warning[],
): FilmMeasures['isoTriangle'] {
  if (speedX === null) return null;
  const { beyond } = withinReadings(curve, speedX.value + ISO_TRIANGLE_LOG_EXPOSURE);
  if (beyond > FARTHEST_EXTRAPOLATION) {
    warnings.push(warning('measure-not-reached', { measure: 'ISO triangle', beyond }));
    return null;
  }
  if (beyond > 0)
    warnings.push(warning('measure-extrapolated', { measure: 'ISO triangle', beyond }));
  const densityRise = estimateOn(curve, (c) => riseFrom(c, point, ISO_TRIANGLE_LOG_EXPOSURE));
  if (densityRise === null) return null;
  // Half a millionth: a rise of exactly 0.85 must not fail by the last bit of a double.
  const met = Math.abs(densityRise.value - ISO_TRIANGLE_RISE) <= tolerance + 5e-7;
  if (!met) warnings.push(warning('iso-triangle-not-met', { rise: densityRise.value, tolerance }));
  return { densityRise, met };
}

function filmSpeed(speedX: Estimate | null, triangleMet: boolean): FilmSpeed | null {
  if (speedX === null) return null;
  const { arithmetic, degrees, exact } = isoSpeed(speedX.value);
  const { standardError } = speedX;
  return {
    arithmetic,
    degrees,
    exact: {
      value: exact,
      standardError: standardError === null ? null : Math.LN10 * exact * standardError,
    },
    kind: triangleMet ? 'iso' : 'exposure-index',
  };
}

function contrastIndexOf(curve: CharacteristicCurve, warnings: Warning[]): Estimate | null {
  const drawn = contrastIndex(curve, FARTHEST_EXTRAPOLATION);
  if (drawn === null) {
    warnings.push(warning('contrast-index-not-determined'));
    return null;
  }
  if (drawn.others.length > 0) {
    warnings.push(
      warning('contrast-index-ambiguous', {
        chosen: drawn.index.value,
        others: drawn.others.map((other) => other.toFixed(3)).join(', '),
      }),
    );
  }
  const { beyond } = withinReadings(curve, drawn.outer.logExposure);
  if (beyond > 0) {
    warnings.push(warning('measure-extrapolated', { measure: 'contrast index', beyond }));
  }
  return estimateOn(curve, (c) =>
    c === curve ? drawn.index : (contrastIndex(c, FARTHEST_EXTRAPOLATION)?.index ?? null),
  );
}
