/**
 * Ways that add density: selenium, selenium with a harder paper, chromium bleach and redevelopment,
 * and chromium with selenium after it.
 *
 *   bath and paper   the bath carries the range half of the way, √(range · aim); the paper does the rest
 *
 * Sources: [GSE1979], [MEES1942]; see `chromium.ts`. Deviations: two baths in turn multiply.
 */
import { COMPLETE } from '../treatment/default-model.ts';
import { minutesForResponse, type TreatmentPlan } from '../treatment/plan-treatment.ts';
import {
  afterWithGain,
  treatmentEffect,
  type TreatmentEffect,
} from '../treatment/treatment-effect.ts';
import { chromiumWays, redeveloped } from './chromium.ts';
import { inTurn, rangeOf, type ChangeSettings, type NegativeChange } from './negative-change.ts';
import type { WayId, WayOut } from './way-out.ts';
import type { WaysInput } from './ways-out.ts';

/** A bath as a change of the negative, with what is known of it. */
export interface BathWay extends Partial<
  Pick<
    WayOut,
    'gain' | 'minutes' | 'taken' | 'plausibleRange' | 'limit' | 'redevelopedPart' | 'warnings'
  >
> {
  readonly id: WayId;
  readonly change: NegativeChange;
  /** The change at a gain of the selenium bath one standard error greater; null where none is known. */
  readonly changeAtError?: NegativeChange;
}

/**
 * @param full - the selenium bath planned for the aim
 * @param half - the one planned for half of the way
 * @param aim - printing range aimed at
 */
export function intensifiers(
  { model, negative, bath, options, defaults }: WaysInput,
  { full, half }: { readonly full: TreatmentPlan; readonly half: TreatmentPlan },
  aim: number,
  settings: ChangeSettings,
): BathWay[] {
  const { callierFactor } = settings;
  const { stain = 0, stainKept = 1 } = options;
  const selenium = (id: WayId, { minutes }: TreatmentPlan): BathWay => {
    const effect = treatmentEffect(model, { ...bath, minutes }, { stain, stainKept });
    const at = (value: number): NegativeChange =>
      effectChange({ ...effect, gain: { value, standardError: null } }, callierFactor);
    const { value, standardError } = effect.gain;
    const [least, most] = effect.plausibleGain;
    return {
      id,
      change: at(value),
      gain: value,
      minutes,
      plausibleRange: [rangeOf(at(least), negative), rangeOf(at(most), negative)],
      warnings: effect.warnings,
      ...(standardError !== null && { changeAtError: at(value + standardError) }),
    };
  };
  const toned = selenium('selenium', full);
  const shared = selenium('selenium-and-paper', half);

  // The bleach leaves silver without stain; the selenium bath then runs to its practical end.
  const whole = { ...bath, minutes: minutesForResponse(model, COMPLETE, bath) };
  const second = treatmentEffect(model, whole);
  const { value, range } = defaults.chromiumGain;
  const both = (gain: number): NegativeChange =>
    inTurn(redeveloped(gain, settings), effectChange(second, callierFactor));
  return [
    // The paper does what the bath leaves.
    { ...shared, limit: null },
    toned,
    ...chromiumWays(negative, aim, settings, defaults),
    {
      id: 'chromium-then-selenium',
      change: both(value),
      gain: value * second.gain.value,
      minutes: whole.minutes,
      redevelopedPart: 1,
      plausibleRange: [rangeOf(both(range[0]), negative), rangeOf(both(range[1]), negative)],
      warnings: second.warnings,
    },
  ];
}

function effectChange(effect: TreatmentEffect, callierFactor: number): NegativeChange {
  return (netDensity) => {
    const seen = afterWithGain(netDensity, effect, callierFactor);
    const read = afterWithGain(netDensity, effect);
    return {
      printing: seen.value,
      diffuse: read.value,
      // The density that a light of Q 0 would see is stain.
      silver: read.value - afterWithGain(netDensity, effect, 0).value,
      slope: seen.byDensity,
      diffuseSlope: read.byDensity,
    };
  };
}
