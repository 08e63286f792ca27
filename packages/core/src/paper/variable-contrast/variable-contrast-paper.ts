/**
 * Variable-contrast paper as layers of emulsion that share contrast and the speed to hard (blue)
 * light, or very nearly, and differ in their speed to soft (green) light.
 *
 *   E_i = 10^(h_i + x_h) + 10^(s_i + x_s)        exposures add inside a layer
 *   D   = D_min + (D_n / N) Σ_i 1 / (1 + exp(-k_i log10 E_i))     densities add across layers
 *   ln k_i = ln k + c u_i,  h_i = h + b u_i,  u_i from -1/2 (fastest to soft light) to 1/2
 *
 * x_h, x_s log exposure of hard and soft light, h_i and s_i the layers' log speeds, k_i the contrasts;
 * c and b are 0 for layers alike.
 *
 * Sources: [VCSHEET] a maker's account of such papers; the equations are derived from it.
 * Deviations: the popular picture of one soft and one hard emulsion is a simplification and is not
 * used; the curve of a single layer is taken as logistic; that layers may drift in contrast and hard
 * speed is our own, for strips that layers alike do not describe.
 */
import { InvalidArgumentError } from '../../errors.ts';

/** A variable-contrast paper with its parameters. Plain data. */
export interface VariableContrastPaper {
  readonly minimumDensity: number;
  /** Net maximum density D_n. */
  readonly netMaximumDensity: number;
  /** Contrast k of a layer, per log10 exposure; of the middle one where they drift. */
  readonly layerContrast: number;
  /** log10 of the speed of every layer to hard light; of the middle one where they drift. */
  readonly hardLogSpeed: number;
  /** log10 of the speed of each layer to soft light, fastest first. */
  readonly softLogSpeeds: readonly number[];
  /** How the slowest layer differs from the fastest; left out where they are alike. */
  readonly drift?: LayerDrift;
}

/** The slowest layer (to soft light) less the fastest. */
interface LayerDrift {
  /** Of ln k. */
  readonly logContrast: number;
  /** Of the log10 speed to hard light. */
  readonly hardLogSpeed: number;
}

/** Place of a layer, from -1/2 to 1/2. */
export const placeOfLayer = (index: number, layers: number): number =>
  layers > 1 ? index / (layers - 1) - 0.5 : 0;

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
  const { softLogSpeeds, drift } = paper;
  let { layerContrast } = paper;
  let hard = 10 ** (paper.hardLogSpeed + hardLogExposure);
  let sum = 0;
  let byHard = 0;
  let bySoft = 0;
  for (const [index, softLogSpeed] of softLogSpeeds.entries()) {
    if (drift !== undefined) {
      const place = placeOfLayer(index, softLogSpeeds.length);
      layerContrast = paper.layerContrast * Math.exp(drift.logContrast * place);
      hard = 10 ** (paper.hardLogSpeed + drift.hardLogSpeed * place + hardLogExposure);
    }
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
