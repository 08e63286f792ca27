/**
 * How the next roll is to be developed so that its negatives have the range that is wanted.
 *
 *   k = target range / range,   n of N+n = S (1 - 1/k),   S = 7 stops of textural scale
 *   by strips    c(t2) = k c(t1), t1 the time of this negative, c the film's own contrast law
 *   by rule      t2 / t1 = ln(1 - k f) / ln(1 - f), f the part of its limit that the film had reached
 *
 * Sources: [SM1907] the law; `../development` for its fit. Deviations: f is a built-in number, since
 * without strips nothing tells it.
 */
import {
  developmentTimeRatio,
  minutesForFactor,
  type ContrastModel,
} from '../development/index.ts';
import type { Estimate } from '../estimate.ts';
import { warning, type Warning } from '../warning.ts';
import type { ProcessDefaults } from './way-out.ts';

/** What is known of the development of this negative's film. */
export interface KnownDevelopment {
  /** Contrast against time from the film's own strips; null without. */
  readonly model: ContrastModel | null;
  /** How this negative was developed; null where it is not known. */
  readonly minutes: number | null;
  readonly celsius: number;
}

export interface NextRoll {
  /** n of N+n, zones of development more. */
  readonly developmentChange: number;
  /** `strips`: the film's own contrast law. `rule`: a built-in number in its place. */
  readonly basis: 'strips' | 'rule';
  /** Development of this negative, minutes; null where it is not known. */
  readonly fromMinutes: number | null;
  readonly celsius: number;
  /** Development of the next roll; null where the time of this one is not known, or out of reach. */
  readonly minutes: Estimate | null;
  /** The next time over this one; null out of reach. */
  readonly timeFactor: number | null;
  /** The factor at the ends of what the rule's number may be; the upper one null out of reach. */
  readonly plausibleFactor: readonly [number, number | null] | null;
  readonly warnings: readonly Warning[];
}

/** Stops between textured shadow and highlight. */
const TEXTURAL_STOPS = 7;

/**
 * Plans the next development.
 *
 * @param factor - k, contrast wanted over that of this negative
 * @param known - the film's contrast law, and the time of this negative
 * @param defaults - the number of the rule
 */
export function nextRoll(
  factor: number,
  known: KnownDevelopment | undefined,
  { partOfLimit }: ProcessDefaults,
): NextRoll {
  const developmentChange = TEXTURAL_STOPS * (1 - 1 / factor);
  const fromMinutes = known?.minutes ?? null;
  const celsius = known?.celsius ?? 20;
  const shared = { developmentChange, fromMinutes, celsius } as const;
  const model = known?.model ?? null;
  if (model !== null && fromMinutes !== null) {
    const answer = minutesForFactor(model, fromMinutes, factor, celsius);
    const minutes = answer.status === 'ok' ? answer.minutes : null;
    return {
      ...shared,
      basis: 'strips',
      minutes,
      timeFactor: minutes === null ? null : minutes.value / fromMinutes,
      plausibleFactor: null,
      warnings: [...model.warnings, ...answer.warnings],
    };
  }
  const ratio = (part: number): number | null =>
    factor * part < 1 ? developmentTimeRatio(part, developmentChange, TEXTURAL_STOPS) : null;
  const timeFactor = ratio(partOfLimit.value);
  const [least, most] = partOfLimit.range;
  // More contrast takes the longer the nearer the film is to its limit, less the shorter.
  const ends = [ratio(least) ?? Infinity, ratio(most) ?? Infinity];
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  return {
    ...shared,
    basis: 'rule',
    minutes:
      timeFactor === null || fromMinutes === null
        ? null
        : { value: timeFactor * fromMinutes, standardError: null },
    timeFactor,
    plausibleFactor: low === Infinity ? null : [low, high === Infinity ? null : high],
    warnings: [
      warning('value-unverified', {
        what: 'part of its limit to which the film was developed',
        source: partOfLimit.provenance.known,
      }),
    ],
  };
}
