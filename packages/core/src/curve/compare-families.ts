/**
 * The families of curves side by side on one strip, and what speaks for the one in use.
 *
 *   Δ = AICc - least AICc;   weight = exp(-Δ / 2) / Σ exp(-Δ / 2)
 *
 * Sources: [BA2002] section 2.6 and 2.9: below 2 a rival is as good, above 10 it has no support.
 * Deviations: a smooth curve counts its effective parameters; a drawn one has no criterion.
 */
import { akaikeCorrected } from '../fitting/index.ts';
import type { CurveReadings } from '../readings/index.ts';
import {
  CURVE_FAMILIES,
  type CharacteristicCurve,
  type CurveFamily,
} from './characteristic-curve.ts';
import { fitFamily } from './fit-curve.ts';
import { sortReadings } from './sort-readings.ts';

/** One family on the strip. */
export interface FamilyComparison {
  readonly family: CurveFamily;
  readonly status: 'ok' | 'not-determined';
  readonly curve: CharacteristicCurve | null;
  /** Fitted parameters; effective ones, with a fraction, for a smooth curve. */
  readonly parameterCount: number | null;
  readonly residualStandardDeviation: number | null;
  /** AICc above the least of all families; null for a curve without errors. */
  readonly difference: number | null;
  /** Akaike weight among the families, 0 to 1. */
  readonly weight: number | null;
}

/**
 * `best`: no family has a lower criterion. `as-good`: another is lower by less than 2, which means
 * nothing. `rival-better`: another is lower by more than that. `not-comparable`: the chosen family
 * has no criterion.
 */
export type FamilyVerdict = 'best' | 'as-good' | 'rival-better' | 'not-comparable';

export interface FamiliesCompared {
  readonly families: readonly FamilyComparison[];
  readonly chosen: CurveFamily;
  readonly verdict: FamilyVerdict;
  /** The family with the least criterion, or null where none has one. */
  readonly best: CurveFamily | null;
}

/** Differences below this mean nothing [BA2002]. */
const MEANS_NOTHING = 2;
/** Residual standard deviation below which readings count as exact: nobody reads finer. */
const FINEST_READING = 1e-5;

/**
 * Fits every family to a strip and compares them.
 *
 * @param readings - densities by log exposure
 * @param chosen - the family in use
 * @throws InvalidArgumentError if the arrays differ in length or hold a value that is not finite
 */
export function compareFamilies(
  readings: CurveReadings,
  chosen: CurveFamily = 'toe-shoulder',
): FamiliesCompared {
  const count = readings.densities.length + (readings.unexposedDensities?.length ?? 0);
  const sorted = sortReadings(readings);
  const fitted = CURVE_FAMILIES.map((family) => ({ family, curve: fitFamily(sorted, family) }));
  const criteria = fitted.map(({ curve }) => (curve === null ? null : criterionOf(curve, count)));
  const known = criteria.filter((value) => value !== null);
  const least = known.length > 0 ? Math.min(...known) : null;
  const total = known.reduce((sum, value) => sum + Math.exp(((least ?? 0) - value) / 2), 0);
  const families = fitted.map(({ family, curve }, i): FamilyComparison => {
    const criterion = criteria[i] ?? null;
    const difference = criterion === null || least === null ? null : criterion - least;
    return {
      family,
      status: curve === null ? 'not-determined' : 'ok',
      curve,
      parameterCount: curve && hasErrors(curve) ? count - curve.degreesOfFreedom : null,
      residualStandardDeviation: curve?.residualStandardDeviation ?? null,
      difference,
      weight: difference === null ? null : Math.exp(-difference / 2) / total,
    };
  });
  const own = families.find(({ family }) => family === chosen)?.difference ?? null;
  const verdict =
    own === null
      ? 'not-comparable'
      : own === 0
        ? 'best'
        : own < MEANS_NOTHING
          ? 'as-good'
          : 'rival-better';
  const best = families.find(({ difference }) => difference === 0)?.family ?? null;
  return { families, chosen, verdict, best };
}

function hasErrors(curve: CharacteristicCurve): boolean {
  return curve.residualStandardDeviation !== null;
}

function criterionOf(curve: CharacteristicCurve, count: number): number | null {
  if (curve.residualStandardDeviation === null) return null;
  const sigma = Math.max(curve.residualStandardDeviation, FINEST_READING);
  const parameters = count - curve.degreesOfFreedom;
  const criterion = akaikeCorrected(sigma ** 2 * curve.degreesOfFreedom, count, parameters);
  return Number.isFinite(criterion) ? criterion : null;
}
