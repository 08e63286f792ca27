/**
 * The ways out for a negative that does not fit, as plain data.
 *
 * Sources: see `ways-out.ts`. Deviations: none.
 */
import type { Provenance } from '../../provenance.ts';
import type { PrintPaper } from '../../paper/index.ts';
import type { RangeReport } from '../predict-treatment.ts';

/** Every way, from the one that touches the negative least to the one that gives it up. */
export const WAY_IDS = [
  'print-to-fit',
  'split-exposure',
  'selenium',
  'chromium',
  'chromium-then-selenium',
  'reduce-proportional',
  'reduce-superproportional',
  'reduce-surface',
  'next-roll',
] as const;

export type WayId = (typeof WAY_IDS)[number];

/** A built-in number of a process with the range it may well have. */
export interface ProcessNumber {
  readonly value: number;
  readonly range: readonly [number, number];
  readonly unit: string;
  readonly provenance: Provenance;
}

/** Built-in numbers of the other processes; the values live in @wedgebook/data. */
export interface ProcessDefaults {
  /** Gain of the silver by one bleach and full redevelopment. */
  readonly chromiumGain: ProcessNumber;
  /** m of the superproportional reducer. */
  readonly superproportionalExponent: ProcessNumber;
  /** Net density that a reducer must leave in the shadow. */
  readonly leastShadow: ProcessNumber;
}

/** Why a way does not carry the negative where it should go. */
export type WayLimit =
  /** The range stays shorter than the target asks for. */
  | 'falls-short'
  /** The range becomes longer than the target asks for. */
  | 'overshoots'
  /** The density range is not changed at all. */
  | 'range-unchanged'
  /** Below what the softest or hardest exposure of the paper serves. */
  | 'beyond-paper'
  /** Nothing can be taken without losing the shadow. */
  | 'shadow-lost';

export interface WayOut {
  readonly id: WayId;
  /** What becomes of the negative (of the next one, for `next-roll`). */
  readonly negative: RangeReport;
  /** Printing range at the ends of what is known of the process; null where it is not in doubt. */
  readonly plausibleRange: readonly [number, number] | null;
  /** Gain of the silver at the highlight; 1 where the negative is left alone. */
  readonly gain: number;
  /** Minutes in the selenium bath, where there is one. */
  readonly minutes: number | null;
  /** Net density taken off everywhere by a surface reducer. */
  readonly taken: number | null;
  /** Zones of development more, n of N+n, that would have given this range. */
  readonly developmentChange: number | null;
  /** The paper that the figures below are reckoned on, with its whole grade. */
  readonly paper: PrintPaper;
  readonly paperGrade: number | null;
  /** Printing range less the exposure scale of that paper. */
  readonly misfit: number;
  /** Print density gained for a small step of the untreated negative's density, at two densities. */
  readonly shadowSeparation: number;
  readonly highlightSeparation: number;
  /** Longer exposure for the same highlight tone, in stops, papers of one speed. */
  readonly exposureStops: number;
  /** Fluctuation of density against the untreated negative's: in the negative, and in the print. */
  readonly graininess: { readonly negative: number; readonly print: number };
  readonly limit: WayLimit | null;
  /** Printing range less the range that was aimed at. */
  readonly fromTarget: number;
}
