/**
 * How well each strip is predicted from the others, by one step from the fit of all.
 *
 *   step without strip i   Δ = (A - A_i)^-1 g_i
 *   error                  e_i = rms_j (D(x_ij, τ_i; p + Δ) - D_ij)
 *
 * A = J'J of all residuals, A_i and g_i = J_i' r_i of the strip's own. It saves a fit for each strip
 * and form where forms are only compared; the errors of the form in use are fitted in full.
 *
 * Sources: [CW1982] the step. Deviations: whole strips are left out, since a strip's readings share
 * its development.
 */
import { cholesky, choleskySolve, toeOnly, toeShoulder } from '../../fitting/index.ts';
import { fixedOf, surfaceRows, type FittedForm, type TimedReadings } from './fit-surface-form.ts';
import { cutAt, SURFACE_SIZE } from './surface-model.ts';
import { normalMatrix } from './normal-matrix.ts';

/**
 * Mean square error of left-out strips, density squared.
 *
 * @param strips - those of the fit, at three or more times
 * @param fitted - one form
 * @param scatter - σ, of a reading
 * @returns the mean square; Infinity where a strip cannot be spared
 */
export function quickLeaveOneOut(
  strips: readonly TimedReadings[],
  fitted: FittedForm,
  scatter: number,
): number {
  const { form, parameters, shifts, timingDeviation } = fitted;
  const rows = surfaceRows(strips, form, scatter, timingDeviation);
  const { size, residualCount, firstRows } = rows;
  const p = Float64Array.from([...parameters, ...shifts]);
  const residuals = new Float64Array(residualCount);
  const jacobian = new Float64Array(residualCount * size);
  rows.evaluate(p, residuals, jacobian);
  const free = fixedOf(form, strips.length).flatMap((held, j) => (held ? [] : [j]));
  const order = free.length;
  const gramOf = (from: number, to: number): Float64Array =>
    normalMatrix(jacobian, size, free, from, to);
  const all = gramOf(0, residualCount);
  let sum = 0;
  for (const [s, strip] of strips.entries()) {
    const [from, to] = [firstRows[s] ?? 0, firstRows[s + 1] ?? 0];
    const own = gramOf(from, to);
    const left = all.map((value, at) => value - (own[at] ?? 0));
    const step = Float64Array.from(free, (j) => {
      let g = 0;
      for (let i = from; i < to; i++) g += (jacobian[i * size + j] ?? 0) * (residuals[i] ?? 0);
      return g;
    });
    if (!cholesky(left, order)) return Infinity;
    choleskySolve(left, order, step);
    const without = p.slice(0, SURFACE_SIZE);
    free.forEach((j, a) => {
      if (j < SURFACE_SIZE) without[j] = (without[j] ?? 0) + (step[a] ?? 0);
    });
    sum += squareMiss(strip, fitted, without);
  }
  return Number.isFinite(sum) ? sum / strips.length : Infinity;
}

function squareMiss(
  { minutes, celsius, x, y }: TimedReadings,
  { form }: FittedForm,
  parameters: Float64Array,
): number {
  const cut = cutAt(form, parameters, minutes, celsius);
  const model = form.hasShoulder ? toeShoulder : toeOnly;
  const squares = x.reduce(
    (total, at, k) => total + (model.value(at, cut.parameters) - (y[k] ?? 0)) ** 2,
    0,
  );
  return squares / x.length;
}
