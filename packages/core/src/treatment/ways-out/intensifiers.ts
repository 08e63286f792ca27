/**
 * Ways that add density: selenium, chromium bleach and redevelopment, and one after the other.
 *
 * Sources: [GSE1979], [MEES1942]; rehalogenating bleaches take image stain away [STAINSHEET]. Deviations:
 * chromium is taken as proportional, full redevelopment; two baths in turn multiply.
 */
import { COMPLETE } from '../default-model.ts';
import type { Bath } from '../dose.ts';
import { PROPORTIONAL } from '../gain-law.ts';
import { minutesForResponse } from '../plan-treatment.ts';
import { afterWithGain, treatmentEffect, type TreatmentEffect } from '../treatment-effect.ts';
import {
  inTurn,
  lawChange,
  rangeOf,
  type ChangeSettings,
  type NegativeChange,
} from './negative-change.ts';
import type { WayId, WayOut } from './way-out.ts';
import type { WaysInput } from './ways-out.ts';

/** A bath as a change of the negative, with what is known of it. */
export interface BathWay extends Partial<
  Pick<WayOut, 'gain' | 'minutes' | 'taken' | 'plausibleRange' | 'limit'>
> {
  readonly id: WayId;
  readonly change: NegativeChange;
}

export function intensifiers(
  { model, negative, bath, options, defaults }: WaysInput,
  planned: Bath,
  settings: ChangeSettings,
): BathWay[] {
  const { callierFactor } = settings;
  const { stain = 0, stainKept = 1 } = options;
  const effect = treatmentEffect(model, planned, { stain, stainKept });
  const [least, most] = effect.plausibleGain;
  const selenium: BathWay = {
    id: 'selenium',
    change: effectChange(effect, callierFactor),
    gain: effect.gain.value,
    minutes: planned.minutes,
    plausibleRange: [least, most].map((value) =>
      rangeOf(
        effectChange({ ...effect, gain: { value, standardError: null } }, callierFactor),
        negative,
      ),
    ) as [number, number],
  };

  const { value, range } = defaults.chromiumGain;
  const redeveloped = (gain: number): NegativeChange =>
    lawChange(gain, PROPORTIONAL, { ...settings, stainKept: 0 });
  const chromium: BathWay = {
    id: 'chromium',
    change: redeveloped(value),
    gain: value,
    plausibleRange: [
      rangeOf(redeveloped(range[0]), negative),
      rangeOf(redeveloped(range[1]), negative),
    ],
  };

  // The bleach leaves silver without stain; the selenium bath then runs to its practical end.
  const whole = { ...bath, minutes: minutesForResponse(model, COMPLETE, bath) };
  const second = treatmentEffect(model, whole);
  const both = (gain: number): NegativeChange =>
    inTurn(redeveloped(gain), effectChange(second, callierFactor));
  return [
    selenium,
    chromium,
    {
      id: 'chromium-then-selenium',
      change: both(value),
      gain: value * second.gain.value,
      minutes: whole.minutes,
      plausibleRange: [rangeOf(both(range[0]), negative), rangeOf(both(range[1]), negative)],
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
      slope: seen.byDensity,
      diffuseSlope: read.byDensity,
    };
  };
}
