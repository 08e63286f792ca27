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
import type { CharacteristicCurve } from '../curve/index.ts';
import { InvalidArgumentError } from '../errors.ts';
import type { VariableContrastPaper } from './variable-contrast/variable-contrast-paper.ts';

/** One of the strips that a setting lies between. */
interface SettingPart {
  readonly curve: CharacteristicCurve;
  /** Log exposure of net 0.04 on its own curve. */
  readonly thresholdLogExposure: number;
  readonly exposureScale: number;
  /** Share of this strip's shape; the shares add up to 1. */
  readonly weight: number;
}

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
    }
  | {
      /** Between the strips of a paper map, from `paperAtSetting`. */
      readonly kind: 'setting';
      readonly exposureScale: number;
      /** Density of the unexposed paper. */
      readonly whiteDensity: number;
      /** Log exposure of net 0.04, in the unit of the strips. */
      readonly thresholdLogExposure: number;
      readonly parts: readonly SettingPart[];
    }
  | {
      /** Soft and hard light in one ratio on variable-contrast paper, from `mixturePaper`. */
      readonly kind: 'mixture';
      readonly exposureScale: number;
      readonly layers: VariableContrastPaper;
      /** log10 of hard over soft exposure. */
      readonly logRatio: number;
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
