/**
 * Fits the layers of a variable-contrast paper to strips printed by soft light, by hard light, or
 * by both.
 *
 *   minimise Σ (D(x_h, x_s; p) - density)²
 *
 * Two, three and four layers are tried, alike and drifting in contrast and hard speed; the form with
 * the least AICc is taken.
 *
 * Sources: see `variable-contrast-paper.ts`; [BA2002] section 2.4 for AICc, section 2.9 for weights.
 * Deviations: makers speak of several emulsions without a number, so that the strips choose it. The
 * errors of the parameters are those of the chosen form; the others stand beside it as companions,
 * for what is derived from the fit.
 */
import { InvalidArgumentError } from '../../errors.ts';
import type { Estimate } from '../../estimate.ts';
import {
  akaikeCorrected,
  akaikeWeights,
  leastSquares,
  type LeastSquaresFit,
} from '../../fitting/index.ts';
import {
  BEFORE_GAPS,
  mixtureDerivatives,
  paperOfParameters,
  parameterNames,
  type LayerForm,
} from './layer-form.ts';
import type { MixedExposure, VariableContrastPaper } from './variable-contrast-paper.ts';

/** One step of a strip: what light it got and the density read. */
export interface VariableContrastReading extends MixedExposure {
  readonly density: number;
}

export interface VariableContrastFit {
  readonly status: 'ok' | 'not-determined';
  /** Why nothing was fitted; null with a fit. */
  readonly reason: 'too-few-readings' | 'one-light-only' | 'not-converged' | null;
  readonly paper: VariableContrastPaper | null;
  readonly form: LayerForm;
  readonly parameters: readonly (Estimate & { readonly name: string })[];
  readonly residualStandardDeviation: number | null;
  readonly degreesOfFreedom: number;
  /** Covariance of the parameters, row by row; null where none can be stated. */
  readonly covariance: readonly number[] | null;
  /** Akaike weight of the chosen form among all that were usable; 1 where it is alone. */
  readonly weight: number;
  /** The other forms. */
  readonly companions: readonly LayerCompanion[];
}

/** Another form of layers, fitted to the same strips. */
export interface LayerCompanion {
  readonly paper: VariableContrastPaper;
  readonly form: LayerForm;
  /** In the order of `parameterNames`. */
  readonly parameters: readonly number[];
  readonly covariance: readonly number[] | null;
  /** Akaike weight. */
  readonly weight: number;
}

const ALIKE: LayerForm = { layers: 3, drifts: false };
/** Forms that are tried. */
const FORMS: readonly LayerForm[] = [false, true].flatMap((drifts) =>
  [2, 3, 4].map((layers) => ({ layers, drifts })),
);
/** Contrasts of the layers differ by a factor of e² at most, their hard speeds by a log unit. */
const GREATEST_DRIFT = { logContrast: 2, hardLogSpeed: 1 } as const;
/**
 * Companions of less weight are left out: the strips speak against them, and a form that they hardly
 * determine would widen every error by its own.
 */
const LEAST_WEIGHT = 0.02;

/**
 * Fits a paper.
 *
 * @param readings - steps of at least a soft-only and a hard-only strip (or mixed ones), 12 or more
 * @returns the paper with the errors of its parameters, or why there is none
 * @throws InvalidArgumentError if a density is not finite or a step got no light
 */
