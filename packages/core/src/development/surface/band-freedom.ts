/**
 * Degrees of freedom of a band that rests on two scatters: that of readings, of which there are many,
 * and that of whole strips, of which there are few.
 *
 *   ν = ν_ω / e²,   e = d ln V / d ln ω²
 *
 * V is the variance of the predicted density at the middle time, summed over the exposures read; ν_ω
 * the strips' worth of knowledge behind ω. Where V hardly depends on ω, little of it is uncertain.
 *
 * Sources: [SATT1946], var V = 2 V² / ν, with var ω² = 2 ω⁴ / ν_ω; the scatter of readings counts as
 * known. Deviations: one ν for the whole surface.
 */
import {
  cholesky,
  choleskyInverse,
  quadraticForm,
  toeOnly,
  toeShoulder,
} from '../../fitting/index.ts';
import { averagedCut, type AveragedCut, type WeightedLaw } from './averaged-cut.ts';
import { fixedOf, surfaceRows, type FittedForm, type TimedReadings } from './fit-surface-form.ts';
import { SURFACE_SIZE } from './surface-model.ts';
import { normalMatrix } from './normal-matrix.ts';

/** Beyond this a t quantile is the normal one. */
const MOST = 1000;
/** Factor on ω for the difference quotient. */
const STEP = 1.2;

/** A form with its share of a prediction. */
export interface SharedForm {
  readonly fitted: FittedForm;
  readonly weight: number;
}

/**
 * Degrees of freedom of the surface's band.
 *
 * @param strips - those of the fit
 * @param forms - the form in use, then the same with the other law, if any
 * @param scatter - σ, of a reading
 * @returns ν_ω or more, at most 1000
 */
export function bandFreedom(
  strips: readonly TimedReadings[],
  forms: readonly SharedForm[],
  scatter: number,
): number {
  const [first] = forms;
  if (first === undefined) return 1;
  const { form, timingFreedom } = first.fitted;
  const exposures = strips.flatMap(({ x }) => x.filter(Number.isFinite));
  const varianceAt = (factor: number): number => {
    const laws = forms.flatMap(({ fitted, weight }): WeightedLaw[] => {
      const covariance = covarianceAt(strips, fitted, scatter, factor * fitted.timingDeviation);
      return covariance === null
        ? []
        : [{ law: fitted.form.law, parameters: fitted.parameters, covariance, weight }];
    });
    const cut =
      laws.length === 0 ? null : averagedCut(form, laws, form.centreMinutes, form.referenceCelsius);
    return cut === null ? 0 : meanVariance(cut, form.hasShoulder, exposures);
  };
  const [low, high] = [varianceAt(1 / STEP), varianceAt(STEP)];
  // ln ω² differs by four times ln STEP.
  const elasticity = low > 0 && high > low ? Math.log(high / low) / (4 * Math.log(STEP)) : 1;
  return Math.min(MOST, timingFreedom / elasticity ** 2);
}

/** Covariance of the surface's parameters, were the strips to scatter by ω; row-major. */
function covarianceAt(
  strips: readonly TimedReadings[],
  { form, parameters, shifts }: FittedForm,
  scatter: number,
  omega: number,
): number[] | null {
  const rows = surfaceRows(strips, form, scatter, omega);
  const { size, residualCount } = rows;
  const jacobian = new Float64Array(residualCount * size);
  rows.evaluate(
    Float64Array.from([...parameters, ...shifts]),
    new Float64Array(residualCount),
    jacobian,
  );
  const free = fixedOf(form, strips.length).flatMap((held, j) => (held ? [] : [j]));
  const order = free.length;
  const gram = normalMatrix(jacobian, size, free, 0, residualCount);
  if (!cholesky(gram, order)) return null;
  const inverse = choleskyInverse(gram, order);
  const covariance = Array.from({ length: SURFACE_SIZE ** 2 }, () => 0);
  free.forEach((row, a) => {
    if (row >= SURFACE_SIZE) return;
    free.forEach((column, b) => {
      if (column < SURFACE_SIZE)
        covariance[row * SURFACE_SIZE + column] = inverse[a * order + b] ?? 0;
    });
  });
  return covariance;
}

/** Mean variance of the density over exposures. */
function meanVariance(
  { parameters, covariance }: AveragedCut,
  hasShoulder: boolean,
  exposures: readonly number[],
): number {
  const model = hasShoulder ? toeShoulder : toeOnly;
  const gradient = new Float64Array(parameters.length);
  const sum = exposures.reduce((total, x) => {
    model.derivatives(x, parameters, gradient);
    return total + quadraticForm(gradient, covariance);
  }, 0);
  return sum / exposures.length;
}
