/**
 * Split exposure: soft and hard light that give two print densities at two negative densities.
 *
 *   D(x_h - n_1, x_s - n_1) = D_1   highlight, dense on the negative
 *   D(x_h - n_2, x_s - n_2) = D_2   shadow, thin on the negative
 *
 * For every ratio of hard to soft one total exposure sets the highlight; the shadow's density grows
 * with the ratio, so that one ratio serves both.
 *
 * Sources: see `variable-contrast-paper.ts`. Deviations: none.
 */
import { InvalidArgumentError } from '../../errors.ts';
import {
  densityOfMixedExposure,
  softLogExposureFor,
  type VariableContrastPaper,
} from '../../paper/index.ts';

/** A tone: how dense the negative is there, as the paper sees it, and the print density wanted. */
export interface ToneAim {
  readonly negativeDensity: number;
  readonly printDensity: number;
}

export interface SplitAims {
  readonly highlight: ToneAim;
  readonly shadow: ToneAim;
}

export type SplitExposure =
  | {
      readonly status: 'ok';
      /** log10 exposures at the paper without the negative. */
      readonly softLogExposure: number;
      readonly hardLogExposure: number;
      /** log10 of hard over soft. */
      readonly logRatio: number;
    }
  | {
      readonly status: 'not-reachable';
      /** The negative needs softer light than soft alone, or harder than hard alone. */
      readonly reason: 'softer-than-soft' | 'harder-than-hard';
      /** Shadow density under the nearest light that is possible, the highlight as wanted. */
      readonly nearestShadowDensity: number;
    };

/** Ratios beyond this are one light alone. */
const ONE_LIGHT = 8;

/**
 * Solves for the two exposures.
 *
 * @param paper - a fitted paper
 * @param aims - highlight (denser on the negative, lighter on the print) and shadow
 * @returns log exposures of both lights, or why they cannot be had with what is nearest
 * @throws InvalidArgumentError if the highlight is not denser on the negative or not lighter on the
 *   print than the shadow
 * @throws OutOfDomainError if the paper does not reach a print density
 */
export function splitExposure(paper: VariableContrastPaper, aims: SplitAims): SplitExposure {
  const { highlight, shadow } = aims;
  if (!(highlight.negativeDensity > shadow.negativeDensity)) {
    throw new InvalidArgumentError(
      'splitExposure',
      'highlight.negativeDensity',
      highlight.negativeDensity,
      `above the shadow's ${shadow.negativeDensity}`,
    );
  }
  if (!(highlight.printDensity < shadow.printDensity)) {
    throw new InvalidArgumentError(
      'splitExposure',
      'highlight.printDensity',
      highlight.printDensity,
      `below the shadow's ${shadow.printDensity}`,
    );
  }
  const softAt = (logRatio: number): number =>
    highlight.negativeDensity + softLogExposureFor(paper, logRatio, highlight.printDensity);
  softLogExposureFor(paper, 0, shadow.printDensity); // its check of the paper's reach
  // The ratio counts in layer exposures: speeds of the two lights differ by the units of exposure.
  const even = (paper.softLogSpeeds[0] ?? 0) - paper.hardLogSpeed;
  const shadowAt = (logRatio: number): number => {
    const soft = softAt(logRatio) - shadow.negativeDensity;
    return densityOfMixedExposure(paper, {
      softLogExposure: soft,
      hardLogExposure: soft + logRatio,
    });
  };
  let low = even - ONE_LIGHT;
  let high = even + ONE_LIGHT;
  const softest = shadowAt(low);
  const hardest = shadowAt(high);
  if (shadow.printDensity < softest) {
    return {
      status: 'not-reachable',
      reason: 'softer-than-soft',
      nearestShadowDensity: softest,
    };
  }
  if (shadow.printDensity > hardest) {
    return {
      status: 'not-reachable',
      reason: 'harder-than-hard',
      nearestShadowDensity: hardest,
    };
  }
  for (let i = 0; i < 60; i++) {
    const middle = 0.5 * (low + high);
    if (shadowAt(middle) < shadow.printDensity) low = middle;
    else high = middle;
  }
  const logRatio = 0.5 * (low + high);
  const softLogExposure = softAt(logRatio);
  return { status: 'ok', softLogExposure, hardLogExposure: softLogExposure + logRatio, logRatio };
}
