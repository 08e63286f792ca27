/**
 * Soft and hard seconds for a print, with intervals: the split exposure of a fitted variable-contrast
 * paper brought to the timer.
 *
 *   t_s = f 10^(x_s + c_s),  t_h = f 10^(x_h + c_h)    c log10 seconds of each light's unit, f factor
 *
 * Sources: see `variable-contrast-paper.ts`, `split-errors.ts`. Deviations: none.
 */
import { OutOfDomainError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';
import {
  exposureScaleOfMixture,
  softLogExposureFor,
  type VariableContrastFit,
  type VariableContrastPaper,
} from '../paper/index.ts';
import { LOG_STOP } from '../readings/index.ts';
import { bounded, secondsFromLog, type Bounded } from './interval-of.ts';
import { refusedTones, type ToneRefusal, type WantedTones } from './match-tones.ts';
import { splitErrors } from './variable-contrast/split-errors.ts';
import { splitExposure } from './variable-contrast/split-exposure.ts';
import {
  splitTones,
  type LightExposures,
  type SplitTone,
} from './variable-contrast/split-tones.ts';

export type SplitForPrint =
  | {
      readonly status: 'ok';
      readonly lights: LightExposures;
      readonly softSeconds: Bounded;
      readonly hardSeconds: Bounded;
      /** Stops of hard over soft seconds. */
      readonly hardOverSoftStops: Bounded;
      /** Exposure scale that the two lights together give the paper. */
      readonly exposureScale: number;
      readonly highlight: SplitTone;
      readonly shadow: SplitTone;
    }
  | {
      readonly status: 'not-reachable';
      readonly reason: 'softer-than-soft' | 'harder-than-hard';
      /** Print density of the shadow under the nearest light, the highlight as wanted. */
      readonly nearestShadowDensity: number;
    }
  | { readonly status: 'not-fitted' }
  | ToneRefusal;

export interface SplitForPrintOptions {
  /**
   * log10 seconds for a log exposure of 0 of each light in the unit of the strips; 0 where that is
   * seconds.
   */
  readonly logSecondsOfUnit?: { readonly soft: number; readonly hard: number };
  /** Factor on all times: another size, another aperture, dry-down; 1 unless given. */
  readonly timeFactor?: number;
}

/** log10 ratio of the lights at which one is as good as alone. */
const ONE_LIGHT = 20;
/** Density kept from both ends of the paper. */
const FROM_THE_ENDS = 0.005;

/**
 * Split exposure of a print.
 *
 * @param fit - the paper, fitted to strips of soft and hard light
 * @param wanted - shadow and highlight
 * @param options - what a unit of exposure is in seconds
 * @returns seconds of both lights, or why they cannot be had and what is nearest
 * @throws OutOfDomainError if the time factor is not above zero
 */
export function splitForPrint(
  fit: VariableContrastFit,
  wanted: WantedTones,
  options: SplitForPrintOptions = {},
): SplitForPrint {
  const { logSecondsOfUnit: unit = { soft: 0, hard: 0 }, timeFactor = 1 } = options;
  if (!(timeFactor > 0 && timeFactor < Infinity)) {
    throw new OutOfDomainError('splitForPrint', 'timeFactor', timeFactor, [0, Infinity]);
  }
  const { paper } = fit;
  if (paper === null) return { status: 'not-fitted' };
  const refusal = refusedTones(wanted);
  if (refusal !== null) return refusal;
  const { shadow, highlight } = wanted;
  const low = paper.minimumDensity + FROM_THE_ENDS;
  const high = paper.minimumDensity + paper.netMaximumDensity - FROM_THE_ENDS;
  for (const which of ['highlight', 'shadow'] as const) {
    const { printDensity } = wanted[which];
    if (!(printDensity >= low && printDensity <= high)) {
      return { status: 'refused', reason: `${which}-outside-paper`, nearest: [low, high] };
    }
  }
  const spots = { highlight: highlight.negativeDensity, shadow: shadow.negativeDensity };
  const split = splitExposure(paper, {
    highlight: { negativeDensity: spots.highlight.value, printDensity: highlight.printDensity },
    shadow: { negativeDensity: spots.shadow.value, printDensity: shadow.printDensity },
  });
  if (split.status !== 'ok') return split;
  const shared = { highlight: highlight.sharedError ?? null, shadow: shadow.sharedError ?? null };
  const errors = splitErrors(fit, split, spots, shared);
  const seconds = (value: number, standardError: number | null): Bounded =>
    secondsFromLog({ value: value + Math.log10(timeFactor), standardError });
  const ratio: Estimate = {
    value: (split.logRatio + unit.hard - unit.soft) / LOG_STOP,
    standardError: errors.ratio === null ? null : errors.ratio / LOG_STOP,
  };
  const [first, second] = splitTones(paper, split, [spots.highlight.value, spots.shadow.value]);
  if (first === undefined || second === undefined) return { status: 'not-fitted' };
  return {
    status: 'ok',
    lights: { softLogExposure: split.softLogExposure, hardLogExposure: split.hardLogExposure },
    softSeconds: seconds(split.softLogExposure + unit.soft, errors.soft),
    hardSeconds: seconds(split.hardLogExposure + unit.hard, errors.hard),
    hardOverSoftStops: bounded(ratio),
    exposureScale: exposureScaleOfMixture(paper, split.logRatio),
    highlight: first,
    shadow: second,
  };
}

/**
 * log10 seconds for a log exposure of 0 of one light, from a print by that light alone.
 *
 * @param paper - the fitted layers
 * @param light - which one
 * @param print - seconds that printed a density of the negative to a print density
 * @returns log10 seconds of the light's unit
 * @throws OutOfDomainError if the paper does not reach the density, or the time is not above zero
 */
export function logSecondsOfLight(
  paper: VariableContrastPaper,
  light: 'soft' | 'hard',
  print: {
    readonly seconds: number;
    readonly negativeDensity: number;
    readonly printDensity: number;
  },
): number {
  const { seconds, negativeDensity, printDensity } = print;
  if (!(seconds > 0 && seconds < Infinity)) {
    throw new OutOfDomainError('logSecondsOfLight', 'seconds', seconds, [0, Infinity]);
  }
  const ratio = light === 'soft' ? -ONE_LIGHT : ONE_LIGHT;
  const soft = softLogExposureFor(paper, ratio, printDensity);
  const x = light === 'soft' ? soft : soft + ratio;
  return Math.log10(seconds) - (x + negativeDensity);
}
