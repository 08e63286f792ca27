/**
 * What a bath does, as plain data: the gain law, and how the gain grows with the dose.
 *
 *   k(E) = 1 + (k_max - 1) R(E),   E = c^n t q^((T - 20) / 10)
 *
 * Sources: see the modules of the law, the dose and the response. Deviations: none.
 */
import type { Estimate } from '../estimate.ts';
import type { Provenance } from '../provenance.ts';
import type { Warning } from '../warning.ts';
import type { GainLaw, GainLawFamily } from './gain-law.ts';
import type { ResponseFamily } from './response.ts';

/** Parameters of dose and response, in the order of the covariance. */
export const RESPONSE_PARAMETERS = [
  'maximumGain',
  'halfDose',
  'steepness',
  'concentrationExponent',
  'temperatureCoefficient',
] as const;

export type ResponseParameter = (typeof RESPONSE_PARAMETERS)[number];

/** A built-in parameter with the range that it may well have, and its source. */
export interface DefaultParameter {
  readonly value: number;
  readonly range: readonly [number, number];
  readonly unit: string;
  readonly provenance: Provenance;
}

/** Built-in numbers of the selenium bath; the values live in @wedgebook/data. */
export interface SeleniumDefaults {
  readonly id: string;
  readonly process: 'selenium';
  readonly name: string;
  readonly family: ResponseFamily;
  readonly parameters: Readonly<Record<ResponseParameter, DefaultParameter>>;
  /** What is usual in practice. */
  readonly practice: {
    readonly partsWater: UsualRange;
    readonly celsius: UsualRange;
    readonly minutes: UsualRange;
    readonly provenance: Provenance;
  };
  readonly bounds: {
    /** The gain beyond which a fitted one deserves a warning. */
    readonly maximumGain: {
      readonly value: number;
      readonly unit: string;
      readonly provenance: Provenance;
    };
  };
}

export interface UsualRange {
  readonly range: readonly [number, number];
  readonly usual: readonly [number, number];
}

/**
 * Whether a parameter comes from the user's trials, from the built-in numbers, or was held at a
 * value that the user named.
 */
export type ParameterOrigin = 'fitted' | 'default' | 'held';

/** Values at which parameters are held, whatever trials and defaults say. */
export type HeldResponse = Readonly<Partial<Record<ResponseParameter, number>>>;

/** One candidate of a choice between models. */
export interface ComparedModel {
  readonly name: string;
  readonly freeParameters: number;
  /** AICc for laws, chi-square + 2 p for responses; only differences count. */
  readonly criterion: number;
  /** Akaike weight among the candidates, 0 to 1. */
  readonly weight: number;
}

/** The gain law with its exponent and why it was chosen. */
export interface FittedLaw {
  readonly family: GainLawFamily;
  readonly exponent: Estimate;
  readonly referenceDensity: number;
  readonly reason: LawReason;
  readonly comparison: readonly ComparedModel[];
}

/**
 * `default`: no trials. `plainest`: the proportional law does as well as any. `better`: another
 * law describes the pairs markedly better (AICc lower by more than 4). `too-few`: too few pairs to
 * tell laws apart. `asked-for`: the caller chose it.
 */
export type LawReason = 'default' | 'plainest' | 'better' | 'too-few' | 'asked-for';

/** Gain against dose. */
export interface DoseResponse {
  readonly family: ResponseFamily;
  /** k_max, the gain that the bath tends to. */
  readonly maximumGain: Estimate;
  /** Dose of half the change, in minutes of undiluted concentrate at 20 °C. */
  readonly halfDose: Estimate;
  readonly steepness: Estimate;
  readonly concentrationExponent: Estimate;
  readonly temperatureCoefficient: Estimate;
  readonly origin: Readonly<Record<ResponseParameter, ParameterOrigin>>;
  /** Row-major 5 x 5 in the order of `RESPONSE_PARAMETERS`, zero for defaults; null without trials. */
  readonly covariance: readonly number[] | null;
  /** Range that each defaulted parameter may well have; null for fitted and held ones. */
  readonly plausible: Readonly<Record<ResponseParameter, readonly [number, number] | null>>;
  /** Minutes to 95 % of the change, at the bath named beside it. */
  readonly completion95Minutes: Estimate & {
    readonly partsWater: number;
    readonly celsius: number;
  };
  readonly comparison: readonly ComparedModel[];
  /** Weight of this family among itself and its rivals; 1 without rivals. */
  readonly weight: number;
  /** Families that the trials hardly tell from this one; they widen every standard error. */
  readonly rivals: readonly RivalResponse[];
}

/** A rival family with its own parameters. */
export interface RivalResponse {
  readonly family: ResponseFamily;
  /** In the order of `RESPONSE_PARAMETERS`. */
  readonly parameters: readonly number[];
  readonly covariance: readonly number[];
  readonly weight: number;
}

/** The gain of one treated strip. */
export interface TreatedGain {
  readonly strip: string;
  readonly partsWater: number;
  readonly bathMinutes: number;
  readonly bathCelsius: number;
  readonly dose: number;
  readonly gain: Estimate;
  /** Pairs of readings behind it. */
  readonly pairs: number;
  /** Base + fog after the bath less base + fog before; null where either was not read. */
  readonly baseFogChange: Estimate | null;
}

/** What a bath does to net densities. Plain data; can be stored and sent to a worker. */
export interface TreatmentModel {
  readonly process: 'selenium';
  readonly origin: 'fitted' | 'default';
  readonly law: FittedLaw;
  readonly doseResponse: DoseResponse;
  readonly treated: readonly TreatedGain[];
  /** What the bath does to base + fog, by all strips where it was read before and after; else null. */
  readonly baseFogChange: Estimate | null;
  /** Least and greatest dose that was tried; null without trials. */
  readonly testedDoses: readonly [number, number] | null;
  readonly warnings: readonly Warning[];
}

/** The law alone, as `treatedNetDensity` takes it. */
export function lawOf({ law }: TreatmentModel): GainLaw {
  return {
    family: law.family,
    exponent: law.exponent.value,
    referenceDensity: law.referenceDensity,
  };
}
