/**
 * Gains of treated strips, and the law that they share.
 *
 *   D_j   = b + u_j + e            untreated strip, step j
 *   D'_ij = b'_i + f(u_j; k_i, m) + e   treated strip i
 *
 * with a gain for each strip, one exponent for all, and every base + fog and true net density
 * estimated too, since each was read with the same error e (see `fit-pairs.ts`). For one strip and
 * the proportional law this is Deming's line. Laws are compared by AICc; the proportional one is kept
 * unless another is lower by more than 4. Laws that the pairs do not tell from it widen the errors of
 * the gains by their weight; a spare pair is enough for that, two are asked for before another law is
 * taken.
 *
 * Sources: [FULLER1987] section 1.3 for errors in both variables; [BA2002] section 2.4 for AICc.
 * Deviations: with fewer than four degrees of freedom a reading's error is taken as at least 0.01.
 */
import { akaikeCorrected } from '../fitting/index.ts';
import type { Estimate } from '../estimate.ts';
import { REFERENCE_NET_DENSITY, type GainLawFamily } from './gain-law.ts';
import { covarianceAmongLaws, type GainsOfLaw } from './gains-among-laws.ts';
import { fitPairs, hasExponent, pairGroups, type PairGroup, type PairsFit } from './fit-pairs.ts';
import type { StripPairs } from './pair-blocks.ts';
import type { ComparedModel, FittedLaw } from './treatment-model.ts';

export interface GainLawFit {
  readonly law: FittedLaw;
  /** k at the law's reference density, one per strip; the errors include the choice of the law. */
  readonly gains: readonly Estimate[];
  /** Row-major covariance of the gains, likewise. */
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
/**
 * The proportional law yields only to a law whose AICc is lower by more than this: below 4 a model
 * still has substantial support [BA2002].
 */
const MARKEDLY = 4;

/** Rivals of less weight than this do not widen the errors. */
const LEAST_WEIGHT = 0.02;

const CANDIDATES: readonly GainLawFamily[] = ['proportional', 'power', 'intensifier-safe', 'shift'];

interface Candidate {
  readonly family: GainLawFamily;
  readonly fit: PairsFit;
  readonly degreesOfFreedom: number;
  criterion: number;
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
  const groups = pairGroups(strips);
  // The surface reducer is no rival where densities rose.
  const reduced = groups.every(({ blocks: { start, stripCount } }) =>
    start.slice(0, stripCount).every((gain) => gain < 1),
  );
  const families =
    family === 'automatic'
      ? CANDIDATES.filter(
          (name) =>
            name === 'proportional' || (count > strips.length && (name !== 'shift' || reduced)),
        )
      : [family];
  const tooFew = count < strips.length + 2;
  const replicate = pooledReplicates(strips);
  const candidates = families.map((name) => candidate(name, groups));
  // With few readings AICc forbids what one look at the misses would demand; the error of a reading
  // then has to be given.
  if (candidates.some(({ degreesOfFreedom }) => degreesOfFreedom < FEWEST_DEGREES)) {
    const variance = (replicate ?? CUSTOMARY_ERROR) ** 2;
    for (const c of candidates) {
      c.criterion = c.fit.residualSumOfSquares / variance + 2 * c.fit.parameters.length;
    }
  }
  const best = candidates.reduce((a, b) => (b.criterion < a.criterion ? b : a));
  const plainest = candidates.find((c) => c.family === 'proportional');
  const keepsPlainest =
    plainest !== undefined && (tooFew || plainest.criterion <= best.criterion + MARKEDLY);
  const chosen = keepsPlainest ? plainest : best;

  const { fit, degreesOfFreedom } = chosen;
  const enough = degreesOfFreedom >= FEWEST_DEGREES;
  const fromFit = degreesOfFreedom > 0 ? Math.sqrt(fit.residualSumOfSquares / degreesOfFreedom) : 0;
  const fallback = replicate ?? CUSTOMARY_ERROR;
  const readingError = Math.max(LEAST_ERROR, enough ? fromFit : Math.max(fromFit, fallback));
  const comparison = compared(candidates);
  const gainsOf = (one: Candidate, index: number): GainsOfLaw => ({
    gains: one.fit.parameters.slice(0, strips.length),
    covariance: gainCovariance(one.fit, strips.length, readingError),
    weight: comparison[index]?.weight ?? 0,
  });
  const all = candidates.map(gainsOf);
  const covariance = covarianceAmongLaws(
    all[candidates.indexOf(chosen)] ?? gainsOf(chosen, 0),
    all.filter((law, i) => {
      const rival = candidates[i];
      return rival !== chosen && law.weight >= LEAST_WEIGHT && rival?.fit.settled === true;
    }),
  );
  const gains = strips.map((_, i): Estimate => ({
    value: fit.parameters[i] ?? 1,
    standardError: Math.sqrt(covariance[i * (strips.length + 1)] ?? 0),
  }));
  return {
    law: {
      family: chosen.family,
      exponent: hasExponent(chosen.family)
        ? {
            value: fit.parameters.at(-1) ?? 1,
            standardError: exponentError(fit, readingError),
          }
        : { value: 1, standardError: null },
      referenceDensity: REFERENCE_NET_DENSITY,
      reason:
        family !== 'automatic'
          ? 'asked-for'
          : tooFew
            ? 'too-few'
            : chosen === plainest
              ? 'plainest'
              : 'better',
      comparison,
    },
    gains,
    covariance,
    readingError,
    readingErrorAssumed: !enough && replicate === null,
  };
}

/**
 * Covariance of a law's gains. A gain at its bound has no variance of its own; the square of one
 * reading's error stands in.
 */
function gainCovariance(fit: PairsFit, strips: number, readingError: number): number[] {
  const size = fit.parameters.length;
  return Array.from({ length: strips * strips }, (_, at) => {
    const [i, j] = [Math.floor(at / strips), at % strips];
    const own = (fit.covariance[i * size + j] ?? 0) * readingError ** 2;
    return i === j ? own || readingError ** 2 : own;
  });
}

function exponentError(fit: PairsFit, readingError: number): number {
  return Math.sqrt(fit.covariance.at(-1) ?? 0) * readingError;
}

function candidate(family: GainLawFamily, groups: readonly PairGroup[]): Candidate {
  const fit = fitPairs(family, groups);
  const { rows, free } = fit;
  const squares = Math.max(rows * LEAST_ERROR ** 2, fit.residualSumOfSquares);
  return {
    family,
    fit,
    degreesOfFreedom: rows - free,
    criterion: akaikeCorrected(squares, rows, free),
  };
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

function compared(candidates: readonly Candidate[]): ComparedModel[] {
  const best = Math.min(...candidates.map((c) => c.criterion));
  const likelihoods = candidates.map((c) =>
    c.criterion === best ? 1 : Math.exp((best - c.criterion) / 2),
  );
  const total = likelihoods.reduce((sum, value) => sum + value, 0);
  return candidates.map(({ family, criterion }, i) => ({
    name: family,
    freeParameters: hasExponent(family) ? 1 : 0,
    criterion,
    weight: (likelihoods[i] ?? 0) / total,
  }));
}
