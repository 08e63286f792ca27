/**
 * The ways out for a negative that does not fit, as plain data.
 *
 * Sources: see `ways-out.ts`. Deviations: none.
 */
import type { PrintPaper, VariableContrastPaper } from '../paper/index.ts';
import type { Provenance } from '../provenance.ts';
import type { RangeReport } from '../treatment/index.ts';
import type { Warning } from '../warning.ts';
import type { NextRoll } from './next-roll.ts';

/** Every way, from the one that touches the negative least to the one that gives it up. */
export const WAY_IDS = [
  'print-to-fit',
  'split-exposure',
  'selenium-and-paper',
  'selenium',
  'chromium-partial',
  'chromium',
  'chromium-twice',
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
  /** Part of the highlight that redevelopment brings back where it is stopped early. */
  readonly redevelopedPart: ProcessNumber;
  /** m of the superproportional reducer. */
  readonly superproportionalExponent: ProcessNumber;
  /** Net density that a reducer must leave in the shadow. */
  readonly leastShadow: ProcessNumber;
  /** Contrast of normal development as a part of what the film tends to. */
  readonly partOfLimit: ProcessNumber;
}

/** A variable-contrast paper under its two lights. */
export interface SplitLights {
  readonly paper: VariableContrastPaper;
  /** The user's own strips, or the built-in layers. */
  readonly origin: 'own' | 'built-in';
  /**
   * Times more exposure through each filter than without any; null for strips of the user's own,
   * whose exposures count in seconds of each filter.
   */
  readonly softFactor: number | null;
  readonly hardFactor: number | null;
}

/** How the light of a split exposure is shared. */
export interface LightShare {
  readonly origin: SplitLights['origin'];
  /** log10 of hard over soft exposure, as the paper's layers count them. */
  readonly logRatio: number;
  /** Part of the time that goes through the soft filter. */
  readonly softTimeShare: number;
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
  | 'shadow-lost'
  /** The film tends to less contrast than is asked of it. */
  | 'beyond-film';

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
  /** Part of the highlight's silver that redevelopment brings back; null where nothing is bleached. */
  readonly redevelopedPart: number | null;
  /** How the next roll is to be developed; null for the ways that treat this one. */
  readonly nextRoll: NextRoll | null;
  /** The paper that the figures below are reckoned on, with its whole grade. */
  readonly paper: PrintPaper;
  /** The lights of a split exposure; null for the others. */
  readonly split: LightShare | null;
  readonly paperGrade: number | null;
  /** Printing range less the exposure scale of that paper. */
  readonly misfit: number;
  /** Print density gained for a small step of the untreated negative's density, at two densities. */
  readonly shadowSeparation: number;
  readonly highlightSeparation: number;
  /**
   * Longer exposure for the same highlight tone, in stops, papers of one speed; null where nothing
   * tells the light without a filter.
   */
  readonly exposureStops: number | null;
  /** Fluctuation of density against the untreated negative's: in the negative, and in the print. */
  readonly graininess: { readonly negative: number; readonly print: number };
  readonly limit: WayLimit | null;
  /** Printing range less the range that was aimed at. */
  readonly fromTarget: number;
  readonly warnings: readonly Warning[];
}
