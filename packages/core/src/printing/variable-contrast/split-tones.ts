/**
 * Soft and hard exposures for two or more print densities, with what each light does to each tone.
 *
 *   two tones     solved exactly
 *   more          minimise Σ_i (D(x_h - n_i, x_s - n_i) - D_i)², residuals told
 *   per stop      0.30103 ∂D/∂x_s, 0.30103 ∂D/∂x_h
 *
 * Sources: see `variable-contrast-paper.ts`. Deviations: where one light alone comes closest, the other
 * is given no time.
 */
import { InvalidArgumentError } from '../../errors.ts';
import { leastSquares } from '../../fitting/index.ts';
import {
  densityOfMixedExposure,
  exposureScaleOfMixture,
  lightnessFromDensity,
  softLogExposureFor,
  toneOfMixture,
  type VariableContrastPaper,
} from '../../paper/index.ts';
import { LOG_STOP } from '../../readings/index.ts';
import type { ToneAim } from './split-exposure.ts';

/** Log exposures of both lights without a negative; -Infinity where a light is off. */
export interface LightExposures {
  readonly softLogExposure: number;
  readonly hardLogExposure: number;
}

/** What a split makes of one density of the negative. */
export interface SplitTone {
  readonly negativeDensity: number;
  readonly printDensity: number;
  /** CIE L*. */
  readonly lightness: number;
  /** Change of print density for one stop more of each light. */
  readonly perStop: { readonly soft: number; readonly hard: number };
  /** Part of the tone's slope that soft light gives, 0 to 1. */
  readonly softShare: number;
}

/**
 * Tones under given exposures.
 *
 * @param paper - a fitted paper
 * @param lights - exposures of both lights
 * @param negativeDensities - gross, as the paper sees them
 * @throws InvalidArgumentError if a density is not finite, or a log exposure is no number
 */
export function splitTones(
  paper: VariableContrastPaper,
  lights: LightExposures,
  negativeDensities: readonly number[],
): SplitTone[] {
  return negativeDensities.map((negativeDensity) => {
    if (!Number.isFinite(negativeDensity)) {
      throw new InvalidArgumentError('splitTones', 'negativeDensity', negativeDensity, 'finite');
    }
    const hardLogExposure = lights.hardLogExposure - negativeDensity;
    const softLogExposure = lights.softLogExposure - negativeDensity;
    const printDensity = densityOfMixedExposure(paper, { hardLogExposure, softLogExposure });
    const tone = toneOfMixture(paper, hardLogExposure, softLogExposure);
    const whole = tone.gradientBySoft + tone.gradientByHard;
    return {
      negativeDensity,
      printDensity,
      lightness: lightnessFromDensity(printDensity),
      perStop: {
        soft: LOG_STOP * tone.gradientBySoft,
        hard: LOG_STOP * tone.gradientByHard,
      },
      softShare: whole > 0 ? tone.gradientBySoft / whole : 0,
    };
  });
}

/** The exposures nearest to several aims. */
export interface NearestSplit extends LightExposures {
  /** `soft` or `hard` where that light alone comes closest. */
  readonly lights: 'both' | 'soft' | 'hard';
  readonly tones: readonly (SplitTone & {
    readonly wanted: number;
    /** Print density less the one wanted. */
    readonly residual: number;
  })[];
  /** Root mean square of the residuals, print density. */
  readonly rootMeanSquare: number;
  /** Exposure scale of the paper under this mixture. */
  readonly exposureScale: number;
}

/** Ratios beyond this are one light alone. */
const ONE_LIGHT = 8;

/**
 * Exposures that come nearest to several print densities.
 *
 * @param paper - a fitted paper
 * @param aims - two or more, at different densities of the negative
 * @returns the exposures with the residual of every aim
 * @throws InvalidArgumentError if there are fewer than two aims, or all stand at one density
 * @throws OutOfDomainError if the paper does not reach a print density
 */
