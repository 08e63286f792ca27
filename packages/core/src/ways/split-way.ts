/**
 * Split exposure of variable-contrast paper, by its layers: the mixture of soft and hard light whose
 * exposure scale is the negative's range, and what it costs in light.
 *
 *   exposure scale (q) = printing range,   q = log10 hard / soft
 *   stops = log2 ((f_s E_s + f_h E_h) / (E_s + E_h))
 *
 * E_s, E_h exposures of both lights, f the exposure factors of their filters against no filter.
 *
 * Sources: [VCSHEET] the layers; [ISO6846] the ends of the scale. Deviations: light without a filter
 * is taken to need the same exposure in all; the factors were published for one density only.
 */
import { exposureScaleOfMixture, mixturePaper, type PrintPaper } from '../paper/index.ts';
import type { LightShare, SplitLights } from './way-out.ts';

export interface SplitWay {
  readonly paper: PrintPaper;
  readonly split: LightShare;
  /** Null where the light without a filter is not known. */
  readonly exposureStops: number | null;
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
  const ratio = 10 ** logRatio;
  // Times for a soft exposure of 1 and a hard one of `ratio`.
  const soft = softFactor ?? 1;
  const time = soft + (hardFactor ?? 1) * ratio;
  return {
    paper: mixturePaper(paper, logRatio),
    split: { origin, logRatio, softTimeShare: soft / time },
    exposureStops:
      softFactor === null || hardFactor === null ? null : Math.log2(time / (1 + ratio)),
    reachable,
  };
}
