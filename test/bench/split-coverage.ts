/**
 * How often the stated 95 % intervals of split exposures hold the true ones: generated strips of an
 * invented paper, a print wanted of a negative, and the two exposures that the paper truly needs.
 */
import {
  fitVariableContrast,
  splitForPrint,
  type VariableContrastFit,
  type WantedTones,
} from '@wedgebook/core';
import { stripsOfTruth } from './mixture-strips.ts';
import type { MixtureTruth } from './mixture-truths.ts';

/** Densities of the negative: soft, normal and contrasty; with the tones wanted of each. */
const NEGATIVES = [
  { shadow: 0.35, highlight: 1.1 },
  { shadow: 0.35, highlight: 1.3 },
  { shadow: 0.35, highlight: 1.5 },
] as const;
const WANTED = { highlight: 0.16, shadow: 1.75 } as const;

export interface CoverageRow {
  readonly truth: string;
  readonly strips: number;
  /** Share of intervals that hold the true log exposure, both lights together. */
  readonly conditional: number;
  readonly unconditional: number;
  /** Half width of the unconditional interval, stops, median. */
  readonly halfWidthStops: number;
  /** Root mean square of estimated less true, stops. */
  readonly errorStops: number;
  readonly intervals: number;
}

/** Runs the study on one paper. */
export function studyCoverage(
  truth: MixtureTruth,
  strips: 2 | 3,
  runs: number,
  seed: number,
): CoverageRow {
  const draw = stripsOfTruth(truth, strips, seed);
  const exact = NEGATIVES.map((negative) => trueSplit(truth, negative));
  const held = { conditional: 0, unconditional: 0 };
  let [intervals, squares] = [0, 0];
  const widths: number[] = [];
  for (let run = 0; run < runs; run++) {
    const fit = fitVariableContrast(draw().flat());
    NEGATIVES.forEach((negative, i) => {
      const right = exact[i];
      if (right === undefined || right === null) return;
      const chosenAlone: VariableContrastFit = { ...fit, weight: 1, companions: [] };
      for (const [which, one] of [
        ['conditional', chosenAlone],
        ['unconditional', fit],
      ] as const) {
        const split = splitForPrint(one, wantedOf(negative));
        if (split.status !== 'ok') continue;
        for (const light of ['soft', 'hard'] as const) {
          const { value, interval } = split[`${light}Seconds`];
          if (interval === null) continue;
          const [low, high] = interval;
          const trueSeconds = 10 ** right[light];
          if (trueSeconds >= low && trueSeconds <= high) held[which]++;
          if (which !== 'unconditional') continue;
          intervals++;
          widths.push(Math.log2(high / low) / 2);
          squares += Math.log2(value / trueSeconds) ** 2;
        }
      }
    });
  }
  return {
    truth: truth.name,
    strips,
    conditional: held.conditional / intervals,
    unconditional: held.unconditional / intervals,
    halfWidthStops: widths.toSorted((a, b) => a - b)[widths.length >> 1] ?? NaN,
    errorStops: Math.sqrt(squares / intervals),
    intervals,
  };
}

type Negative = (typeof NEGATIVES)[number];

const wantedOf = ({ shadow, highlight }: Negative): WantedTones => ({
  shadow: {
    negativeDensity: { value: shadow, standardError: null },
    printDensity: WANTED.shadow,
  },
  highlight: {
    negativeDensity: { value: highlight, standardError: null },
    printDensity: WANTED.highlight,
  },
});

/** log10 exposures that truly give the two tones, or null where no pair does. */
function trueSplit(
  { density }: MixtureTruth,
  { shadow, highlight }: Negative,
): { readonly soft: number; readonly hard: number } | null {
  // For each hard exposure the soft one that sets the highlight; the shadow then grows with hard.
  const softFor = (hard: number): number =>
    bisected(-6, 6, (soft) => density(hard - highlight, soft - highlight) < WANTED.highlight);
  const most = bisected(-6, 6, (hard) => density(hard - highlight, -Infinity) < WANTED.highlight);
  const shadowAt = (hard: number): number => density(hard - shadow, softFor(hard) - shadow);
  if (shadowAt(-6) > WANTED.shadow || shadowAt(most - 1e-6) < WANTED.shadow) return null;
  const hard = bisected(-6, most - 1e-6, (x) => shadowAt(x) < WANTED.shadow);
  return { soft: softFor(hard), hard };
}

function bisected(low: number, high: number, isBelow: (x: number) => boolean): number {
  for (let i = 0; i < 60; i++) {
    const middle = 0.5 * (low + high);
    if (isBelow(middle)) low = middle;
    else high = middle;
  }
  return 0.5 * (low + high);
}
