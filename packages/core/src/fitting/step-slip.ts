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
 * smooth curve through the readings as written. Nothing is moved unasked.
 *
 * Sources: [DS1998] section 1.4 and 6.3, the extra sum of squares; the limits come from the study
 * `test/bench/slips`. Deviations: none.
 */
import { akaikeCorrected } from './akaike-corrected.ts';
import { incompleteBeta } from './incomplete-beta.ts';
import type { ModelFit } from './fit-model.ts';
import type { CurveModel } from './model.ts';
import { monotoneSmooth } from './monotone-smooth.ts';
import { tangentBasis } from './tangent-basis.ts';

/** Steps that must lie on either side of the place; with fewer one bad reading looks the same. */
const FEWEST_STEPS_BESIDE = 3;
/** Places fitted for each kind of slip. */
const PLACES_FITTED = 3;
/** AICc by which the moved readings must beat the smooth curve through those written. */
const LEAST_ADVANTAGE = 4;
/** Probability below which a step slip is told; the bound is some four times the true one. */
const LEAST_PROBABILITY = 0.02;
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

type Fit = (x: readonly number[], y: readonly number[]) => FittedCurve;

/**
 * Looks for a step skipped or read twice.
 *
 * @param x - log exposures, -Infinity for the unexposed film
 * @param y - densities as written
 * @param fitReadings - fits the curve's family to readings
 * @returns the likeliest slip, or null
 */
export function stepSlip(
  x: readonly number[],
  y: readonly number[],
  fitReadings: Fit,
): StepSlip | null {
  const steps = [...new Set(x.filter(Number.isFinite))].sort((a, b) => a - b);
  const m = steps.length;
  if (m < 2 * FEWEST_STEPS_BESIDE + 2) return null;
  const plain = fitReadings(x, y);
  const v = plain.fit.degreesOfFreedom;
  const square = plain.fit.residualSumOfSquares;
  if (!(v > 1 && square > 0)) return null;
  let best: { kind: StepSlip['kind']; from: number; exposures: number[]; fit: ModelFit } | null =
    null;
  for (const [kind, by] of [
    ['step-skipped', 1],
    ['step-doubled', -1],
  ] as const) {
    for (const k of likelyPlaces(plain, x, steps, by)) {
      const exposures = movedFrom(x, steps, k, by);
      const fit = fitReadings(exposures, y).fit;
      if (best && best.fit.residualSumOfSquares <= fit.residualSumOfSquares) continue;
      best = { kind, from: steps[k] as number, exposures, fit };
    }
  }
  if (!best) return null;
  const { kind, from, exposures, fit } = best;
  const probability = chanceOf(fit.residualSumOfSquares / square, v, m);
  if (!(probability < LEAST_PROBABILITY) || fit.report.status !== 'converged') return null;
  const n = x.length;
  const smooth = monotoneSmooth(x, y);
  const own = akaikeCorrected(fit.residualSumOfSquares, n, n - fit.degreesOfFreedom + 1);
  const rival = akaikeCorrected(smooth.residualSumOfSquares, n, n - smooth.degreesOfFreedom);
  if (!(own + LEAST_ADVANTAGE < rival)) return null;
  const { residualStandardDeviation: written } = plain.fit;
  const { residualStandardDeviation: moved } = fit;
  if (written === null || moved === null) return null;
  const density = y[x.indexOf(from)] as number;
  return { kind, from, density, exposures, written, moved, probability };
}

/** Bound on the probability that one of the places lowers the sum of squares to this share. */
function chanceOf(ratio: number, freedom: number, stepCount: number): number {
  const one = incompleteBeta(Math.min(1, Math.max(0, ratio)), (freedom - 1) / 2, 0.5);
  return Math.min(1, 2 * (stepCount - 1) * one);
}

/** Exposures with all from step k on taken one step further, or one back. */
function movedFrom(
  x: readonly number[],
  steps: readonly number[],
  k: number,
  by: 1 | -1,
): number[] {
  const m = steps.length;
  const beyond = 2 * (steps[m - 1] as number) - (steps[m - 2] as number);
  const place = new Map(steps.map((at, j) => [at, j]));
  return x.map((at) => {
    const j = place.get(at) ?? -1;
    return j < k ? at : (steps[j + by] ?? beyond);
  });
}

/** Places where a small move the right way lowers the sum of squares most, by its linear part. */
function likelyPlaces(
  { model, fit }: FittedCurve,
  x: readonly number[],
  steps: readonly number[],
  by: 1 | -1,
): number[] {
  const { q, rows, columns } = tangentBasis(model, x, fit);
  const gains: { readonly k: number; readonly gain: number }[] = [];
  for (let k = FEWEST_STEPS_BESIDE; k + FEWEST_STEPS_BESIDE <= steps.length; k++) {
    const direction = x.map((at) =>
      at >= (steps[k] as number) ? by * model.gradient(at, fit.parameters) : 0,
    );
    let along = 0;
    let square = 0;
    direction.forEach((d, i) => {
      along -= d * (fit.residuals[i] as number);
      square += d * d;
    });
    for (let c = 0; c < columns; c++) {
      let dot = 0;
      direction.forEach((d, i) => (dot += d * (q[c * rows + i] as number)));
      square -= dot * dot;
    }
    // Residuals are model minus reading: moving on must raise the model where it lies too low.
    if (!(along > 0 && square > 0)) continue;
    const gain = (along * along) / square;
    const rest = 1 - gain / fit.residualSumOfSquares;
    if (chanceOf(rest, fit.degreesOfFreedom, steps.length) < NOT_WORTH_A_FIT)
      gains.push({ k, gain });
  }
  return gains
    .sort((a, b) => b.gain - a.gain)
    .slice(0, PLACES_FITTED)
    .map(({ k }) => k);
}
