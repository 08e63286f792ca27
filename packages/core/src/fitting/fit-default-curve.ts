/**
 * The default path from readings to a characteristic curve.
 *
 * 1. A toe-shoulder curve is fitted, without its shoulder where the readings do not determine it.
 * 2. A monotone smooth curve is fitted beside it. Both get Akaike weights
 *
 *      w_i = exp(-Delta_i / 2) / sum_j exp(-Delta_j / 2),  Delta_i = AICc_i - min AICc
 *
 *    the smooth curve with its effective parameters. As no family is exactly right, the smooth
 *    curve keeps a twentieth unless it fits far worse; where few degrees of freedom are left, so
 *    that no test could tell two emulsions from one, it keeps 1.6 / v, at most a half.
 * 3. The smooth curve is drawn only where a lack-of-fit test says that the family misses the
 *    readings and the weights agree: a curve with a known shape is the better one where it fits.
 *
 * The curve not drawn is a companion: whoever derives a measure adds the spread between the two to
 * its variance, w_1 (v_1 + (m_1 - m)^2) + w_2 (v_2 + (m_2 - m)^2). Picking the better curve and
 * quoting its own error covers too seldom.
 *
 * Sources: [BA2002] sections 2.9 (weights) and 4.3 (unconditional errors); the study of curve
 * families in docs for the rules and limits. Deviations: the least weight.
 */
import { akaikeCorrected } from './akaike-corrected.ts';
import { fitToeShoulder, type ToeShoulderFit } from './fit-toe-shoulder.ts';
import { lackOfFit, type LackOfFit } from './lack-of-fit.ts';
import type { CurveFunction } from './model.ts';
import { monotoneSmooth, type SmoothCurve } from './monotone-smooth.ts';
import { tangentBasis } from './tangent-basis.ts';

/** Probability below which a family counts as missing the readings. */
export const LACK_OF_FIT_PROBABILITY = 0.05;
/** Least weight of the smooth curve: odds of 19 to 1 are the most that a family is trusted. */
const LEAST_WEIGHT = 0.05;
/** The same times the degrees of freedom, where they are few. */
const LEAST_WEIGHT_BY_FREEDOM = 1.6;
/** n ln of the ratio of sums of squares beyond which the smooth curve fits so much worse that it keeps nothing. */
const NO_SUPPORT = 30;
/** Standard deviation of the finest reading: a smaller scatter is rounding, not knowledge. */
const FINEST_READING = 1e-5;
/** Different exposures below which a smooth curve says nothing of its own. */
const FEWEST_STEPS = 7;

/** One curve of the result, as the curve room needs it. */
export interface CurveMember {
  readonly family: 'toe-shoulder' | 'monotone-smooth';
  readonly model: CurveFunction;
  readonly parameters: readonly number[];
  readonly covariance: readonly number[] | null;
  readonly residuals: readonly number[];
  readonly residualSumOfSquares: number;
  readonly residualStandardDeviation: number | null;
  readonly degreesOfFreedom: number;
  /** Of the smooth curve; empty for the other. */
  readonly knots: readonly number[];
  /** Weights of the members add up to 1. */
  readonly weight: number;
}

/** Options of `fitDefaultCurve`. */
export interface DefaultCurveOptions {
  /** Weight of each reading, 1 / sigma^2 up to a common factor, above 0; 1 where absent. */
  readonly weights?: readonly number[] | undefined;
}

/** The curve to draw, its companion, and why. */
export interface DefaultCurveFit {
  /** The first is the one to draw. */
  readonly members: readonly [CurveMember, ...CurveMember[]];
  readonly shoulder: 'determined' | 'not-determined';
  /** Of the toe-shoulder curve. */
  readonly lackOfFit: LackOfFit;
  /**
   * `family-fits`: the readings show no lack of fit. `no-better-curve`: they do, but the smooth
   * curve is no better. `family-misses`: they do, and the smooth curve is drawn.
   */
  readonly reason: 'family-fits' | 'no-better-curve' | 'family-misses';
  /** How the toe-shoulder fit ended. */
  readonly toeShoulder: ToeShoulderFit;
}

