/**
 * Does a fitted curve miss its readings by more than their scatter?
 *
 * Replicates at the same exposure tell the scatter by themselves: the sum of squares splits into
 * pure error and lack of fit,
 *
 *   F = (SS_lack / (m - p)) / (SS_pure / (n - m)),  m different exposures
 *
 * Without replicates, or beside them, residuals in order of exposure must not run in sequences of
 * one sign (see `serial-correlation.ts`). Where both tests can be made, the smaller probability is
 * doubled.
 *
 * Sources: [DS1998] section 2.1, pure error; [DW1950]. Deviations: readings of the unexposed film
 * are no replicates here, as thin densities scatter less than others.
 */
import { fDistributionUpperTail } from './f-distribution-upper-tail.ts';
import { serialCorrelation, type SerialCorrelation } from './serial-correlation.ts';
import type { TangentBasis } from './tangent-basis.ts';

/** The test against replicates. */
export interface PureErrorTest {
  readonly ratio: number;
  readonly lackDegreesOfFreedom: number;
  readonly pureDegreesOfFreedom: number;
  /** Standard deviation of a single reading among its replicates. */
  readonly pureStandardDeviation: number;
  readonly probability: number;
}

/** What the residuals say about the shape of the curve. */
export interface LackOfFit {
  readonly pureError: PureErrorTest | null;
  readonly runs: SerialCorrelation | null;
  /** Probability of residuals like these if the shape is right; null where nothing can be tested. */
  readonly probability: number | null;
}

/**
 * Tests a fit for lack of fit.
 *
 * @param x - abscissae, -Infinity for the unexposed film
 * @param residuals - of the fit, as many
 * @param basis - tangent plane of the fit
 */
export function lackOfFit(
  x: readonly number[],
  residuals: readonly number[],
  basis: TangentBasis,
): LackOfFit {
  const pureError = pureErrorTest(x, residuals, basis.columns);
  const runs = serialCorrelation(x, residuals, basis);
  const both = [pureError, runs].flatMap((test) => (test ? [test.probability] : []));
  const least = Math.min(...both);
  const probability = both.length === 0 ? null : Math.min(1, least * both.length);
  return { pureError, runs, probability };
}

function pureErrorTest(
  x: readonly number[],
  residuals: readonly number[],
  parameterCount: number,
): PureErrorTest | null {
  // The curve is one number at one exposure, so that residuals scatter as the readings do.
  const groups = new Map<number, number[]>();
  let square = 0;
  residuals.forEach((residual, i) => {
    const at = x[i] as number;
    if (!Number.isFinite(at)) return;
    square += residual * residual;
    const group = groups.get(at);
    if (group) group.push(residual);
    else groups.set(at, [residual]);
  });
  let pure = 0;
  let pureDegreesOfFreedom = 0;
  for (const group of groups.values()) {
    const mean = group.reduce((sum, r) => sum + r, 0) / group.length;
    for (const residual of group) pure += (residual - mean) ** 2;
    pureDegreesOfFreedom += group.length - 1;
  }
  const lackDegreesOfFreedom = groups.size - parameterCount;
  if (pureDegreesOfFreedom < 1 || lackDegreesOfFreedom < 1 || !(pure > 0)) return null;
  const ratio = Math.max(0, square - pure) / lackDegreesOfFreedom / (pure / pureDegreesOfFreedom);
  return {
    ratio,
    lackDegreesOfFreedom,
    pureDegreesOfFreedom,
    pureStandardDeviation: Math.sqrt(pure / pureDegreesOfFreedom),
    probability: fDistributionUpperTail(ratio, lackDegreesOfFreedom, pureDegreesOfFreedom),
  };
}
