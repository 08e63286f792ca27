/**
 * The default curve: `toe-shoulder` with its shoulder where the readings show one and without it
 * where they do not, each form the other's companion as far as the readings leave the choice open.
 *
 *   w_i = exp(-Δ_i / 2) / Σ exp(-Δ / 2),   Δ from AICc
 *
 * Sources: [BA2002] sections 2.9 and 4.3: Akaike weights and unconditional variance. Deviations:
 * the form with the greater weight is drawn and quoted; the other only widens the errors.
 */
import {
  akaikeCorrected,
  fitModel,
  toeOnly,
  toeShoulder,
  type ModelFit,
} from '../fitting/index.ts';
import type { CharacteristicCurve } from './characteristic-curve.ts';
import { curveFromFit } from './curve-from-fit.ts';
import type { SortedReadings } from './sort-readings.ts';

/** Weights below this change no error in its second digit. */
const NEGLIGIBLE_WEIGHT = 0.01;
/**
 * Standard deviation below which readings are called exact: nobody reads a density finer. It keeps
 * the choice between two perfect fits from resting on rounding.
 */
const FINEST_READING = 1e-5;

/**
 * Fits the default curve.
 *
 * @returns the curve, or null where neither form can be fitted
 */
export function toeShoulderCurve(readings: SortedReadings): CharacteristicCurve | null {
  const { x, y } = readings;
  const forms = [toeOnly, toeShoulder]
    .filter((model) => x.length >= model.parameterNames.length)
    .map((model) => {
      const fit = fitModel(model, x, y);
      return {
        curve: curveFromFit('toe-shoulder', model.parameterNames, fit, readings),
        usable: isUsable(fit),
        criterion: akaikeCorrected(
          Math.max(fit.residualSumOfSquares, x.length * FINEST_READING ** 2),
          x.length,
          model.parameterNames.length,
        ),
      };
    })
    .filter((form) => form.usable);
  const best = forms.reduce((least, form) => Math.min(least, form.criterion), Infinity);
  const weighted = forms
    .map((form) => ({ curve: form.curve, raw: Math.exp((best - form.criterion) / 2) }))
    .sort((a, b) => b.raw - a.raw);
  const lead = weighted[0];
  if (lead === undefined) return null;
  const kept = weighted.slice(1).filter((form) => form.raw >= NEGLIGIBLE_WEIGHT);
  const total = lead.raw + kept.reduce((sum, form) => sum + form.raw, 0);
  return {
    ...lead.curve,
    weight: lead.raw / total,
    companions: kept.map((form) => ({ curve: form.curve, weight: form.raw / total })),
  };
}

function isUsable(fit: ModelFit): boolean {
  // A width at its bound is a hard corner, determined well enough; a rank that is short is not.
  return fit.report.status === 'converged' && fit.parameters.every(Number.isFinite);
}
