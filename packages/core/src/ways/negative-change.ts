/**
 * What a way does to any net density of the negative.
 *
 *   silver S = u / (1 + s);   after  v = change(S);   printing density  Q v + s ρ S
 *
 * Sources: see `../treatment/stain.ts` and `../treatment/gain-law.ts`. Deviations: none.
 */
import { gainDerivatives, type GainLaw } from '../treatment/gain-law.ts';

/** Density after, as the paper sees it and as a diffuse reading, with the slope of the former. */
interface ChangedDensity {
  readonly printing: number;
  readonly diffuse: number;
  /** d printing / d Q: the silver alone, which Q acts on. */
  readonly silver: number;
  /** d printing / d net density before. */
  readonly slope: number;
  /** d diffuse / d net density before. */
  readonly diffuseSlope: number;
}

/** Net density before -> after. */
export type NegativeChange = (netDensity: number) => ChangedDensity;

/** Silver after a way, and its slope, by silver before. */
export type SilverChange = (silver: number) => {
  readonly value: number;
  readonly byDensity: number;
};

/** The net densities between which a way is judged, stain included. */
export interface NegativeNets {
  readonly shadow: number;
  readonly highlight: number;
}

export interface ChangeSettings {
  readonly callierFactor: number;
  readonly stain: number;
  readonly stainKept: number;
}

/** A change of the silver as a change of the whole negative, silver and stain. */
export function wholeChange(
  ofSilver: SilverChange,
  { callierFactor, stain, stainKept }: ChangeSettings,
): NegativeChange {
  return (netDensity) => {
    const silver = netDensity / (1 + stain);
    const { value, byDensity } = ofSilver(silver);
    const left = stain * stainKept;
    return {
      printing: callierFactor * value + left * silver,
      diffuse: value + left * silver,
      silver: value,
      slope: (callierFactor * byDensity + left) / (1 + stain),
      diffuseSlope: (byDensity + left) / (1 + stain),
    };
  };
}

/** A gain law at one gain as a change of the whole negative. */
export function lawChange(gain: number, law: GainLaw, settings: ChangeSettings): NegativeChange {
  return wholeChange((silver) => gainDerivatives(silver, gain, law), settings);
}

/** First one change, then another, which takes the diffuse density that the first one leaves. */
export function inTurn(first: NegativeChange, second: NegativeChange): NegativeChange {
  return (netDensity) => {
    const between = first(netDensity);
    const after = second(between.diffuse);
    return {
      ...after,
      slope: after.slope * between.diffuseSlope,
      diffuseSlope: after.diffuseSlope * between.diffuseSlope,
    };
  };
}

/** Printing range between two net densities after a change. */
export function rangeOf(change: NegativeChange, { shadow, highlight }: NegativeNets): number {
  return change(highlight).printing - change(shadow).printing;
}
