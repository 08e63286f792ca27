/**
 * A step skipped or read twice, which moves all later readings by one step.
 *
 * For each place k the readings from k on are given the exposures of the next steps (one was
 * skipped) or of the steps before (one was read twice), and the curve is fitted anew. With SS the
 * sum of squares as written and SS' as moved, both with v degrees of freedom,
 *
 *   P = 2 (m - 1) I_r((v - 1) / 2, 1 / 2),  r = SS' / SS,  m the number of steps
 *
 * bounds the probability that chance finds so good a place: I_r is that of one more free number,
 * and none is free here. Only the places where a small move lowers the sum of squares most are
 * fitted. A curve of another shape can look so too, so that the moved readings must also beat the
 * smooth curve through the readings as written; and readings that scatter no more than rounding to
 * two decimals does are good as they are. Nothing is moved unasked.
 *
 * Sources: [DS1998] section 1.4 and 6.3, the extra sum of squares; the limits come from the study
 * `test/bench/slips`. Deviations: none.
 */
import { akaikeCorrected } from './akaike-corrected.ts';
import { incompleteBeta } from './incomplete-beta.ts';
import type { ModelFit } from './fit-model.ts';
import { likelyMoves, movedFrom, type LikelyMove } from './likely-moves.ts';
import type { CurveModel } from './model.ts';
import { monotoneSmooth } from './monotone-smooth.ts';
import { tangentBasis } from './tangent-basis.ts';

/** Steps that must lie on either side of the place; with fewer one bad reading looks the same. */
export const FEWEST_STEPS_BESIDE = 3;
/** Places fitted. */
const PLACES_FITTED = 4;
/** AICc by which the moved readings must beat the smooth curve through those written. */
const LEAST_ADVANTAGE = 4;
/** Probability below which a step slip is told; the bound is some four times the true one. */
const LEAST_PROBABILITY = 0.03;
/** Scatter of exact densities written to two decimals: a smaller one leaves nothing to explain. */
const LEAST_SCATTER = 0.01 / Math.sqrt(12);
/** Probability of the linear part above which a place is not worth a fit. */
const NOT_WORTH_A_FIT = 0.1;

/** A step skipped or read twice. */
export interface StepSlip {
  readonly kind: 'step-skipped' | 'step-doubled';
  /** Log exposure, as written, of the first reading that seems moved. */
  readonly from: number;
  /** The density there. */
  readonly density: number;
  /** The exposures that the readings seem to belong to, in the order given. */
  readonly exposures: readonly number[];
  /** Residual standard deviation of the readings as written and as moved. */
  readonly written: number;
  readonly moved: number;
  /** Greatest probability of such a find among good readings. */
  readonly probability: number;
}

/** A curve with parameters, fitted. */
export interface FittedCurve {
  readonly model: CurveModel;
  readonly fit: ModelFit;
}

/** The form of curve that tells moved readings from others. */
export interface CurveForm {
  readonly model: CurveModel;
  readonly fit: (x: readonly number[], y: readonly number[]) => ModelFit;
}

/** Options of `stepSlip`. */
export interface StepSlipOptions {
  /**
   * A fit at hand to the readings as written, by the same form or one without some of its terms:
   * where it hints at no place, none is looked for.
   */
  readonly atHand?: FittedCurve | undefined;
}

/**
 * Looks for a step skipped or read twice.
 *
 * @param x - log exposures, -Infinity for the unexposed film
 * @param y - densities as written
 * @param form - the curve's family
 * @param options - a fit at hand
 * @returns the likeliest slip, or null
 */
export function stepSlip(
  x: readonly number[],
  y: readonly number[],
  form: CurveForm,
  { atHand }: StepSlipOptions = {},
): StepSlip | null {
  const steps = [...new Set(x.filter(Number.isFinite))].sort((a, b) => a - b);
  const m = steps.length;
  if (m < 2 * FEWEST_STEPS_BESIDE + 2) return null;
  const places = x.map((at) => steps.indexOf(at));
  const hints = atHand && promisingMoves(atHand, x, places, m);
  if (hints?.length === 0) return null;
  const known = atHand?.model === form.model ? atHand.fit : null;
  const plain = known ?? form.fit(x, y);
  const { degreesOfFreedom: v, residualSumOfSquares: square } = plain;
  const { residualStandardDeviation: written } = plain;
  if (written === null || written < LEAST_SCATTER) return null;
  const moves =
    known && hints ? hints : promisingMoves({ model: form.model, fit: plain }, x, places, m);
  let best: { move: LikelyMove; exposures: number[]; fit: ModelFit } | null = null;
  for (const move of moves) {
    const exposures = movedFrom(places, x, steps, move);
    const fit = form.fit(exposures, y);
    if (best && best.fit.residualSumOfSquares <= fit.residualSumOfSquares) continue;
    best = { move, exposures, fit };
  }
  if (!best) return null;
  const { move, exposures, fit } = best;
  const kind = move.by === 1 ? 'step-skipped' : 'step-doubled';
  const from = steps[move.k] as number;
  const probability = chanceOf(fit.residualSumOfSquares / square, v, m);
  if (!(probability < LEAST_PROBABILITY)) return null;
  const n = x.length;
  const smooth = monotoneSmooth(x, y);
  const own = akaikeCorrected(fit.residualSumOfSquares, n, n - fit.degreesOfFreedom + 1);
  const rival = akaikeCorrected(smooth.residualSumOfSquares, n, n - smooth.degreesOfFreedom);
  if (!(own + LEAST_ADVANTAGE < rival)) return null;
  const { residualStandardDeviation: moved } = fit;
  if (moved === null) return null;
  const density = y[x.indexOf(from)] as number;
  return { kind, from, density, exposures, written, moved, probability };
}

/** Moves that are worth a fit, the one that promises most first. */
function promisingMoves(
  { model, fit }: FittedCurve,
  x: readonly number[],
  places: readonly number[],
  stepCount: number,
): LikelyMove[] {
  const { degreesOfFreedom: freedom, residualSumOfSquares: square, residuals, parameters } = fit;
  if (!(freedom > 1 && square > 0)) return [];
  const basis = tangentBasis(model, x, fit);
  const gradients = x.map((at) => model.gradient(at, parameters));
  return likelyMoves({ places, stepCount, gradients, residuals, basis }, FEWEST_STEPS_BESIDE)
    .filter(({ gain }) => chanceOf(1 - gain / square, freedom, stepCount) < NOT_WORTH_A_FIT)
    .sort((one, other) => other.gain - one.gain)
    .slice(0, PLACES_FITTED);
}

/** Bound on the probability that one of the places lowers the sum of squares to this share. */
function chanceOf(ratio: number, freedom: number, stepCount: number): number {
  const one = incompleteBeta(Math.min(1, Math.max(0, ratio)), (freedom - 1) / 2, 0.5);
  return Math.min(1, 2 * (stepCount - 1) * one);
}
