/**
 * Gains of treated strips, and the law that they share.
 *
 *   minimise  Σ_i Σ_j (v_ij - f(u_ij; k_i, m))² / (1 + f_u²)
 *
 * with a gain for each strip and one exponent for all: both readings carry the same error, so each
 * miss counts by its distance along the normal, not along v. For the proportional law this is
 * Deming's line through the origin. Errors of the two base + fogs, which shift a whole strip, are
 * added by the delta method, and gains that share an untreated strip are correlated:
 *
 *   ∂k/∂b' = -Σu / Σu²,   ∂k/∂b = k Σu / Σu²,   cov(k_i, k_l) = k_i k_l σ² / Σu²
 *
 * Laws are compared by AICc; the proportional one is kept unless another is lower by more than 2.
 *
 * Sources: [FULLER1987] section 1.3 for errors in both variables; [BA2002] section 2.4 for AICc.
 * Deviations: with fewer than four degrees of freedom a reading's error is taken as at least 0.01.
 */
import { akaikeCorrected, leastSquares, type LeastSquaresFit } from '../fitting/index.ts';
import type { Estimate } from '../estimate.ts';
import {
  gainDerivatives,
  REFERENCE_NET_DENSITY,
  type GainLaw,
  type GainLawFamily,
} from './gain-law.ts';
import type { PairedReadings } from './pair-strips.ts';
import type { ComparedModel, FittedLaw } from './treatment-model.ts';

/** One treated strip for the fit. */
export interface StripPairs {
  readonly paired: PairedReadings;
  /** Strips with the same key were paired with the same untreated strip. */
  readonly untreatedKey: string;
}

export interface GainLawFit {
  readonly law: FittedLaw;
  /** k at the law's reference density, one per strip. */
  readonly gains: readonly Estimate[];
  /** Row-major covariance of the gains. */
  readonly covariance: readonly number[];
  /** Standard deviation of one reading that the errors rest on. */
  readonly readingError: number;
  /** True where too few pairs tell that error and a customary one stands in. */
  readonly readingErrorAssumed: boolean;
}

/** A reading's error below which two decimals cannot go, for exact and rounded input. */
const LEAST_ERROR = 1e-5;
const CUSTOMARY_ERROR = 0.01;
const FEWEST_DEGREES = 4;
/** The proportional law yields only to a law whose AICc is lower by more than this. */
const MARKEDLY = 2;
/** Slopes are taken at this net density at least: a power below 1 has none at zero. */
const LEAST_SLOPE_DENSITY = 0.02;

const CANDIDATES: readonly GainLawFamily[] = ['proportional', 'power', 'intensifier-safe', 'shift'];

interface Candidate {
  readonly family: GainLawFamily;
  readonly fit: LeastSquaresFit;
  readonly criterion: number;
}

/**
 * Fits gains and law to paired strips.
 *
 * @param strips - at least one strip with at least one pair of untreated net density above zero
 * @param family - the law, or `automatic` to compare all
 * @returns law with exponent and comparison, gains with covariance
 */
export function fitGainLaw(
  strips: readonly StripPairs[],
  family: GainLawFamily | 'automatic' = 'automatic',
): GainLawFit {
  const count = strips.reduce((sum, { paired }) => sum + paired.pairs.length, 0);
  const families =
    family === 'automatic'
      ? CANDIDATES.filter((name) => name === 'proportional' || count >= strips.length + 3)
      : [family];
  const candidates = families.map((name) => candidate(name, strips, count));
  const best = candidates.reduce((a, b) => (b.criterion < a.criterion ? b : a));
  const plainest = candidates.find((c) => c.family === 'proportional');
  const chosen = plainest && plainest.criterion <= best.criterion + MARKEDLY ? plainest : best;

  const { fit } = chosen;
  const replicate = pooledReplicates(strips);
  const enough = fit.degreesOfFreedom >= FEWEST_DEGREES;
  const fromFit = fit.residualStandardDeviation ?? 0;
  const fallback = replicate ?? CUSTOMARY_ERROR;
  const readingError = Math.max(LEAST_ERROR, enough ? fromFit : Math.max(fromFit, fallback));
  const unit = unitCovariance(chosen.family, fit, strips);
  const covariance = gainCovariance(fit, unit, readingError, strips);
  const gains = strips.map((_, i): Estimate => ({
    value: fit.parameters[i] ?? 1,
    standardError: Math.sqrt(covariance[i * strips.length + i] ?? 0),
  }));
  const hasExponent = chosen.family === 'power' || chosen.family === 'intensifier-safe';
  const last = strips.length;
  return {
    law: {
      family: chosen.family,
      exponent: hasExponent
        ? {
            value: fit.parameters[last] ?? 1,
            standardError: Math.sqrt(unit[last * (last + 1) + last] ?? 0) * readingError,
          }
        : { value: 1, standardError: null },
      referenceDensity: REFERENCE_NET_DENSITY,
      reason: families.length === 1 ? 'too-few' : chosen === plainest ? 'plainest' : 'better',
      comparison: compared(candidates, last),
    },
    gains,
    covariance,
    readingError,
    readingErrorAssumed: !enough && replicate === null,
  };
}

