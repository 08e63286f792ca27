/**
 * The default path from readings to a characteristic curve: toe-shoulder, with and without its
 * shoulder.
 *
 * Two forms are fitted, toe and straight part alone (four parameters) and with a shoulder (six).
 * The shoulder counts as determined when its form converged, its centre is no further than a
 * quarter of the range beyond the last reading and known to a third of the range or better; then
 * that form is drawn, else the other. The form not drawn stands beside as a companion with its
 * Akaike weight
 *
 *   w_i = exp(-Delta_i / 2) / sum_j exp(-Delta_j / 2),  Delta_i = AICc_i - min AICc
 *
 * so that whoever derives a measure can add the spread between forms to its error: choosing the
 * better form and quoting its own error alone covers too seldom.
 *
 * Sources: [BA2002] sections 2.9 (weights) and 4.3 (unconditional errors). Deviations: a
 * companion of less than 2 % is left out.
 */
import { akaikeCorrected } from './akaike-corrected.ts';
import { fitModel, type FitModelOptions, type ModelFit } from './fit-model.ts';
import type { CurveModel } from './model.ts';
import { toeOnly } from './models/toe-only.ts';
import { toeShoulder } from './models/toe-shoulder.ts';

/** Companions of less weight than this change no error by more than a hundredth. */
const LEAST_WEIGHT = 0.02;

/** One form of the curve, fitted. */
export interface CurveMember {
  readonly model: CurveModel;
  readonly fit: ModelFit;
  /** Akaike weight among the members; the weights add up to 1. */
  readonly weight: number;
}

/** The curve to draw, its companions, and what the readings say about a shoulder. */
export interface ToeShoulderFit {
  /** The first is the one to draw. */
  readonly members: readonly [CurveMember, ...CurveMember[]];
  readonly shoulder: 'determined' | 'not-determined';
}

/**
 * Fits a toe-shoulder curve with or without its shoulder, as the readings allow.
 *
 * @param x - log exposures, -Infinity for the unexposed film
 * @param y - densities
 * @param options - sigma and robust loss, as for `fitModel`
 * @throws {InvalidArgumentError} as `fitModel`
 */
export function fitToeShoulder(
  x: readonly number[],
  y: readonly number[],
  options: Pick<FitModelOptions, 'sigma' | 'robust'> = {},
): ToeShoulderFit {
  const bare = fitModel(toeOnly, x, y, options);
  const full = fitModel(toeShoulder, x, y, options);
  const determined = shoulderDetermined(full, x);
  const bareScore = score(bare, x.length);
  const fullScore = score(full, x.length);
  const usable = full.report.status === 'converged' && full.covariance !== null;
  const difference = usable ? fullScore - bareScore : Infinity;
  const fullWeight = Number.isNaN(difference) ? 0.5 : 1 / (1 + Math.exp(difference / 2));
  const first: CurveMember = determined
    ? { model: toeShoulder, fit: full, weight: fullWeight }
    : { model: toeOnly, fit: bare, weight: 1 - fullWeight };
  const second: CurveMember = determined
    ? { model: toeOnly, fit: bare, weight: 1 - fullWeight }
    : { model: toeShoulder, fit: full, weight: fullWeight };
  const shoulder = determined ? 'determined' : 'not-determined';
  if (second.weight < LEAST_WEIGHT || first.weight < LEAST_WEIGHT) {
    return { members: [{ ...first, weight: 1 }], shoulder };
  }
  return { members: [first, second], shoulder };
}

function score(fit: ModelFit, observationCount: number): number {
  return akaikeCorrected(fit.residualSumOfSquares, observationCount, fit.parameters.length);
}

function shoulderDetermined(fit: ModelFit, x: readonly number[]): boolean {
  if (fit.report.status !== 'converged' || fit.covariance === null) return false;
  let first = Infinity;
  let last = -Infinity;
  for (const at of x) {
    if (!Number.isFinite(at)) continue;
    first = Math.min(first, at);
    last = Math.max(last, at);
  }
  const centre = fit.parameters[4] ?? Infinity;
  const error = fit.standardErrors[4] ?? (fit.atBound[4] === true ? 0 : Infinity);
  return centre < last + 0.25 * (last - first) && error < (last - first) / 3;
}
