/**
 * One form of the development surface, fitted to all readings of all strips at once.
 *
 *   minimise Σ (D(x_ij, τ_i; p) - D_ij)²
 *
 * Sources: see `surface-model.ts`. Deviations: none.
 */
import { leastSquares, toeOnly, toeShoulder } from '../../fitting/index.ts';
import {
  cutAt,
  leastSeparation,
  SURFACE_SIZE,
  type SurfaceFrame,
  type SurfaceCut,
} from './surface-model.ts';

/** Readings of one strip in the order that the fits take, unexposed ones at -Infinity. */
export interface TimedReadings {
  readonly minutes: number;
  readonly celsius: number;
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/** What is free in a form, beside what its law and shoulder need. */
export interface SurfaceForm extends SurfaceFrame {
  readonly toe: 'shared' | 'by-time';
  readonly freeDelay: boolean;
  readonly freeTemperature: boolean;
}

export interface FittedForm {
  readonly form: SurfaceForm;
  readonly parameters: readonly number[];
  /** Row-major, zero for what was held. */
  readonly covariance: readonly number[];
  readonly residualStandardDeviation: number;
  readonly degreesOfFreedom: number;
}

/**
 * Fits one form.
 *
 * @param strips - strips at two or more times
 * @param form - law, shoulder, what is free
 * @param start - parameters of the surface to start from
 * @returns the fit, or null where the readings do not determine the form
 */
export function fitSurfaceForm(
  strips: readonly TimedReadings[],
  form: SurfaceForm,
  start: readonly number[],
): FittedForm | null {
  const residualCount = strips.reduce((sum, { x }) => sum + x.length, 0);
  const model = form.hasShoulder ? toeShoulder : toeOnly;
  const rows = form.hasShoulder ? 6 : 4;
  const byCurve = new Float64Array(rows);
  const { lower, upper } = boundsOf(form, strips);
  const fit = leastSquares(
    {
      residualCount,
      start: start.map((value, j) =>
        Math.min(upper[j] ?? Infinity, Math.max(lower[j] ?? -Infinity, value)),
      ),
      lower,
      upper,
      fixed: fixedOf(form),
      evaluate: (p, residuals, jacobian) => {
        let i = 0;
        for (const { minutes, celsius, x, y } of strips) {
          const cut = cutAt(form, p, minutes, celsius);
          for (let k = 0; k < x.length; k++, i++) {
            const value = model.derivatives(x[k] as number, cut.parameters, byCurve);
            residuals[i] = value - (y[k] as number);
            chain(byCurve, cut, jacobian, i * SURFACE_SIZE);
          }
        }
      },
    },
    { maxIterations: 60 },
  );
  const { covariance, residualStandardDeviation, report } = fit;
  if (report.status !== 'converged' || covariance === null) return null;
  if (residualStandardDeviation === null || degenerate(form, fit, strips)) return null;
  const { parameters, degreesOfFreedom } = fit;
  return { form, parameters, covariance, residualStandardDeviation, degreesOfFreedom };
}

/** Row of the Jacobian: derivatives by the curve's parameters times those by the surface's. */
function chain(
  byCurve: Float64Array,
  { parameters, jacobian }: SurfaceCut,
  out: Float64Array,
  offset: number,
): void {
  for (let j = 0; j < SURFACE_SIZE; j++) {
    let sum = 0;
    for (let row = 0; row < parameters.length; row++) {
      sum += (byCurve[row] as number) * (jacobian[row * SURFACE_SIZE + j] as number);
    }
    out[offset + j] = sum;
  }
}

function fixedOf({ law, hasShoulder, toe, freeDelay, freeTemperature }: SurfaceForm): boolean[] {
  const fixed = Array.from({ length: SURFACE_SIZE }, () => false);
  fixed[4] = law === 'log-linear' || !freeDelay;
  fixed[8] = toe === 'shared';
  fixed[9] = fixed[11] = !hasShoulder;
  fixed[10] = !hasShoulder || toe === 'shared';
  fixed[12] = !freeTemperature;
  return fixed;
}

function boundsOf(
  { law }: SurfaceForm,
  strips: readonly TimedReadings[],
): { lower: number[]; upper: number[] } {
  const first = Math.min(...strips.map(({ minutes }) => minutes));
  const firstOrder = law === 'first-order';
  const narrowest = Math.log(1e-3);
  const widest = Math.log(3);
  const free = Infinity;
  return {
    lower: [
      ...[-free, -free, firstOrder ? 1e-3 : -free, firstOrder ? 1e-4 : 1e-4, -first],
      ...[-free, -free, narrowest, -3, 0, -5, narrowest, 1],
    ],
    upper: [
      ...[free, free, firstOrder ? 20 : free, 20, 0.999 * first],
      ...[free, free, widest, 3, 20, 5, widest, 6],
    ],
  };
}

/** A law that ran to its bound, or a shoulder that the curve would dip at. */
function degenerate(
  form: SurfaceForm,
  fit: { readonly parameters: readonly number[]; readonly atBound: readonly boolean[] },
  strips: readonly TimedReadings[],
): boolean {
  if (form.law === 'first-order' && (fit.atBound[2] === true || fit.atBound[3] === true)) {
    return true;
  }
  return strips.some(({ minutes, celsius }) => {
    const [, slope = 0, toe = 0, width = 0, shoulder, shoulderWidth = 0] = cutAt(
      form,
      fit.parameters,
      minutes,
      celsius,
    ).parameters;
    if (!(slope > 0)) return true;
    return shoulder !== undefined && shoulder - toe < leastSeparation(width, shoulderWidth);
  });
}
