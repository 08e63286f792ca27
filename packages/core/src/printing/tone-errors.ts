/**
 * Standard errors of the densities of a tone chain: of the film's curve and of the paper's.
 *
 *   negative   s of D(x_a + δ), x_a where the film's curve reaches the density that was read
 *   print      s² = (G_treatment G_light G_enlarger G_paper s_negative)² + s_paper²
 *   light      s² += (G_paper (m S - m_h S_h) s_Q)²   S silver, m part of the light that makes the image,
 *              h the density of the negative whose print was timed
 *   paper      s of D(x_a + δ), x_a where the paper's reaches the print density that was found right
 *
 * A chain hangs on two tones: the subject is placed by a density read on the negative, and the print is
 * timed so that one print density is as wanted. Both are held: a curve's error counts as far as it
 * bends the tones away from them, and not where it moves all of them.
 *
 * Sources: [Seber2003] section 5.1, the delta method; [BA2002] section 4.3.2 for rival forms.
 * Deviations: the errors of the bath and of flare are not counted here.
 */
import {
  constant,
  derivedDensity,
  derivedLogExposure,
  estimateOn,
  shifted,
  type CharacteristicCurve,
} from '../curve/index.ts';
import { combinedError } from '../estimate.ts';
import { densityAfter } from '../treatment/index.ts';
import { unconditionalError } from '../fitting/index.ts';
import {
  exposureForTone,
  heldToneError,
  lightnessGradient,
  mixtureDerivatives,
  paperResponse,
  softLogExposureFor,
  toneOfMixture,
  type LayerCompanion,
  type PaperMap,
  type VariableContrastFit,
} from '../paper/index.ts';
import type { SubjectTone, ToneChain } from './tone-chain.ts';

/** What the paper of a chain was measured by; a paper that nobody measured has no error. */
export type MeasuredPaper =
  | { readonly kind: 'setting'; readonly map: PaperMap; readonly position: number }
  | { readonly kind: 'mixture'; readonly fit: VariableContrastFit; readonly logRatio: number };

/** The two densities that are held. */
export interface HeldTones {
  /** Gross density of the negative by which the subject was placed. */
  readonly negativeDensity: number;
  /** Print density by which the print was timed. */
  readonly printDensity: number;
  /** Gross density of the negative that prints it; needed where the Callier factor has an error. */
  readonly timedNegativeDensity?: number;
}

/** Standard errors; null where no curve has any. */
export interface ToneErrors {
  readonly negativeDensity: number | null;
  readonly printDensity: number | null;
  /** CIE L*. */
  readonly lightness: number | null;
}

/**
 * Errors made ready for many tones of one chain.
 *
 * @param chain - the whole chain
 * @param paper - what its paper was measured by, or null
 * @param held - the densities that are held
 * @param callierFactorError - standard error of Q where it was measured, else null
 * @returns the function from a tone of the chain to its errors
 */
export function toneErrorsOf(
  chain: ToneChain,
  paper: MeasuredPaper | null,
  held: HeldTones,
  callierFactorError: number | null = null,
): (tone: SubjectTone) => ToneErrors {
  const paperErrorAt = paperErrorOf(chain, paper, held.printDensity);
  const lightErrorAt = lightErrorOf(chain, held.timedNegativeDensity, callierFactorError);
  return (tone) => {
    const negativeDensity = heldDensityError(chain.film, tone.logExposure, held.negativeDensity);
    const { treatment, light, enlargerFlare, paper: onPaper } = tone.gradients;
    const fromFilm =
      negativeDensity === null
        ? null
        : Math.abs(treatment * light * enlargerFlare * onPaper) * negativeDensity;
    const printDensity = combinedError(
      fromFilm,
      lightErrorAt(tone),
      paperErrorAt(tone.paperLogExposure),
    );
    return {
      negativeDensity,
      printDensity,
      lightness:
        printDensity === null
          ? null
          : Math.abs(lightnessGradient(tone.printDensity)) * printDensity,
    };
  };
}

