/**
 * A step skipped or read twice on a strip that no family fits, such as one of two emulsions: the same
 * smooth curve is laid through the readings as written and as moved from each place, and their
 * restricted likelihoods are compared.
 *
 *   R = -2 ln L(written) + 2 ln L(moved)
 *
 * Neither has a number more than the other, so that among good readings R exceeds a limit with the
 * probability that a normal deviate exceeds its root, at most, and place by place.
 *
 * Sources: [WOOD2011] the restricted likelihood; the limit comes from the study `test/bench/slips`.
 * Deviations: none.
 */
import { movedFrom } from './likely-moves.ts';
import { monotoneSmooth, smoothScore } from './monotone-smooth.ts';
import { FEWEST_STEPS_BESIDE, type StepSlip } from './step-slip.ts';
import { studentTUpperTail } from './student-t-quantile.ts';

/** Least R that is told. */
const LEAST_RATIO = 16;

/**
 * Looks for a step skipped or read twice by the smooth curve.
 *
 * @param x - log exposures, -Infinity for the unexposed film
 * @param y - densities as written
 * @returns the likeliest slip, or null
 */
export function stepSlipBySmooth(x: readonly number[], y: readonly number[]): StepSlip | null {
  const steps = [...new Set(x.filter(Number.isFinite))].sort((a, b) => a - b);
  const m = steps.length;
  if (m < 2 * FEWEST_STEPS_BESIDE + 2) return null;
  const places = x.map((at) => steps.indexOf(at));
  const asWritten = monotoneSmooth(x, y);
  const freedom = Math.max(1, asWritten.degreesOfFreedom);
  let best: StepSlip | null = null;
  let least = asWritten.restrictedScore - LEAST_RATIO;
  for (let k = FEWEST_STEPS_BESIDE; k + FEWEST_STEPS_BESIDE <= m; k++) {
    for (const by of [1, -1] as const) {
      const exposures = movedFrom(places, x, steps, { k, by });
      if (!(smoothScore(exposures, y) < least)) continue;
      const moved = monotoneSmooth(exposures, y);
      const { residualStandardDeviation: written } = asWritten;
      const { residualStandardDeviation } = moved;
      if (written === null || residualStandardDeviation === null) continue;
      least = moved.restrictedScore;
      const from = steps[k] as number;
      const ratio = asWritten.restrictedScore - least;
      best = {
        kind: by === 1 ? 'step-skipped' : 'step-doubled',
        from,
        density: y[x.indexOf(from)] as number,
        exposures,
        written,
        moved: residualStandardDeviation,
        probability: Math.min(1, 2 * (m - 1) * studentTUpperTail(Math.sqrt(ratio), freedom)),
      };
    }
  }
  return best;
}