export function fitVariableContrast(
  readings: readonly VariableContrastReading[],
): VariableContrastFit {
  for (const { density, hardLogExposure, softLogExposure } of readings) {
    if (!Number.isFinite(density)) {
      throw new InvalidArgumentError('fitVariableContrast', 'density', density, 'finite');
    }
    const most = Math.max(hardLogExposure, softLogExposure);
    if (!Number.isFinite(most)) {
      throw new InvalidArgumentError('fitVariableContrast', 'exposure', most, 'of some light');
    }
  }
  const hard = readings.filter(({ hardLogExposure }) => hardLogExposure > -Infinity);
  const soft = readings.filter(({ softLogExposure }) => softLogExposure > -Infinity);
  if (readings.length < 12) return nothing('too-few-readings');
  if (hard.length < 4 || soft.length < 4) return nothing('one-light-only');

  const densities = readings.map(({ density }) => density);
  const minimum = Math.min(...densities);
  const net = Math.max(...densities) - minimum;
  const half = minimum + net / 2;
  const hardHalf = nearest(hard, half)?.hardLogExposure ?? 0;
  const softHalf = nearest(soft, half)?.softLogExposure ?? 0;
  const start = [minimum, net, Math.log(8), -hardHalf, -softHalf + 0.5];
  const candidates = FORMS.flatMap((form) => {
    const fit = fitLayers(readings, start, form);
    const { status } = fit.report;
    if (status !== 'converged' && status !== 'rank-deficient') return [];
    const criterion = akaikeCorrected(
      fit.residualSumOfSquares,
      readings.length,
      fit.parameters.length,
    );
    return [{ form, fit, criterion }];
  });
  // A form that the strips do not determine is taken only where none is determined.
  const determined = candidates.filter(({ fit }) => fit.covariance !== null);
  const usable = determined.length > 0 ? determined : candidates;
  const [first, ...others] = usable;
  if (first === undefined) return nothing('not-converged');
  const chosen = others.reduce((a, b) => (b.criterion < a.criterion ? b : a), first);
  const { form, fit } = chosen;
  const weights = akaikeWeights(usable.map(({ criterion }) => criterion));
  const companions = usable.flatMap((other, i): LayerCompanion[] => {
    const weight = weights[i] ?? 0;
    if (other === chosen || !(weight > LEAST_WEIGHT)) return [];
    const { parameters, covariance } = other.fit;
    return [
      {
        paper: paperOfParameters(other.form, parameters),
        form: other.form,
        parameters: [...parameters],
        covariance,
        weight,
      },
    ];
  });
  return {
    status: 'ok',
    reason: null,
    paper: paperOfParameters(form, fit.parameters),
    form,
    parameters: parameterNames(form).map((name, j) => ({
      name,
      value: fit.parameters[j] ?? 0,
      standardError: fit.standardErrors[j] ?? null,
    })),
    residualStandardDeviation: fit.residualStandardDeviation,
    degreesOfFreedom: fit.degreesOfFreedom,
    covariance: fit.covariance,
    weight: weights[usable.indexOf(chosen)] ?? 1,
    companions,
  };
}

function fitLayers(
  readings: readonly VariableContrastReading[],
  before: readonly number[],
  form: LayerForm,
): LeastSquaresFit {
  const { layers, drifts } = form;
  // The spread of the soft speeds is much the same however many layers share it.
  const gaps = Array.from({ length: layers - 1 }, () => 1 / (layers - 1));
  const start = [...before, ...gaps, ...(drifts ? [0, 0] : [])];
  const count = start.length;
  const most = [GREATEST_DRIFT.logContrast, GREATEST_DRIFT.hardLogSpeed];
  const driftAt = (j: number): number | undefined => most[j - BEFORE_GAPS - gaps.length];
  return leastSquares({
    residualCount: readings.length,
    start,
    lower: start.map((_, j) => {
      const drift = driftAt(j);
      if (drift !== undefined) return -drift;
      return j === 1 ? 1e-3 : j >= BEFORE_GAPS ? 0 : -Infinity;
    }),
    upper: start.map((_, j) => driftAt(j) ?? (j === 2 ? Math.log(100) : Infinity)),
    evaluate(p, residuals, jacobian) {
      readings.forEach((reading, i) => {
        residuals[i] = mixtureDerivatives(form, p, reading, jacobian, i * count) - reading.density;
      });
    },
  });
}

function nothing(reason: NonNullable<VariableContrastFit['reason']>): VariableContrastFit {
  return {
    status: 'not-determined',
    reason,
    paper: null,
    form: ALIKE,
    parameters: [],
    residualStandardDeviation: null,
    degreesOfFreedom: 0,
    covariance: null,
    weight: 1,
    companions: [],
  };
}

function nearest(
  readings: readonly VariableContrastReading[],
  density: number,
): VariableContrastReading | undefined {
  let best = readings[0];
  for (const reading of readings) {
    const isNearer =
      best !== undefined && Math.abs(reading.density - density) < Math.abs(best.density - density);
    if (isNearer) best = reading;
  }
  return best;
}
