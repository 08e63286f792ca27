/**
 * What a bath does to any net density: the law at the bath's gain, silver and stain apart.
 *
 *   silver S = u / (1 + s);  after  v = law(S; k) + s ρ S
 *   below the least gain that was tried a fitted exponent fades to 1 with the gain, so that no bath
 *   at all changes nothing
 *
 * Sources: see `gain-law.ts` and `stain.ts`. Deviations: an intensifier's law never lowers a
 * density here; where the fitted law would, the silver is left as it is, with a warning.
 */
import type { Estimate } from '../estimate.ts';
import { warning, type Warning } from '../warning.ts';
import type { Bath } from './dose.ts';
import { gainAtBath, type BathGain } from './gain-at-dose.ts';
import { gainDerivatives, type GainLaw } from './gain-law.ts';
import { lawOf, type TreatmentModel } from './treatment-model.ts';

/** A treatment at one bath. Plain data. */
export interface TreatmentEffect extends BathGain {
  readonly law: GainLaw;
  readonly stain: number;
  readonly stainKept: number;
  readonly warnings: readonly Warning[];
}

export interface EffectOptions {
  /** Stain density per unit of silver density in the paper's channel; 0 unless given. */
  readonly stain?: number;
  /** Part of the stain that the bath leaves; 1 unless given. */
  readonly stainKept?: number;
}

/**
 * The effect of a bath.
 *
 * @param model - fitted or built-in
 * @param bath - dilution, minutes, temperature
 * @param options - stain
 * @throws InvalidArgumentError if the bath is out of range
 */
export function treatmentEffect(
  model: TreatmentModel,
  bath: Bath,
  options: EffectOptions = {},
): TreatmentEffect {
  const { stain = 0 } = options;
  // Stain goes in the bath, so without any time in it all of it stays.
  const stainKept = bath.minutes > 0 ? (options.stainKept ?? 1) : 1;
  const bathGain = gainAtBath(model.doseResponse, bath);
  const law = fadedLaw(model, bathGain.gain.value);
  const warnings: Warning[] = [];
  const tested = model.testedDoses;
  if (tested !== null && bath.minutes > 0) {
    // A tenth of slack: a plan a few seconds beyond the trials is no extrapolation.
    const outside = bathGain.dose < 0.9 * tested[0] || bathGain.dose > 1.1 * tested[1];
    if (outside) {
      warnings.push(
        warning('dose-extrapolated', { dose: bathGain.dose, least: tested[0], most: tested[1] }),
      );
    }
  }
  if (law.family === 'power' && law.exponent !== 1 && bathGain.gain.value >= 1) {
    warnings.push(warning('law-lowers-densities', { exponent: law.exponent }));
  }
  if (stain > 0) {
    const lost = gainOfAll(bathGain.gain.value, stain, 0);
    warnings.push(warning('stain-may-be-lost', { stain, netGainIfLost: lost }));
  }
  return { ...bathGain, law, stain, stainKept, warnings };
}

/**
 * Net density after the bath, silver and stain together, by diffuse light in the paper's channel.
 *
 * @param netDensity - u before
 * @param effect - from `treatmentEffect`
 * @param callierFactor - Q that acts on silver alone; 1 gives the diffuse density
 * @returns v after; with Q, the density as the enlarger sees it
 * @throws InvalidArgumentError if `netDensity` is not finite
 */
export function densityAfter(
  netDensity: number,
  effect: TreatmentEffect,
  callierFactor = 1,
): number {
  return afterWithGain(netDensity, effect, callierFactor).value;
}

/** The same with its slope by the density before; for inner loops, the argument is not checked. */
export function densityAfterWithSlope(
  netDensity: number,
  effect: TreatmentEffect,
  callierFactor = 1,
): { value: number; slope: number } {
  const { value, byDensity } = afterWithGain(netDensity, effect, callierFactor);
  return { value, slope: byDensity };
}

/** Net density after with its derivative by the gain and by the density before. */
export function afterWithGain(
  netDensity: number,
  effect: TreatmentEffect,
  callierFactor = 1,
): { value: number; byGain: number; byDensity: number } {
  const { law, stain, stainKept } = effect;
  const gain = effect.gain.value;
  const silver = netDensity / (1 + stain);
  const after = gainDerivatives(silver, gain, law);
  const lowers = gain >= 1 && after.value < silver;
  const [value, byGain, byDensity] = lowers
    ? [silver, 0, 1]
    : [after.value, after.byGain, after.byDensity];
  return {
    value: callierFactor * value + stain * stainKept * silver,
    byGain: callierFactor * byGain,
    byDensity: (callierFactor * byDensity + stain * stainKept) / (1 + stain),
  };
}

/** Range between two net densities after the bath, with the error of the gain alone. */
export function rangeAfter(
  shadow: number,
  highlight: number,
  effect: TreatmentEffect,
  callierFactor = 1,
): Estimate {
  const low = afterWithGain(shadow, effect, callierFactor);
  const high = afterWithGain(highlight, effect, callierFactor);
  const { standardError } = effect.gain;
  return {
    value: high.value - low.value,
    standardError:
      standardError === null ? null : Math.abs(high.byGain - low.byGain) * standardError,
  };
}

function gainOfAll(gain: number, stain: number, stainKept: number): number {
  return (gain + stain * stainKept) / (1 + stain);
}

/** The law with its exponent faded towards 1 where the gain is below any that was tried. */
function fadedLaw(model: TreatmentModel, gain: number): GainLaw {
  const law = lawOf(model);
  const least = Math.min(...model.treated.map((strip) => strip.gain.value));
  const fades = law.family === 'power' && law.exponent !== 1 && least > 1 && least < Infinity;
  if (!fades || gain >= least) return law;
  const part = Math.max(0, (gain - 1) / (least - 1));
  return { ...law, exponent: 1 + part * (law.exponent - 1) };
}
