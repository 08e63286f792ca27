/** The ways out for the negative that is considered, as core reckons them. */
import {
  waysOut,
  type CharacteristicCurve,
  type KnownDevelopment,
  type SplitLights,
  type WayOut,
} from '@wedgebook/core';
import { builtInSplit, processDefaults } from '@wedgebook/data';
import type { Plan } from '@wedgebook/notebook';
import { netShadow, printingOptions, type BathView } from './derive-bath.ts';
import { printPaperOf } from './print-paper.ts';

/** Net densities at which tones should part well. */
export interface SeparationAt {
  readonly shadow: number;
  readonly highlight: number;
}

export interface WaysView {
  readonly ways: readonly WayOut[];
  readonly separationAt: SeparationAt;
  /** Base + fog under the densities; null where only a range is known. */
  readonly baseFog: number | null;
}

/** Where only a range is known, its foot is put at the speed point. */
const ASSUMED_SHADOW = 0.1;

/**
 * @param view - negative, paper, model and plan
 * @param plan - dilution, temperature, light and stain
 * @param curve - of the paper strip in use, or null
 * @param asked - densities chosen by the user, or null for the negative's own ends
 * @param development - what is known of how the film of the negative develops
 * @param split - the user's own paper under soft and hard light, or null for the built-in one
 * @returns null where there is no negative with a range, or no target
 */
export function waysView(
  view: BathView,
  plan: Plan,
  curve: CharacteristicCurve | null,
  asked: SeparationAt | null,
  development: KnownDevelopment,
  split: SplitLights | null = null,
): WaysView | null {
  const { ends, gradeTable, model, paper, target } = view;
  if (ends === null || !(ends.densityRange > 0)) return null;
  if (target === null) return null;
  const shadow = netShadow(ends) ?? ASSUMED_SHADOW;
  const negative = { shadow, highlight: shadow + ends.densityRange };
  const separationAt = asked ?? negative;
  const { partsWater, celsius } = plan;
  const own = paper === null || paper.origin === 'target' ? null : printPaperOf(paper, curve);
  const ways = waysOut({
    model,
    negative,
    separationAt,
    target,
    bath: { partsWater, celsius },
    options: printingOptions(plan, gradeTable),
    defaults: processDefaults,
    split: split ?? builtInSplit,
    development,
    ...(own === null ? {} : { paper: own }),
  });
  return { ways, separationAt, baseFog: ends.rangeOnly ? null : ends.baseFog };
}
