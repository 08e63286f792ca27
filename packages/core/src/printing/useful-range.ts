/**
 * How much of the subject the print holds, and what loses the rest.
 *
 *   kept: where one stop of the subject still changes the print by 2 L* or more
 *   lost to the stage whose gradient has fallen most below its greatest along the chain
 *
 * Sources: the product of gradients [JONES1920]. Deviations: 2 L* for a stop is the project's own; no
 * authority fixes it.
 */
import { InvalidArgumentError } from '../errors.ts';
import { LOG_STOP } from '../readings/index.ts';
import { tonePrinter, type SubjectTone, type ToneChain } from './tone-chain.ts';

/** A stage at which tones are lost. */
export type LosingStage = 'camera-flare' | 'film' | 'treatment' | 'enlarger-flare' | 'paper';

/** An end of the subject range. */
export interface RangeEnd {
  readonly tone: SubjectTone;
  /** Where the tones beyond are lost; null where the search ended before they were. */
  readonly lostTo: LosingStage | null;
}

export type UsefulSubjectRange =
  | {
      readonly status: 'ok';
      readonly shadow: RangeEnd;
      readonly highlight: RangeEnd;
      readonly stops: number;
    }
  /** No part of the subject is separated by so much. */
  | { readonly status: 'none' };

export interface SubjectRangeOptions {
  /** Least change of lightness for one stop; 2 unless given. */
  readonly leastLightnessPerStop?: number;
  /** Log luminances between which the range is sought; -3 to 3 unless given. */
  readonly from?: number;
  readonly to?: number;
}

const STEP = 0.02;

/**
 * Useful range of the subject.
 *
 * @param chain - the whole chain
 * @param options - what counts as separated, where to search
 * @returns the longest unbroken stretch that is separated, with what ends it
 * @throws InvalidArgumentError if an option is out of range
 */
export function usefulSubjectRange(
  chain: ToneChain,
  options: SubjectRangeOptions = {},
): UsefulSubjectRange {
  const { leastLightnessPerStop = 2, from = -3, to = 3 } = options;
  if (!(leastLightnessPerStop > 0 && leastLightnessPerStop <= 50)) {
    throw new InvalidArgumentError(
      'usefulSubjectRange',
      'leastLightnessPerStop',
      leastLightnessPerStop,
      'above 0, up to 50',
    );
  }
  if (!(from < to && to - from <= 12)) {
    throw new InvalidArgumentError('usefulSubjectRange', 'from', from, 'below `to`, 12 at most');
  }
  const follow = tonePrinter(chain);
  const least = leastLightnessPerStop / LOG_STOP;
  const tones: SubjectTone[] = [];
  for (let l = from; l <= to + 1e-9; l += STEP) tones.push(follow(l));
  const stretch = longestStretch(tones, least);
  if (stretch === null) return { status: 'none' };
  const [low, high] = stretch;
  // The ends are refined between the grid's last tone within and its first outside.
  const edge = (inside: number, outside: number): number => {
    let [a, b] = [inside, outside];
    for (let i = 0; i < 40; i++) {
      const middle = 0.5 * (a + b);
      if (follow(middle).lightnessGradient >= least) a = middle;
      else b = middle;
    }
    return a;
  };
  const greatest = greatestGradients(tones);
  const endAt = (index: number, side: -1 | 1): RangeEnd => {
    const inside = from + index * STEP;
    const last = side < 0 ? index === 0 : index === tones.length - 1;
    const tone = follow(last ? inside : edge(inside, inside + side * STEP));
    return { tone, lostTo: last ? null : losingStage(tone, greatest) };
  };
  const shadow = endAt(low, -1);
  const highlight = endAt(high, 1);
  return {
    status: 'ok',
    shadow,
    highlight,
    stops: (highlight.tone.logLuminance - shadow.tone.logLuminance) / LOG_STOP,
  };
}

/** First and last index of the longest unbroken run of tones that are separated. */
function longestStretch(
  tones: readonly SubjectTone[],
  least: number,
): readonly [number, number] | null {
  let best: readonly [number, number] | null = null;
  let start: number | null = null;
  for (const [i, tone] of tones.entries()) {
    if (tone.lightnessGradient < least) {
      start = null;
      continue;
    }
    start ??= i;
    if (best === null || i - start > best[1] - best[0]) best = [start, i];
  }
  return best;
}

type Stages = Readonly<Record<LosingStage, number>>;

function stagesOf({ gradients: g }: SubjectTone): Stages {
  return {
    'camera-flare': g.cameraFlare,
    film: g.film,
    treatment: g.treatment * g.light,
    'enlarger-flare': g.enlargerFlare,
    paper: g.paper,
  };
}

function greatestGradients(tones: readonly SubjectTone[]): Stages {
  const most: Record<LosingStage, number> = {
    'camera-flare': 0,
    film: 0,
    treatment: 0,
    'enlarger-flare': 0,
    paper: 0,
  };
  for (const tone of tones) {
    const stages = stagesOf(tone);
    for (const name of Object.keys(most) as LosingStage[]) {
      most[name] = Math.max(most[name], stages[name]);
    }
  }
  return most;
}

function losingStage(tone: SubjectTone, greatest: Stages): LosingStage {
  const stages = stagesOf(tone);
  const names = Object.keys(stages) as LosingStage[];
  return names.reduce((a, b) => (stages[b] / greatest[b] < stages[a] / greatest[a] ? b : a));
}
