/**
 * The curve that a fixed ratio of hard to soft light gives on variable-contrast paper.
 *
 *   x_h = x + q,  x_s = x,  q = log10 (hard / soft)
 *   exposure scale = x(0.90 D_n) - x(0.04)
 *
 * Sources: [ISO6846] the two points, net form. Deviations: none.
 */
import { InvalidArgumentError, OutOfDomainError } from '../../errors.ts';
import { SHADOW_FRACTION, THRESHOLD_NET_DENSITY } from '../paper-points.ts';
import type { PrintPaper } from '../print-paper.ts';
import { densityOfMixedExposure, type VariableContrastPaper } from './variable-contrast-paper.ts';

/** The mixed exposures are sought within this many log units around the paper's speeds. */
const REACH = 12;

/**
 * Log exposure of the soft light at which a mixture gives a print density.
 *
 * @param logRatio - log10 of hard over soft exposure, finite; beyond ±20 one light is alone
 * @param density - print density between the paper's minimum and maximum
 * @returns log10 exposure of the soft light; the hard one's is that plus `logRatio`
 * @throws OutOfDomainError if the paper does not reach the density
 */
export function softLogExposureFor(
  paper: VariableContrastPaper,
  logRatio: number,
  density: number,
): number {
  const { minimumDensity, netMaximumDensity, hardLogSpeed, softLogSpeeds } = paper;
  const top = minimumDensity + netMaximumDensity;
  if (!(density > minimumDensity && density < top)) {
    throw new OutOfDomainError('softLogExposureFor', 'density', density, [minimumDensity, top]);
  }
  const fastest = Math.max(softLogSpeeds[0] ?? -Infinity, hardLogSpeed + logRatio);
  let low = -fastest - REACH;
  let high = -fastest + REACH;
  for (let i = 0; i < 80; i++) {
    const x = 0.5 * (low + high);
    const here = densityOfMixedExposure(paper, {
      hardLogExposure: x + logRatio,
      softLogExposure: x,
    });
    if (here < density) low = x;
    else high = x;
  }
  return 0.5 * (low + high);
}

/**
 * Exposure scale of the paper under a mixture of lights.
 *
 * @param logRatio - log10 of hard over soft exposure
 * @returns log10 H_s - log10 H_t
 * @source [ISO6846]
 */
export function exposureScaleOfMixture(paper: VariableContrastPaper, logRatio: number): number {
  const { minimumDensity, netMaximumDensity } = paper;
  const at = (net: number): number => softLogExposureFor(paper, logRatio, minimumDensity + net);
  return at(SHADOW_FRACTION * netMaximumDensity) - at(THRESHOLD_NET_DENSITY);
}

/**
 * A mixture of lights as a paper to print on.
 *
 * @param layers - a fitted paper
 * @param logRatio - log10 of hard over soft exposure; beyond ±20 one light is alone
 * @throws InvalidArgumentError if the ratio is not finite
 */
export function mixturePaper(layers: VariableContrastPaper, logRatio: number): PrintPaper {
  if (!Number.isFinite(logRatio)) {
    throw new InvalidArgumentError('mixturePaper', 'logRatio', logRatio, 'a finite number');
  }
  const exposureScale = exposureScaleOfMixture(layers, logRatio);
  return { kind: 'mixture', exposureScale, layers, logRatio };
}