/**
 * Fits the default curve to readings.
 *
 * @param x - log exposures, any order, -Infinity for the unexposed film
 * @param y - densities
 * @param options - weights of the readings
 * @throws {InvalidArgumentError} if lengths differ, a value is not finite, or a weight is not
 *   finite and above 0
 */
export function fitDefaultCurve(
  x: readonly number[],
  y: readonly number[],
  options: DefaultCurveOptions = {},
): DefaultCurveFit {
  const total = options.weights?.reduce((sum, weight) => sum + weight, 0) ?? 1;
  // A common factor says nothing; the search for the penalty of the smooth curve begins near 1.
  const weights = options.weights?.map((weight) => (weight * x.length) / total);
  const roots = weights?.map(Math.sqrt);
  const toeShoulder = fitToeShoulder(
    x,
    y,
    roots && { sigma: { kind: 'relative', values: roots.map((root) => 1 / root) } },
  );
  const { model, fit, shoulder } = toeShoulder;
  const scaled = roots
    ? fit.residuals.map((residual, i) => residual * (roots[i] as number))
    : fit.residuals;
  const lack = lackOfFit(x, scaled, tangentBasis(model, x, fit, roots));
  const family = memberOf('toe-shoulder', model, fit, [], 1);
  const smooth = smoothMember(x, y, weights);
  const alone: DefaultCurveFit = {
    members: [family],
    shoulder,
    lackOfFit: lack,
    reason: 'family-fits',
    toeShoulder,
  };
  if (!smooth) return alone;
  const free = fit.atBound.filter((held) => !held).length;
  const [own, rival] = [floored(fit, x), floored(smooth, x)];
  const difference =
    akaikeCorrected(rival, x.length, x.length - smooth.degreesOfFreedom) -
    akaikeCorrected(own, x.length, free);
  const least = Math.min(
    0.5,
    Math.max(LEAST_WEIGHT, LEAST_WEIGHT_BY_FREEDOM / Math.max(1, fit.degreesOfFreedom)),
  );
  const exact = own < 2 * x.length * FINEST_READING ** 2;
  // Of an exact fit the residuals are rounding, and run as it will.
  const misses = !exact && (lack.probability ?? 1) < LACK_OF_FIT_PROBABILITY;
  const farWorse = exact || x.length * Math.log(rival / own) > NO_SUPPORT;
  const share = farWorse ? 0 : Math.max(least, 1 / (1 + Math.exp(difference / 2)) || 0);
  if (share === 0) return misses ? { ...alone, reason: 'no-better-curve' } : alone;
  const drawn = memberOf('toe-shoulder', model, fit, [], 1 - share);
  const companion = memberOf('monotone-smooth', smooth.model, smooth, smooth.knots, share);
  if (misses && share > 0.5) {
    return { ...alone, members: [companion, drawn], reason: 'family-misses' };
  }
  return {
    ...alone,
    members: [drawn, companion],
    reason: misses ? 'no-better-curve' : 'family-fits',
  };
}

/** The sum of squares, no smaller than rounding leaves it. */
function floored(
  { residualSumOfSquares: square }: { readonly residualSumOfSquares: number },
  x: readonly number[],
): number {
  return square + x.length * FINEST_READING ** 2;
}

function smoothMember(
  x: readonly number[],
  y: readonly number[],
  weights: readonly number[] | undefined,
): SmoothCurve | null {
  const steps = new Set(x.filter(Number.isFinite));
  if (steps.size < FEWEST_STEPS) return null;
  const smooth = monotoneSmooth(x, y, { weights });
  if (smooth.covariance === null || smooth.residualStandardDeviation === null) return null;
  return smooth;
}

function memberOf(
  family: CurveMember['family'],
  model: CurveFunction,
  fit: Omit<CurveMember, 'family' | 'model' | 'knots' | 'weight'>,
  knots: readonly number[],
  weight: number,
): CurveMember {
  return {
    family,
    model,
    parameters: fit.parameters,
    covariance: fit.covariance,
    residuals: fit.residuals,
    residualSumOfSquares: fit.residualSumOfSquares,
    residualStandardDeviation: fit.residualStandardDeviation,
    degreesOfFreedom: fit.degreesOfFreedom,
    knots,
    weight,
  };
}