/** Error of a density that is counted from where the curve reaches another, which is known. */
function heldDensityError(
  film: CharacteristicCurve,
  logExposure: number,
  heldDensity: number,
): number | null {
  const anchor = derivedLogExposure(film, constant(film, heldDensity));
  if (anchor === null) return null;
  const distance = logExposure - anchor.value;
  const estimate = estimateOn(film, (curve) => {
    const from = derivedLogExposure(curve, constant(curve, heldDensity));
    return from && derivedDensity(curve, shifted(from, distance));
  });
  return estimate?.standardError ?? null;
}

/** Error of the print density by that of the Callier factor, which moves all tones but the timed one. */
function lightErrorOf(
  { printing }: ToneChain,
  timedNegativeDensity: number | undefined,
  error: number | null,
): (tone: SubjectTone) => number | null {
  if (error === null || timedNegativeDensity === undefined) return () => null;
  const { baseFog, effect, enlargerFlare, callierFactor } = printing;
  /** -d log exposure / d Q at a density of the negative. */
  const byFactor = (negativeDensity: number): number => {
    const u = negativeDensity - baseFog;
    const seen = (factor: number): number =>
      effect === null ? factor * u : densityAfter(u, effect, factor);
    const image = 10 ** -seen(callierFactor);
    return (image / (image + enlargerFlare)) * (seen(1) - seen(0));
  };
  const held = byFactor(timedNegativeDensity);
  return (tone) => Math.abs(tone.gradients.paper * (byFactor(tone.negativeDensity) - held)) * error;
}

/** Error of the print density by log exposure above the threshold. */
function paperErrorOf(
  { printing }: ToneChain,
  measured: MeasuredPaper | null,
  heldDensity: number,
): (above: number) => number | null {
  if (measured === null) return () => null;
  const response = paperResponse(printing.paper);
  const net = heldDensity - printing.paperWhiteDensity;
  const held = net > 0 ? exposureForTone(response, net) : null;
  const threshold = response.thresholdLogExposure;
  if (held === null || threshold === null) return () => null;
  if (measured.kind === 'setting') {
    const { map, position } = measured;
    return (above) => heldToneError(map, position, threshold + above, threshold + held);
  }
  const { fit, logRatio } = measured;
  return (above) => mixtureError(fit, logRatio, heldDensity, above - held);
}

/** As for strips at settings, for layers under soft and hard light in one ratio. */
function mixtureError(
  fit: VariableContrastFit,
  logRatio: number,
  heldDensity: number,
  distance: number,
): number | null {
  if (fit.paper === null) return null;
  const derived = ({ paper, form, parameters, covariance, weight }: LayerCompanion) => {
    const top = paper.minimumDensity + paper.netMaximumDensity;
    if (!(heldDensity > paper.minimumDensity && heldDensity < top)) return null;
    const anchor = softLogExposureFor(paper, logRatio, heldDensity);
    const at = (soft: number) => {
      const exposure = { softLogExposure: soft, hardLogExposure: soft + logRatio };
      const byParameters = new Float64Array(parameters.length);
      const value = mixtureDerivatives(form, parameters, exposure, byParameters, 0);
      const tone = toneOfMixture(paper, exposure.hardLogExposure, soft);
      return { value, byParameters, gradient: tone.gradientBySoft + tone.gradientByHard };
    };
    const [there, here] = [at(anchor + distance), at(anchor)];
    if (!(here.gradient > 0)) return null;
    const factor = there.gradient / here.gradient;
    const derivatives = there.byParameters.map((d, j) => d - factor * (here.byParameters[j] ?? 0));
    return { value: there.value, derivatives, covariance, weight };
  };
  const { paper, form, covariance, weight } = fit;
  const parameters = fit.parameters.map(({ value }) => value);
  const own = derived({ paper, form, parameters, covariance, weight });
  return own === null ? null : unconditionalError(own, fit.companions.map(derived));
}