export function nearestSplit(paper: VariableContrastPaper, aims: readonly ToneAim[]): NearestSplit {
  const densities = aims.map(({ negativeDensity }) => negativeDensity);
  if (!(aims.length >= 2 && Math.max(...densities) > Math.min(...densities))) {
    throw new InvalidArgumentError('nearestSplit', 'aims', aims, 'two or more densities');
  }
  // The ratio counts in layer exposures: speeds of the two lights differ by the units of exposure.
  const even = (paper.softLogSpeeds[0] ?? 0) - paper.hardLogSpeed;
  const candidates = [-1, 0, 1].map((start) => {
    const ratio = even + start;
    const middle = aims.map(
      ({ negativeDensity, printDensity }) =>
        negativeDensity + softLogExposureFor(paper, ratio, printDensity),
    );
    const soft = middle.reduce((a, b) => a + b, 0) / middle.length;
    return searchFrom(paper, aims, [soft, soft + ratio]);
  });
  candidates.push(alone(paper, aims, even - ONE_LIGHT), alone(paper, aims, even + ONE_LIGHT));
  const best = candidates.reduce((a, b) => (b.squares < a.squares - 1e-12 ? b : a));
  const ratio = best.hardLogExposure - best.softLogExposure - even;
  const which = ratio <= -0.5 * ONE_LIGHT ? 'soft' : ratio >= 0.5 * ONE_LIGHT ? 'hard' : 'both';
  const lights: LightExposures = {
    softLogExposure: which === 'hard' ? -Infinity : best.softLogExposure,
    hardLogExposure: which === 'soft' ? -Infinity : best.hardLogExposure,
  };
  const tones = splitTones(paper, lights, densities).map((tone, i) => {
    const wanted = aims[i]?.printDensity ?? 0;
    return { ...tone, wanted, residual: tone.printDensity - wanted };
  });
  const squares = tones.reduce((sum, { residual }) => sum + residual * residual, 0);
  return {
    ...lights,
    lights: which,
    tones,
    rootMeanSquare: Math.sqrt(squares / tones.length),
    exposureScale: exposureScaleOfMixture(paper, even + ratio),
  };
}

interface Candidate extends LightExposures {
  readonly squares: number;
}

function searchFrom(
  paper: VariableContrastPaper,
  aims: readonly ToneAim[],
  start: readonly [number, number],
): Candidate {
  const fit = leastSquares({
    residualCount: aims.length,
    start,
    evaluate(p, residuals, jacobian) {
      aims.forEach(({ negativeDensity, printDensity }, i) => {
        const tone = toneOfMixture(
          paper,
          (p[1] as number) - negativeDensity,
          (p[0] as number) - negativeDensity,
        );
        residuals[i] = paper.minimumDensity + tone.netDensity - printDensity;
        jacobian[2 * i] = tone.gradientBySoft;
        jacobian[2 * i + 1] = tone.gradientByHard;
      });
    },
  });
  const [softLogExposure = 0, hardLogExposure = 0] = fit.parameters;
  return { softLogExposure, hardLogExposure, squares: fit.residualSumOfSquares };
}

/** The best that a fixed ratio can do. */
function alone(
  paper: VariableContrastPaper,
  aims: readonly ToneAim[],
  logRatio: number,
): Candidate {
  const starts = aims.map(
    ({ negativeDensity, printDensity }) =>
      negativeDensity + softLogExposureFor(paper, logRatio, printDensity),
  );
  const fit = leastSquares({
    residualCount: aims.length,
    start: [starts.reduce((a, b) => a + b, 0) / starts.length],
    evaluate(p, residuals, jacobian) {
      aims.forEach(({ negativeDensity, printDensity }, i) => {
        const x = (p[0] as number) - negativeDensity;
        const tone = toneOfMixture(paper, x + logRatio, x);
        residuals[i] = paper.minimumDensity + tone.netDensity - printDensity;
        jacobian[i] = tone.gradientBySoft + tone.gradientByHard;
      });
    },
  });
  const [softLogExposure = 0] = fit.parameters;
  return {
    softLogExposure,
    hardLogExposure: softLogExposure + logRatio,
    squares: fit.residualSumOfSquares,
  };
}
