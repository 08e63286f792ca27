/**
 * A toe-shoulder curve with its shoulder, or without it where the readings do not determine it.
 *
 * The shoulder counts as determined when its form converged with every parameter known, its centre
 * lies no further than a fifth of the range beyond the last reading, and the centre's standard
 * error is below a third of the range; a hard corner must have two steps beyond it. Else the form
 * with toe and straight part alone is used, as a shoulder that runs off would bring errors without
 * meaning into every other parameter.
 *
 * Sources: the limits come from the study of curve families in docs. Deviations: none.
 */
import { fitModel, type FitModelOptions, type ModelFit } from './fit-model.ts';
import type { CurveModel } from './model.ts';
import { finiteRange } from './models/finite-range.ts';
import { toeOnly } from './models/toe-only.ts';
import { NARROWEST_SHOULDER, toeShoulder } from './models/toe-shoulder.ts';

/** Farthest centre of a shoulder beyond the last reading, in ranges of the readings. */
const FARTHEST_SHOULDER = 0.2;
/** Greatest standard error of the shoulder's centre, in ranges of the readings. */
const GREATEST_ERROR = 1 / 3;

/** Widths, in the narrowest, below which a shoulder is a hard corner. */
const CORNER = 2;

/** Allowance of the form with a shoulder; strips without a gross slip take 7 to 15. */
const ENOUGH_ITERATIONS = 100;

/** A toe-shoulder fit, and whether it has a shoulder. */
export interface ToeShoulderFit {
  /** `toeShoulder`, or `toeOnly` where the shoulder is not determined. */
  readonly model: CurveModel;
  readonly fit: ModelFit;
  readonly shoulder: 'determined' | 'not-determined';
}

/**
 * Fits a toe-shoulder curve with or without its shoulder, as the readings allow.
 *
 * @param x - log exposures, -Infinity for the unexposed film
 * @param y - densities
 * @param options - sigma and loss, as for `fitModel`
 * @throws {InvalidArgumentError} as `fitModel`
 */
export function fitToeShoulder(
  x: readonly number[],
  y: readonly number[],
  options: Pick<FitModelOptions, 'sigma' | 'solve' | 'maxIterations'> = {},
): ToeShoulderFit {
  // A shoulder that is not found by then is not determined.
  const full = fitModel(toeShoulder, x, y, { maxIterations: ENOUGH_ITERATIONS, ...options });
  if (shoulderDetermined(full, x)) return { model: toeShoulder, fit: full, shoulder: 'determined' };
  const fit = fitModel(toeOnly, x, y, options);
  return { model: toeOnly, fit, shoulder: 'not-determined' };
}

function shoulderDetermined(fit: ModelFit, x: readonly number[]): boolean {
  if (fit.report.status !== 'converged' || fit.covariance === null) return false;
  const { last, range, narrowest } = finiteRange(x);
  const centre = fit.parameters[4] ?? Infinity;
  const width = fit.parameters[5] ?? 0;
  if (width < CORNER * NARROWEST_SHOULDER * narrowest && !twoStepsBeyond(x, centre)) return false;
  // Held at the least distance from the toe, the centre still has an error: that of the widths.
  const count = fit.parameters.length;
  const error = Math.sqrt(fit.covariance[4 * count + 4] ?? Infinity);
  return centre <= last + FARTHEST_SHOULDER * range && error < GREATEST_ERROR * range;
}

/** A hard corner with one step beyond it is the scatter of that step. */
function twoStepsBeyond(x: readonly number[], centre: number): boolean {
  let first = NaN;
  for (const at of x) {
    if (!(at > centre)) continue;
    if (Number.isNaN(first)) first = at;
    else if (at !== first) return true;
  }
  return false;
}
