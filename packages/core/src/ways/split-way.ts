/**
 * Split exposure of variable-contrast paper, by its layers: the mixture of soft and hard light whose
 * exposure scale is the negative's range, and what it costs in light.
 *
 *   exposure scale (q) = printing range,   q = log10 hard / soft
 *   stops = log2 ((f_s E_s + f_h E_h) / E_0)
 *
 * E_s, E_h exposures of both lights that print the highlight at net 0.04, f the exposure factors of
 * their filters, E_0 the exposure by soft light alone without a filter.
 *
 * Sources: [VCSHEET] the layers; [ISO6846] the ends of the scale. Deviations: light without a filter
 * is taken to act on the fastest layer as soft light does.
 */
import {
  exposureScaleOfMixture,
  mixturePaper,
  softLogExposureFor,
  THRESHOLD_NET_DENSITY,
  type PrintPaper,
  type VariableContrastPaper,
} from '../paper/index.ts';
import type { LightShare, SplitLights } from './way-out.ts';

export interface SplitWay {
  readonly paper: PrintPaper;
  readonly split: LightShare;
  readonly exposureStops: number;
  /** True where the mixture serves the range. */
  readonly reachable: boolean;
}

/** Mixtures beyond this are one light alone. */
const ONE_LIGHT = 8;

/**
 * The mixture for a printing range.
 *
 * @param lights - the paper and the factors of its filters
 * @param printingRange - what the scale should be
 * @returns the mixture; the nearest of one light alone where none serves the range
 */
export function splitWay(lights: SplitLights, printingRange: number): SplitWay {
  const { paper, origin, softFactor, hardFactor } = lights;
  // The ratio counts in exposures of a layer, so that it does not hang on the units of the lights.
  const even = (paper.softLogSpeeds[0] ?? 0) - paper.hardLogSpeed;
  let low = even - ONE_LIGHT;
  let high = even + ONE_LIGHT;
  const softest = exposureScaleOfMixture(paper, low);
  const hardest = exposureScaleOfMixture(paper, high);
  const reachable = printingRange <= softest && printingRange >= hardest;
  if (printingRange > softest) high = low;
  else if (printingRange < hardest) low = high;
  // Scales shorten as hard light is added.
  for (let i = 0; i < 40 && low < high; i++) {
    const middle = 0.5 * (low + high);
    if (exposureScaleOfMixture(paper, middle) > printingRange) low = middle;
    else high = middle;
  }
  const logRatio = 0.5 * (low + high);
  const soft = 10 ** thresholdOf(paper, logRatio);
  const hard = soft * 10 ** logRatio;
  const alone = 10 ** thresholdOf(paper, even - ONE_LIGHT);
  const softTime = softFactor * soft;
  const time = softTime + hardFactor * hard;
  return {
    paper: mixturePaper(paper, logRatio),
    split: { origin, logRatio, softTimeShare: softTime / time },
    exposureStops: Math.log2(time / alone),
    reachable,
  };
}

/** Log exposure of the soft light of a mixture that just darkens the paper. */
function thresholdOf(paper: VariableContrastPaper, logRatio: number): number {
  return softLogExposureFor(paper, logRatio, paper.minimumDensity + THRESHOLD_NET_DENSITY);
}
