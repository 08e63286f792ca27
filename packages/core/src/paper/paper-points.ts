/**
 * The points of a paper's curve by which it is measured, as measures with derivatives.
 *
 *   n(x) = D(x) - D_min
 *   threshold      n(x_t) = 0.04
 *   shadow point   D(x_s) = D_min + 0.90 (D_max - D_min)   net form, the default
 *                  D(x_s) = 0.90 D_max                     gross form
 *   exposure scale x_s - x_t
 *
 * Sources: [ISO6846] the points; the net form of the second from memory. Deviations: D_max is the
 * curve's asymptote where the strip determines and practically reaches it, else the density at the
 * greatest exposure.
 */
import {
  constant,
  derivedBaseFog,
  derivedDensity,
  derivedLogExposure,
  derivedNetPoint,
  estimateOn,
  functionOf,
  plus,
  requiredEstimate,
  scaled,
  type CharacteristicCurve,
  type CurveMeasure,
} from '../curve/index.ts';

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
/** The measures; each gives null on a curve that does not reach its point. */
export interface PaperPoints {
  readonly basis: 'asymptote' | 'highest-reading';
  /** Net density at the greatest exposure where the curve still rises there; null where not. */
  readonly shortfall: number | null;
  readonly maximum: CurveMeasure;
  readonly shadowDensity: CurveMeasure;
  readonly thresholdX: CurveMeasure;
  readonly shadowX: CurveMeasure;
  readonly exposureScale: CurveMeasure;
}

/**
 * The points of a strip.
 *
 * @param curve - the strip that decides what its maximum density is; the measures may then be put
 *   to it and to its rivals
 * @param densityBasis - whether 90 % is taken of the net or of the gross maximum
 */
export function paperPoints(
  curve: CharacteristicCurve,
  densityBasis: 'net' | 'gross' = 'net',
): PaperPoints {
  const { basis, maximum, shortfall } = maximumDensity(curve, derivedBaseFog(curve).value);
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
  const exposureScale: CurveMeasure = (c) => {
    const shadow = shadowX(c);
    const threshold = thresholdX(c);
    return shadow && threshold && plus(shadow, threshold, -1);
  };
  return { basis, shortfall, maximum, shadowDensity, thresholdX, shadowX, exposureScale };
}

/** The asymptote where the strip determines and reaches it, else the last point of the curve. */
function maximumDensity(
  curve: CharacteristicCurve,
  densityMin: number,
): Pick<PaperPoints, 'basis' | 'maximum' | 'shortfall'> {
  const asymptote: CurveMeasure = (c) => {
    const derivatives = new Float64Array(c.parameters.length);
    const value = functionOf(c).upperAsymptote(c.parameters, derivatives);
    return value === null ? null : { value, derivatives };
  };
  const highest: CurveMeasure = (c) => derivedDensity(c, constant(c, curve.logExposureRange[1]));
  const top = estimateOn(curve, asymptote);
  const last = requiredEstimate('paperPoints', curve, highest).value - densityMin;
  if (top !== null) {
    const net = top.value - densityMin;
    const determined = (top.standardError ?? 0) <= PLATEAU_ERROR * net;
    if (determined && last >= PLATEAU_REACHED * net)
      return { basis: 'asymptote', maximum: asymptote, shortfall: null };
  }
  const shortfall = flatAtTheEnd(curve, last) ? null : last;
  return { basis: 'highest-reading', maximum: highest, shortfall };
}

/** True where the last stop of exposure adds less than 2 % of the density. */
function flatAtTheEnd(curve: CharacteristicCurve, netMaximum: number): boolean {
  const [, end] = curve.logExposureRange;
  const model = functionOf(curve);
  const { parameters } = curve;
  const lastStop = model.value(end, parameters) - model.value(end - 0.301, parameters);
  return lastStop < 0.02 * netMaximum;
}
