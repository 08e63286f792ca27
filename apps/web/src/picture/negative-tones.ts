/**
 * The negative that a picture stands for: a net density for every tone.
 *
 * A file tells nothing of true exposures or densities, so that its tones are laid between two known
 * ends: its dark and its light end (2 % of the pixels lie beyond either) take the shadow and the
 * highlight of the negative. A positive goes through the film's curve in between, where there is
 * one; a scan of a negative keeps its own densities, stretched alike.
 */
import { densityAt, logExposureAt, type CharacteristicCurve } from '@wedgebook/core';
import { logOfTone, TONE_LEVELS, toneAtPart, type TonePicture } from './tone-picture.ts';

/** Part of the pixels beyond the shadow, and beyond the highlight. */
const BEYOND = 0.02;

/** Net densities of the negative's ends. */
export interface NetEnds {
  readonly shadow: number;
  readonly highlight: number;
}

export interface NegativeTonesInput {
  readonly picture: Pick<TonePicture, 'low' | 'high' | 'counts'>;
  /** True where the picture shows the scene light as light. */
  readonly positive: boolean;
  readonly ends: NetEnds;
  /** Curve of the film with its base + fog, or null for a straight line. */
  readonly film: { readonly curve: CharacteristicCurve; readonly baseFog: number } | null;
}

/** Net density of the negative for each tone; never below 0. */
export function negativeTones({ picture, positive, ends, film }: NegativeTonesInput): Float64Array {
  const dark = logOfTone(picture, toneAtPart(picture.counts, BEYOND));
  const light = logOfTone(picture, toneAtPart(picture.counts, 1 - BEYOND));
  const [shadowLog, highlightLog] = positive ? [dark, light] : [light, dark];
  const spread = highlightLog - shadowLog || 1;
  const densityOf = positive && film !== null ? throughFilm(film, ends) : straight(ends);
  return Float64Array.from({ length: TONE_LEVELS }, (_, tone) =>
    Math.max(0, densityOf((logOfTone(picture, tone) - shadowLog) / spread)),
  );
}

/** Part 0 is the shadow, part 1 the highlight. */
function straight({ shadow, highlight }: NetEnds): (part: number) => number {
  return (part) => shadow + part * (highlight - shadow);
}

function throughFilm(
  { curve, baseFog }: NonNullable<NegativeTonesInput['film']>,
  ends: NetEnds,
): (part: number) => number {
  const from = logExposureAt(curve, baseFog + ends.shadow);
  const to = logExposureAt(curve, baseFog + ends.highlight);
  // A curve that does not reach an end cannot place it.
  if (from === null || to === null || !(to > from)) return straight(ends);
  return (part) => densityAt(curve, from + part * (to - from)) - baseFog;
}
