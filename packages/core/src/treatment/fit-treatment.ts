/**
 * From paired strips to the model of a bath.
 *
 * Sources: see `fit-gain-law.ts` and `fit-dose-response.ts`. Deviations: none.
 */
import type { CurveReadings } from '../readings/index.ts';
import { warning, type Warning } from '../warning.ts';
import { defaultTreatment } from './default-model.ts';
import { dose as doseOf, type Bath } from './dose.ts';
import { fitDoseResponse } from './fit-dose-response.ts';
import { fitGainLaw } from './fit-gain-law.ts';
import type { GainLawFamily } from './gain-law.ts';
import { pairStrips, type PairedReadings } from './pair-strips.ts';
import { distinct } from './predict-treatment.ts';
import type { ResponseFamily } from './response.ts';
import type {
  HeldResponse,
  SeleniumDefaults,
  TreatedGain,
  TreatmentModel,
} from './treatment-model.ts';
import { fogChanges } from './fog-change.ts';

/** A treated strip with the untreated one of the same exposure. */
export interface TreatedStrip {
  readonly strip: string;
  readonly bath: Bath;
  readonly treated: CurveReadings;
  /** Null where there is none; the strip is then left out with a warning. */
  readonly untreated: CurveReadings | null;
  /** Name of the untreated strip; strips that share it have correlated gains. */
  readonly untreatedStrip?: string;
  readonly untreatedBaseFog?: number;
  readonly treatedBaseFog?: number;
}

export interface FitTreatmentOptions {
  readonly law?: GainLawFamily | 'automatic';
  readonly family?: ResponseFamily | 'automatic';
  /** Parameters that are held instead of fitted or defaulted. */
  readonly held?: HeldResponse;
}

/** Untreated net density that at least one pair must reach to tell a gain. */
const LEAST_NET_DENSITY = 0.1;

/**
 * Fits a treatment to strips or trial pieces.
 *
 * @param strips - treated strips with their untreated partners; two readings before and after on
 *   one scrap of film are enough for a gain
 * @param defaults - built-in parameters for what the trials do not tell, from @wedgebook/data
 * @param options - law and family, compared by default
 * @returns the model; the built-in one, with warnings, where no strip could be paired
 * @throws InvalidArgumentError if readings or baths are malformed
 */
export function fitTreatment(
  strips: readonly TreatedStrip[],
  defaults: SeleniumDefaults,
  options: FitTreatmentOptions = {},
): TreatmentModel {
  const warnings: Warning[] = [];
  const usable: { strip: TreatedStrip; paired: PairedReadings }[] = [];
  for (const strip of strips) {
    const paired = strip.untreated && pairStrips(strip.untreated, strip.treated, strip);
    if (!paired?.pairs.some(({ untreated }) => untreated >= LEAST_NET_DENSITY)) {
      warnings.push(warning('strips-unpaired', { strip: strip.strip }));
      continue;
    }
    if (paired.unpaired > 0) {
      warnings.push(warning('steps-unpaired', { strip: strip.strip, count: paired.unpaired }));
    }
    const sources = [paired.untreatedBaseFog.source, paired.treatedBaseFog.source];
    if (sources.some((source) => source !== 'read' && source !== 'given')) {
      warnings.push(warning('base-fog-extrapolated'));
    }
    usable.push({ strip, paired });
  }
  if (usable.length === 0) {
    const model = defaultTreatment(defaults, options.held);
    return { ...model, warnings: distinct([...warnings, ...model.warnings]) };
  }

  const law = fitGainLaw(
    usable.map(({ strip, paired }, i) => ({
      paired,
      untreatedKey: strip.untreatedStrip ?? `own ${i}`,
    })),
    options.law,
  );
  const baths = usable.map(({ strip }) => strip.bath);
  const fit = fitDoseResponse(
    { baths, gains: law.gains, covariance: law.covariance },
    defaults,
    options.family,
    options.held,
  );
  const { doseResponse } = fit;
  const exponents = {
    concentrationExponent: doseResponse.concentrationExponent.value,
    temperatureCoefficient: doseResponse.temperatureCoefficient.value,
  };
  const fog = fogChanges(
    usable.map(({ paired }) => paired),
    law.readingError,
  );
  const treated = usable.map(({ strip, paired }, i): TreatedGain => ({
    strip: strip.strip,
    partsWater: strip.bath.partsWater,
    bathMinutes: strip.bath.minutes,
    bathCelsius: strip.bath.celsius,
    dose: doseOf(strip.bath, exponents),
    gain: law.gains[i] ?? { value: 1, standardError: null },
    pairs: paired.pairs.length,
    baseFogChange: fog.each[i] ?? null,
  }));
  if (law.readingErrorAssumed) {
    warnings.push(warning('reading-error-assumed', { error: law.readingError }));
  }
  warnings.push(
    ...fit.warnings,
    ...gainWarnings(treated, doseResponse.maximumGain.value, defaults),
  );
  const doses = treated.map((strip) => strip.dose);
  return {
    process: defaults.process,
    origin: 'fitted',
    law: law.law,
    doseResponse,
    treated,
    baseFogChange: fog.mean,
    testedDoses: [Math.min(...doses), Math.max(...doses)],
    warnings: distinct(warnings),
  };
}

/** Gains that the chemistry does not allow, by more than two standard errors. */
function gainWarnings(
  treated: readonly TreatedGain[],
  maximumGain: number,
  defaults: SeleniumDefaults,
): Warning[] {
  const bound = defaults.bounds.maximumGain.value;
  const warnings: Warning[] = [];
  for (const { strip, gain } of treated) {
    const slack = 2 * (gain.standardError ?? 0);
    if (gain.value > bound)
      warnings.push(warning('gain-above-bound', { strip, gain: gain.value, bound }));
    if (gain.value < 1 - slack)
      warnings.push(warning('gain-below-one', { strip, gain: gain.value }));
  }
  if (maximumGain > bound && !warnings.some(({ code }) => code === 'gain-above-bound')) {
    warnings.push(warning('gain-above-bound', { gain: maximumGain, bound }));
  }
  return warnings;
}
