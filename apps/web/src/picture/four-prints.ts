/**
 * One picture printed four ways: untreated and treated, on the same paper and each on the paper that
 * fills its own range. Every print is exposed so that the highlight just darkens the paper (net
 * 0.04), and by the same stops more or less; the stages are core's (see `negativePrinter`).
 */
import {
  generatedPaper,
  LOG_STOP,
  negativePrinter,
  printDensityOf,
  printLogExposureFor,
  printTone,
  THRESHOLD_NET_DENSITY,
  type NegativePrinting,
  type PrintPaper,
  type TreatmentEffect,
} from '@wedgebook/core';
import type { NetEnds } from './negative-tones.ts';

export const PRINT_IDS = [
  'untreated-same',
  'treated-same',
  'untreated-matched',
  'treated-matched',
] as const;
export type PrintId = (typeof PRINT_IDS)[number];

export interface Print {
  readonly id: PrintId;
  /** Print density above paper white, by tone. */
  readonly netDensities: Float32Array;
  readonly exposureScale: number;
  /** Greatest density of the paper above its white. */
  readonly netMaximum: number;
  /** Range of the negative as the paper sees it, less the scale of the paper. */
  readonly surplus: number;
  /** Exposure against the untreated print on the same paper, stops; null on other papers. */
  readonly exposureChange: number | null;
}

export interface FourPrintsInput {
  /** Net densities of the negative, by tone; see `negativeTones`. */
  readonly negative: Float64Array;
  readonly ends: NetEnds;
  /** A bath of no time, and the bath. */
  readonly untreated: TreatmentEffect;
  readonly treated: TreatmentEffect;
  readonly callierFactor: number;
  /** Stray light at the easel over the light through clear film; 0 for none. */
  readonly enlargerFlare: number;
  readonly paper: PrintPaper;
  /** More (+) or less exposure, stops. */
  readonly stops: number;
}

/** Tones between which a print is reckoned by straight lines: finer than a screen's greys. */
const NODES = 512;
/** Papers exist between these scales, log10; a range beyond is printed on the nearest. */
const SCALES = [0.3, 3] as const;

export function fourPrints(input: FourPrintsInput): readonly Print[] {
  const { ends, untreated, treated, callierFactor, enlargerFlare, paper } = input;
  const own = paper.kind === 'generated' ? paper.netMaximum : netMaximumOf(paper);
  const printing = (effect: TreatmentEffect, on: PrintPaper): NegativePrinting => ({
    // Net densities throughout: of the negative above base + fog, of the print above white.
    baseFog: 0,
    paperWhiteDensity: 0,
    effect,
    callierFactor,
    enlargerFlare,
    paper: on,
    printLogExposure: 0,
  });
  const rangeOf = (effect: TreatmentEffect): number => {
    const tone = negativePrinter(printing(effect, paper));
    return tone(ends.highlight).printingDensity - tone(ends.shadow).printingDensity;
  };
  const make = (id: PrintId, effect: TreatmentEffect, on: PrintPaper): Print & Exposed => {
    const plain = printing(effect, on);
    const aim = { negativeDensity: ends.highlight, printDensity: THRESHOLD_NET_DENSITY };
    const logExposure = printLogExposureFor(plain, aim) ?? 0;
    const exposed = { ...plain, printLogExposure: logExposure + input.stops * LOG_STOP };
    return {
      id,
      netDensities: printed(input.negative, exposed),
      exposureScale: on.exposureScale,
      netMaximum: own,
      surplus: rangeOf(effect) - on.exposureScale,
      exposureChange: null,
      logExposure,
    };
  };
  const matched = (effect: TreatmentEffect): PrintPaper =>
    generatedPaper(Math.min(SCALES[1], Math.max(SCALES[0], rangeOf(effect))), own);
  const first = make('untreated-same', untreated, paper);
  const second = make('treated-same', treated, paper);
  return [
    { ...first, exposureChange: 0 },
    { ...second, exposureChange: (second.logExposure - first.logExposure) / LOG_STOP },
    make('untreated-matched', untreated, matched(untreated)),
    make('treated-matched', treated, matched(treated)),
  ];
}

interface Exposed {
  /** Log exposure that just darkens the paper under the highlight. */
  readonly logExposure: number;
}

function printed(negative: Float64Array, printing: NegativePrinting): Float32Array {
  const densityOf = printDensityOf(printing);
  const last = negative.length - 1;
  const node = new Float64Array(NODES + 1);
  for (let k = 0; k <= NODES; k++) {
    node[k] = Math.max(0, densityOf(negative[Math.round((k * last) / NODES)] as number));
  }
  const densities = new Float32Array(negative.length);
  for (let tone = 0; tone <= last; tone++) {
    const place = (tone * NODES) / last;
    const k = Math.min(NODES - 1, Math.floor(place));
    const from = node[k] as number;
    densities[tone] = from + (place - k) * ((node[k + 1] as number) - from);
  }
  return densities;
}

/** Net density of a measured paper a decade beyond its scale: its black. */
function netMaximumOf(paper: PrintPaper): number {
  return Math.min(4, Math.max(0.1, printTone(paper, paper.exposureScale + 1).netDensity));
}
