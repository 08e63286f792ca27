/** What the four prints take from the notebook: the negative's ends, the bath, the paper. */
import { treatmentEffect, type CharacteristicCurve, type PrintPaper } from '@wedgebook/core';
import type { Plan } from '@wedgebook/notebook';
import { netShadow, type BathView } from '../state/derive-bath.ts';
import { printPaperOf } from '../state/print-paper.ts';
import type { FourPrintsInput } from './four-prints.ts';
import type { NegativeTonesInput, NetEnds } from './negative-tones.ts';
import type { PictureFacts } from './picture-messages.ts';

/** Ends of a negative that has none of its own: a usual range, stated as assumed. */
const ASSUMED: NetEnds = { shadow: 0.25, highlight: 1.2 };

/** Net ends of the negative, or the assumed ones; base + fog where it is known. */
export function endsOf({ ends }: BathView): {
  readonly ends: NetEnds;
  readonly assumed: boolean;
  readonly baseFog: number | null;
} {
  if (ends === null || !(ends.densityRange > 0.05)) {
    return { ends: ASSUMED, assumed: true, baseFog: null };
  }
  const shadow = netShadow(ends) ?? ASSUMED.shadow;
  return {
    ends: { shadow, highlight: shadow + ends.densityRange },
    assumed: false,
    baseFog: ends.rangeOnly ? null : ends.baseFog,
  };
}

export function negativeInput(
  picture: PictureFacts,
  positive: boolean,
  ends: NetEnds,
  film: CharacteristicCurve | null,
  baseFog: number,
): NegativeTonesInput {
  return { picture, positive, ends, film: film === null ? null : { curve: film, baseFog } };
}

export type PrintArguments = [
  negative: Float64Array,
  shadow: number,
  highlight: number,
  bath: BathView,
  plan: Plan,
  paperCurve: CharacteristicCurve | null,
  stops: number,
  enlargerFlare: number,
];

export function printInput(...args: PrintArguments): FourPrintsInput {
  const [negative, shadow, highlight, bath, plan, paperCurve, stops, enlargerFlare] = args;
  const { partsWater, minutes, celsius, callierFactor, stain, stainKept } = plan;
  const effectAfter = (time: number) =>
    treatmentEffect(bath.model, { partsWater, minutes: time, celsius }, { stain, stainKept });
  const paper: PrintPaper | null =
    bath.paper === null ? null : printPaperOf(bath.paper, paperCurve);
  return {
    negative,
    ends: { shadow, highlight },
    untreated: effectAfter(0),
    treated: effectAfter(minutes),
    callierFactor,
    enlargerFlare,
    paper: paper ?? FALLBACK,
    stops,
  };
}

/** A paper strip that gives no scale: the middle of the grades stands in. */
const FALLBACK: PrintPaper = { kind: 'generated', exposureScale: 1.05, netMaximum: 2 };
