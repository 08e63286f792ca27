/**
 * A starting estimate of a split from two single-filter papers alone, without a model of the mixture.
 *
 *   t_s / T_s(D) + t_h / T_h(D) = 1    at each of the two aims D
 *
 * T_s, T_h times in which soft or hard light alone prints the aim. The rule treats what each light does
 * as one part of one exposure, which holds only where both lights meet the same emulsion.
 *
 * Sources: additive exposures (derived). Deviations: against the layer model it asks for 15 to 24 % too
 * much hard light; use the model where both strips can be fitted.
 */
import { InvalidArgumentError } from '../../errors.ts';
import { exposureForTone, paperResponse, type PrintPaper } from '../../paper/index.ts';
import type { SplitAims, ToneAim } from './split-exposure.ts';

export type StartingSplit =
  | { readonly status: 'ok'; readonly softLogExposure: number; readonly hardLogExposure: number }
  | {
      readonly status: 'not-reachable';
      /** One of the times would be below zero, or the strips are the wrong way round. */
      readonly reason: 'softer-than-soft' | 'harder-than-hard' | 'soft-harder-than-hard';
    }
  | { readonly status: 'outside-paper'; readonly which: 'highlight' | 'shadow' };

/**
 * The starting estimate.
 *
 * @param soft - paper under soft light alone, from a strip of its own
 * @param hard - paper under hard light alone, from a strip of its own
 * @param aims - highlight and shadow
 * @returns log exposures without a negative, each in the unit of its own strip
 * @throws InvalidArgumentError if a paper's speed is not known, or the highlight is not denser on the
 *   negative and lighter on the print
 */
export function startingSplit(soft: PrintPaper, hard: PrintPaper, aims: SplitAims): StartingSplit {
  const { highlight, shadow } = aims;
  const inOrder =
    highlight.negativeDensity > shadow.negativeDensity &&
    highlight.printDensity < shadow.printDensity;
  if (!inOrder) {
    throw new InvalidArgumentError('startingSplit', 'aims', aims, 'a highlight and a shadow');
  }
  const exposures: Record<'highlight' | 'shadow', { soft: number; hard: number }> = {
    highlight: { soft: 0, hard: 0 },
    shadow: { soft: 0, hard: 0 },
  };
  for (const which of ['highlight', 'shadow'] as const) {
    const s = exposureAlone(soft, aims[which]);
    const h = exposureAlone(hard, aims[which]);
    if (s === null || h === null) return { status: 'outside-paper', which };
    exposures[which] = { soft: s, hard: h };
  }
  const range = highlight.negativeDensity - shadow.negativeDensity;
  const span = (light: 'soft' | 'hard'): number =>
    range - (exposures.highlight[light] - exposures.shadow[light]);
  if (span('soft') <= span('hard')) {
    return { status: 'not-reachable', reason: 'soft-harder-than-hard' };
  }
  // u = t_s, v = t_h:  u / S1 + v / H1 = 1,  u / S2 + v / H2 = 1, counted from the highlight's own.
  const [s1, h1] = [exposures.highlight.soft, exposures.highlight.hard];
  const a = 10 ** (s1 - exposures.shadow.soft); // u of the highlight, seen from the shadow
  const b = 10 ** (h1 - exposures.shadow.hard);
  const softPart = (1 - b) / (a - b);
  const hardPart = (a - 1) / (a - b);
  if (!(softPart > 0)) return { status: 'not-reachable', reason: 'harder-than-hard' };
  if (!(hardPart > 0)) return { status: 'not-reachable', reason: 'softer-than-soft' };
  return {
    status: 'ok',
    softLogExposure: s1 + Math.log10(softPart),
    hardLogExposure: h1 + Math.log10(hardPart),
  };
}

/** Log exposure of one light alone, without a negative. */
function exposureAlone(
  paper: PrintPaper,
  { negativeDensity, printDensity }: ToneAim,
): number | null {
  const response = paperResponse(paper);
  const { whiteDensity, thresholdLogExposure } = response;
  if (whiteDensity === null || thresholdLogExposure === null) {
    throw new InvalidArgumentError('startingSplit', 'paper', paper.kind, 'one with a speed');
  }
  if (!(printDensity > whiteDensity)) return null;
  const above = exposureForTone(response, printDensity - whiteDensity);
  return above === null ? null : thresholdLogExposure + above + negativeDensity;
}
