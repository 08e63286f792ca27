/**
 * A paper made ready to print on: tone by log exposure above the threshold, its inverse and its ends,
 * whatever the paper is known by.
 *
 *   generated   N(x) = Dn / (1 + exp(-K x + ...)), see `print-paper.ts`
 *   strip       N(x) = D(x_t + x) - D_min                     the fitted curve of one strip
 *   setting     N(x) = Σ_i w_i N_i(x_i + S_i x / S)           between strips, see `paper-at-setting.ts`
 *   mixture     N(x) of soft and hard light in one ratio      see `variable-contrast-paper.ts`
 *
 * x_t is the log exposure that just darkens the paper, to net 0.04.
 *
 * Sources: [ISO6846] the threshold. Deviations: none.
 */
import {
  derivedBaseFog,
  logExposureAt,
  functionOf,
  type CharacteristicCurve,
} from '../curve/index.ts';
import { InvalidArgumentError, OutOfDomainError } from '../errors.ts';
import { SHADOW_FRACTION, THRESHOLD_NET_DENSITY } from './paper-points.ts';
import type { PrintPaper } from './print-paper.ts';
import { softLogExposureFor } from './variable-contrast/mixed-curve.ts';
import { toneOfMixture } from './variable-contrast/variable-contrast-paper.ts';

/** Print density above paper white and its slope. */
export interface PrintTone {
  readonly netDensity: number;
  readonly gradient: number;
}

/** A paper ready for inner loops. Not plain data: make it where it is used. */
export interface PaperResponse {
  readonly exposureScale: number;
  /** Tone at a log exposure above the threshold; the argument is not checked. */
  readonly tone: (aboveThreshold: number) => PrintTone;
  /** Density of the unexposed paper; null where no strip tells it. */
  readonly whiteDensity: number | null;
  /** Greatest density above paper white that the paper tends to. */
  readonly netMaximum: number;
  /**
   * Log exposure of the threshold in the unit of the strips; for a mixture that of the soft light.
   * Null for a generated paper, whose speed nobody measured.
   */
  readonly thresholdLogExposure: number | null;
}

/** Log exposures this far beyond the scale are sought for a tone. */
const REACH = 4;

/**
 * Makes a paper ready.
 *
 * @param paper - the paper
 * @returns its response
 * @throws OutOfDomainError if a strip's curve never darkens to net 0.04
 * @example
 * paperResponse(generatedPaper(1.05)).netMaximum; // => 2
 */
export function paperResponse(paper: PrintPaper): PaperResponse {
  const { exposureScale } = paper;
  switch (paper.kind) {
    case 'generated': {
      const { netMaximum } = paper;
      const foot = Math.log(THRESHOLD_NET_DENSITY / (netMaximum - THRESHOLD_NET_DENSITY));
      const steepness = (Math.log(SHADOW_FRACTION / (1 - SHADOW_FRACTION)) - foot) / exposureScale;
      return {
        exposureScale,
        netMaximum,
        whiteDensity: null,
        thresholdLogExposure: null,
        tone: (above) => {
          const part = 1 / (1 + Math.exp(-(steepness * above + foot)));
          return {
            netDensity: netMaximum * part,
            gradient: steepness * netMaximum * part * (1 - part),
          };
        },
      };
    }
    case 'strip': {
      const { curve } = paper;
      const whiteDensity = derivedBaseFog(curve).value;
      const threshold = thresholdOf(curve);
      const tone = toneOnCurve(curve, threshold, whiteDensity);
      return {
        exposureScale,
        whiteDensity,
        thresholdLogExposure: threshold,
        netMaximum: tone(exposureScale).netDensity / SHADOW_FRACTION,
        tone,
      };
    }
    case 'setting': {
      const parts = paper.parts.map(
        ({ curve, thresholdLogExposure, exposureScale: own, weight }) => ({
          weight,
          stretch: own / exposureScale,
          tone: toneOnCurve(curve, thresholdLogExposure, derivedBaseFog(curve).value),
        }),
      );
      const tone = (above: number): PrintTone => {
        let netDensity = 0;
        let gradient = 0;
        for (const part of parts) {
          const at = part.tone(part.stretch * above);
          netDensity += part.weight * at.netDensity;
          gradient += part.weight * part.stretch * at.gradient;
        }
        return { netDensity, gradient };
      };
      return {
        exposureScale,
        whiteDensity: paper.whiteDensity,
        thresholdLogExposure: paper.thresholdLogExposure,
        netMaximum: tone(exposureScale).netDensity / SHADOW_FRACTION,
        tone,
      };
    }
    case 'mixture': {
      const { layers, logRatio } = paper;
      const threshold = softLogExposureFor(
        layers,
        logRatio,
        layers.minimumDensity + THRESHOLD_NET_DENSITY,
      );
      return {
        exposureScale,
        whiteDensity: layers.minimumDensity,
        thresholdLogExposure: threshold,
        netMaximum: layers.netMaximumDensity,
        tone: (above) => {
          const soft = threshold + above;
          const mixed = toneOfMixture(layers, soft + logRatio, soft);
          return {
            netDensity: mixed.netDensity,
            gradient: mixed.gradientBySoft + mixed.gradientByHard,
          };
        },
      };
    }
  }
}

/**
 * Log exposure above the threshold that prints a net density.
 *
 * @param response - from `paperResponse`
 * @param netDensity - density above paper white, > 0
 * @returns log exposure above the threshold, or null where the paper does not get so dark
 * @throws InvalidArgumentError if `netDensity` is not above zero
 * @example
 * exposureForTone(paperResponse(generatedPaper(1.05)), 1.8)?.toFixed(3); // => '1.050'
 */
export function exposureForTone(response: PaperResponse, netDensity: number): number | null {
  if (!(netDensity > 0 && netDensity < Infinity)) {
    throw new InvalidArgumentError('exposureForTone', 'netDensity', netDensity, 'above zero');
  }
  let low = -REACH;
  let high = response.exposureScale + REACH;
  if (response.tone(high).netDensity < netDensity) return null;
  // A density so small that even four log units below the threshold are too dark has no exposure.
  if (response.tone(low).netDensity > netDensity) return null;
  let x = 0.5 * response.exposureScale;
  for (let i = 0; i < 100; i++) {
    const at = response.tone(x);
    const miss = at.netDensity - netDensity;
    if (miss === 0) return x;
    if (miss < 0) low = x;
    else high = x;
    const newton = x - miss / at.gradient;
    const next = newton > low && newton < high ? newton : 0.5 * (low + high);
    if (Math.abs(next - x) < 1e-13) return next;
    x = next;
  }
  return x;
}

function toneOnCurve(
  curve: CharacteristicCurve,
  threshold: number,
  white: number,
): (above: number) => PrintTone {
  const model = functionOf(curve);
  const { parameters } = curve;
  return (above) => {
    const x = threshold + above;
    return {
      netDensity: model.value(x, parameters) - white,
      gradient: model.gradient(x, parameters),
    };
  };
}

/** Where a strip's curve stands at net 0.04. */
function thresholdOf(curve: CharacteristicCurve): number {
  const white = derivedBaseFog(curve).value;
  const threshold = logExposureAt(curve, white + THRESHOLD_NET_DENSITY);
  if (threshold === null) {
    throw new OutOfDomainError('paperResponse', 'net density', THRESHOLD_NET_DENSITY, [0, 0]);
  }
  return threshold;
}
