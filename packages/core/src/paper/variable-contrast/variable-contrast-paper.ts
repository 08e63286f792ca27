/**
 * Variable-contrast paper as layers of emulsion that share contrast and the speed to hard (blue)
 * light and differ in their speed to soft (green) light.
 *
 *   E_i = 10^(h + x_h) + 10^(s_i + x_s)        exposures add inside a layer
 *   D   = D_min + (D_n / N) Σ_i 1 / (1 + exp(-k log10 E_i))     densities add across layers
 *
 * x_h, x_s log exposure of hard and soft light, h and s_i the layers' log speeds, k the contrast.
 *
 * Sources: [VCSHEET] a maker's account of such papers; the equations are derived from it.
 * Deviations: the popular picture of one soft and one hard emulsion is a simplification and is not
 * used; the curve of a single layer is taken as logistic.
 */
import { InvalidArgumentError } from '../../errors.ts';

/** A variable-contrast paper with its parameters. Plain data. */
export interface VariableContrastPaper {
  readonly minimumDensity: number;
  /** Net maximum density D_n. */
  readonly netMaximumDensity: number;
  /** Contrast k of a layer, per log10 exposure. */
  readonly layerContrast: number;
  /** log10 of the speed of every layer to hard light. */
  readonly hardLogSpeed: number;
  /** log10 of the speed of each layer to soft light, fastest first. */
  readonly softLogSpeeds: readonly number[];
}

/** Log exposures of the two lights at one place of the print; -Infinity where a light was off. */
export interface MixedExposure {
  readonly hardLogExposure: number;
  readonly softLogExposure: number;
}

/**
 * Print density under a mixed exposure. The order and the splitting of the exposures do not count.
 *
 * @param exposure - log10 exposures of both lights, relative or lux-seconds as the paper was fitted
 * @returns reflection density
 * @throws InvalidArgumentError if a log exposure is NaN or +Infinity
 */
export function densityOfMixedExposure(
  paper: VariableContrastPaper,
  exposure: MixedExposure,
): number {
  const { hardLogExposure, softLogExposure } = exposure;
  for (const [name, value] of Object.entries({ hardLogExposure, softLogExposure })) {
    if (!(value < Infinity)) {
      throw new InvalidArgumentError('densityOfMixedExposure', name, value, 'a log exposure');
    }
  }
  return paper.minimumDensity + toneOfMixture(paper, hardLogExposure, softLogExposure).netDensity;
}

/** Net density with its slopes by the log exposure of each light. */
export interface MixtureTone {
  readonly netDensity: number;
  readonly gradientByHard: number;
  readonly gradientBySoft: number;
}

/** As `densityOfMixedExposure`, with the slopes, for inner loops: arguments are not checked. */
export function toneOfMixture(
  paper: VariableContrastPaper,
  hardLogExposure: number,
  softLogExposure: number,
): MixtureTone {
  const { layerContrast, softLogSpeeds } = paper;
  const hard = 10 ** (paper.hardLogSpeed + hardLogExposure);
  let sum = 0;
  let byHard = 0;
  let bySoft = 0;
  for (const softLogSpeed of softLogSpeeds) {
    const soft = 10 ** (softLogSpeed + softLogExposure);
    const layer = hard + soft;
    // log10 0 is -Infinity, exp of its negative is Infinity, and the layer stays white: 0.
    const part = 1 / (1 + Math.exp(-layerContrast * Math.log10(layer)));
    sum += part;
    if (layer > 0) {
      const bend = layerContrast * part * (1 - part);
      byHard += (bend * hard) / layer;
      bySoft += (bend * soft) / layer;
    }
  }
  const share = paper.netMaximumDensity / softLogSpeeds.length;
  return {
    netDensity: share * sum,
    gradientByHard: share * byHard,
    gradientBySoft: share * bySoft,
  };
}