function candidate(family: GainLawFamily, strips: readonly StripPairs[], count: number): Candidate {
  const hasExponent = family === 'power' || family === 'intensifier-safe';
  const start = strips.map(({ paired }) => {
    let cross = 0;
    let square = 0;
    for (const { untreated, treated } of paired.pairs) {
      cross += untreated * treated;
      square += untreated * untreated;
    }
    return Math.min(9, Math.max(0.05, cross / square));
  });
  if (hasExponent) start.push(1);
  const size = start.length;
  const fit = leastSquares({
    residualCount: count,
    start,
    lower: start.map((_, j) => (j < strips.length ? 0.01 : 0.2)),
    upper: start.map((_, j) => (j < strips.length ? 10 : 5)),
    evaluate: (parameters, residuals, jacobian) => {
      jacobian.fill(0);
      normalDistances(family, strips, parameters, residuals, jacobian, size);
    },
  });
  const floor = count * LEAST_ERROR ** 2;
  const criterion = akaikeCorrected(Math.max(floor, fit.residualSumOfSquares), count, size);
  return { family, fit, criterion };
}

/** Distances along the normal and their derivatives by gains and exponent. */
function normalDistances(
  family: GainLawFamily,
  strips: readonly StripPairs[],
  parameters: Float64Array,
  residuals: Float64Array,
  jacobian: Float64Array,
  size: number,
): void {
  let row = 0;
  strips.forEach(({ paired }, i) => {
    const law = lawWith(family, parameters[strips.length] ?? 1);
    const gain = parameters[i] ?? 1;
    for (const { untreated, treated } of paired.pairs) {
      const f = gainDerivatives(untreated, gain, law);
      const s = gainDerivatives(Math.max(untreated, LEAST_SLOPE_DENSITY), gain, law);
      const length = Math.sqrt(1 + s.byDensity ** 2);
      const miss = f.value - treated;
      const bend = (miss * s.byDensity) / length ** 3;
      residuals[row] = miss / length;
      jacobian[row * size + i] = f.byGain / length - bend * s.byDensityAndGain;
      if (size > strips.length) {
        jacobian[row * size + strips.length] =
          f.byExponent / length - bend * s.byDensityAndExponent;
      }
      row++;
    }
  });
}

function lawWith(family: GainLawFamily, exponent: number): GainLaw {
  return { family, exponent, referenceDensity: REFERENCE_NET_DENSITY };
}

/** (J'J)^-1 of the chosen fit, from its covariance, or by the closed form where none is left over. */
function unitCovariance(
  family: GainLawFamily,
  fit: LeastSquaresFit,
  strips: readonly StripPairs[],
): number[] {
  const size = fit.parameters.length;
  const variance = (fit.residualStandardDeviation ?? 0) ** 2;
  if (fit.covariance !== null && variance > 0) return fit.covariance.map((c) => c / variance);
  // No degree of freedom, or an exact fit: the proportional form, which is close for every law.
  const unit = Array.from({ length: size * size }, () => 0);
  strips.forEach(({ paired }, i) => {
    const gain = fit.parameters[i] ?? 1;
    const slope = family === 'shift' ? 1 : gain;
    const square = paired.pairs.reduce((sum, { untreated }) => sum + untreated ** 2, 0);
    unit[i * size + i] = (1 + slope * slope) / square;
  });
  return unit;
}

function gainCovariance(
  fit: LeastSquaresFit,
  unit: readonly number[],
  error: number,
  strips: readonly StripPairs[],
): number[] {
  const size = fit.parameters.length;
  const count = strips.length;
  const covariance = Array.from({ length: count * count }, () => 0);
  const sums = strips.map(({ paired }) => {
    let first = 0;
    let second = 0;
    for (const { untreated } of paired.pairs) {
      first += untreated;
      second += untreated * untreated;
    }
    return { first, second };
  });
  strips.forEach((a, i) => {
    const gainA = fit.parameters[i] ?? 1;
    const ratioA = (sums[i]?.first ?? 0) / (sums[i]?.second ?? 1);
    strips.forEach((b, l) => {
      const gainB = fit.parameters[l] ?? 1;
      const ratioB = (sums[l]?.first ?? 0) / (sums[l]?.second ?? 1);
      let value = (unit[i * size + l] ?? 0) * error * error;
      const shared = a.untreatedKey === b.untreatedKey;
      if (shared && i !== l) {
        const second = Math.sqrt((sums[i]?.second ?? 1) * (sums[l]?.second ?? 1));
        value += (gainA * gainB * error * error) / second;
      }
      if (shared) {
        value +=
          gainA * ratioA * gainB * ratioB * (a.paired.untreatedBaseFog.standardError ?? 0) ** 2;
      }
      if (i === l) value += (ratioA * (a.paired.treatedBaseFog.standardError ?? 0)) ** 2;
      covariance[i * count + l] = value;
    });
  });
  return covariance;
}

function pooledReplicates(strips: readonly StripPairs[]): number | null {
  let squares = 0;
  let degrees = 0;
  for (const { paired } of strips) {
    if (paired.replicateError === null) continue;
    const { standardDeviation, degreesOfFreedom } = paired.replicateError;
    squares += degreesOfFreedom * standardDeviation ** 2;
    degrees += degreesOfFreedom;
  }
  return degrees === 0 ? null : Math.sqrt(squares / degrees);
}

function compared(candidates: readonly Candidate[], strips: number): ComparedModel[] {
  const best = Math.min(...candidates.map((c) => c.criterion));
  const likelihoods = candidates.map((c) =>
    c.criterion === best ? 1 : Math.exp((best - c.criterion) / 2),
  );
  const total = likelihoods.reduce((sum, value) => sum + value, 0);
  return candidates.map(({ family, fit, criterion }, i) => ({
    name: family,
    freeParameters: fit.parameters.length - strips,
    criterion,
    weight: (likelihoods[i] ?? 0) / total,
  }));
}
