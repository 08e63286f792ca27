/**
 * The paper that a print is reckoned on: a fitted strip of the user's own, or the generated paper of
 * a scale, which is a logistic curve.
 *
 *   D(x) = Dn / (1 + exp(-K x)),   K = (ln 9 - ln(0.04 / (Dn - 0.04))) / exposure scale
 *
 * so that net 0.04 and 90 % of Dn lie one exposure scale apart. Densities are net, above paper white.
 *
 * Sources: [ISO6846] the two ends of the scale; the curve is derived, no published table of paper
 * curves was found. Deviations: a real paper has a longer toe and shoulder than the logistic one, so
 * a strip of the user's own is better wherever there is one.
 */
import {
  densityAt,
  derivedBaseFog,
  gradientAt,
  logExposureAt,
  type CharacteristicCurve,
} from '../curve/index.ts';
import { InvalidArgumentError, OutOfDomainError } from '../errors.ts';
import { SHADOW_FRACTION, THRESHOLD_NET_DENSITY } from './paper-measures.ts';

/** A paper to print on. Plain data. */
export type PrintPaper =
  | {
      readonly kind: 'generated';
      readonly exposureScale: number;
      /** Dn, greatest density above paper white. */
      readonly netMaximum: number;
    }
  | {
      readonly kind: 'strip';
      readonly exposureScale: number;
      readonly curve: CharacteristicCurve;
    };

/** Greatest net density of the generated paper: a glossy paper's, rounded. */
export const GENERATED_NET_MAXIMUM = 2;

/**
 * The generated paper of an exposure scale.
 *
 * @param exposureScale - log exposure from net 0.04 to 90 % of the maximum, > 0
 * @param netMaximum - greatest net density, > 0.05
 * @throws InvalidArgumentError if a value is out of range
 * @example
 * generatedPaper(1.05).exposureScale; // => 1.05
 */
export function generatedPaper(
  exposureScale: number,
  netMaximum = GENERATED_NET_MAXIMUM,
): PrintPaper {
  if (!(exposureScale > 0 && exposureScale <= 6)) {
    throw new InvalidArgumentError('generatedPaper', 'exposureScale', exposureScale, 'in (0, 6]');
  }
  if (!(netMaximum > 0.05 && netMaximum <= 4)) {
    throw new InvalidArgumentError('generatedPaper', 'netMaximum', netMaximum, 'in (0.05, 4]');
  }
  return { kind: 'generated', exposureScale, netMaximum };
}

/** Print density above paper white and its slope. */
export interface PrintTone {
  readonly netDensity: number;
  readonly gradient: number;
}

/**
 * The tone that an exposure prints.
 *
 * @param paper - the paper
 * @param aboveThreshold - log exposure above the one that just darkens the paper (net 0.04)
 * @returns net density and gradient
 * @throws InvalidArgumentError if `aboveThreshold` is not finite
 * @throws OutOfDomainError if a strip's curve never darkens to net 0.04
 * @example
 * printTone(generatedPaper(1.05), 0).netDensity.toFixed(3); // => '0.040'
 */
export function printTone(paper: PrintPaper, aboveThreshold: number): PrintTone {
  if (!Number.isFinite(aboveThreshold)) {
    throw new InvalidArgumentError('printTone', 'aboveThreshold', aboveThreshold, 'finite');
  }
  if (paper.kind === 'generated') {
    const { exposureScale, netMaximum } = paper;
    const foot = Math.log(THRESHOLD_NET_DENSITY / (netMaximum - THRESHOLD_NET_DENSITY));
    const steepness = (Math.log(SHADOW_FRACTION / (1 - SHADOW_FRACTION)) - foot) / exposureScale;
    const part = 1 / (1 + Math.exp(-(steepness * aboveThreshold + foot)));
    return {
      netDensity: netMaximum * part,
      gradient: steepness * netMaximum * part * (1 - part),
    };
  }
  const { curve } = paper;
  const white = derivedBaseFog(curve).value;
  const threshold = logExposureAt(curve, white + THRESHOLD_NET_DENSITY);
  if (threshold === null) {
    throw new OutOfDomainError('printTone', 'net density', THRESHOLD_NET_DENSITY, [0, 0]);
  }
  const x = threshold + aboveThreshold;
  return { netDensity: densityAt(curve, x) - white, gradient: gradientAt(curve, x) };
}
