/**
 * The tangent plane of a fitted model at its minimum, as an orthonormal basis: what leverages,
 * studentised residuals and tests of residuals are made of.
 *
 *   J = Q R,  hat matrix H = Q Q'
 *
 * Sources: [BW1988] section 2.2. Deviations: none.
 */
import type { FittedFunction } from './model.ts';

/** An orthonormal basis: `columns` vectors of length `rows`, column-major. */
export interface TangentBasis {
  readonly q: Float64Array;
  readonly rows: number;
  readonly columns: number;
}

/**
 * The tangent plane of a fit.
 *
 * @param model - the model fitted
 * @param x - abscissae of the readings
 * @param fit - parameters, and which of them are held by a bound
 * @param roots - roots of the weights, where they are not all 1
 */
export function tangentBasis(
  model: FittedFunction,
  x: readonly number[],
  fit: { readonly parameters: readonly number[]; readonly atBound: readonly boolean[] },
  roots?: readonly number[],
): TangentBasis {
  const count = fit.parameters.length;
  const rows = x.length;
  const natural = Float64Array.from(fit.parameters);
  const chain = new Float64Array(count * count);
  const { inner } = model;
  if (inner) inner.toNatural(inner.fromNatural(fit.parameters), natural, chain);
  else for (let j = 0; j < count; j++) chain[j * count + j] = 1;
  const free: number[] = [];
  fit.atBound.forEach((held, j) => {
    if (!held) free.push(j);
  });
  const q = new Float64Array(rows * free.length);
  const row = new Float64Array(count);
  for (let i = 0; i < rows; i++) {
    model.derivatives(x[i] as number, natural, row);
    for (let column = 0; column < free.length; column++) {
      const j = free[column] as number;
      let sum = 0;
      for (let k = 0; k < count; k++) sum += (row[k] as number) * (chain[k * count + j] as number);
      q[column * rows + i] = sum * (roots?.[i] ?? 1);
    }
  }
  return orthonormalise(q, rows, free.length);
}

/** Gram and Schmidt's process, twice over; columns that add nothing are left out. */
function orthonormalise(q: Float64Array, rows: number, columns: number): TangentBasis {
  let kept = 0;
  for (let j = 0; j < columns; j++) {
    const start = j * rows;
    let before = 0;
    for (let i = 0; i < rows; i++) before += (q[start + i] as number) ** 2;
    for (let pass = 0; pass < 2; pass++) {
      for (let k = 0; k < kept; k++) {
        let dot = 0;
        for (let i = 0; i < rows; i++) {
          dot += (q[k * rows + i] as number) * (q[start + i] as number);
        }
        for (let i = 0; i < rows; i++) {
          q[start + i] = (q[start + i] as number) - dot * (q[k * rows + i] as number);
        }
      }
    }
    let square = 0;
    for (let i = 0; i < rows; i++) square += (q[start + i] as number) ** 2;
    if (!(square > 1e-20 * before)) continue;
    const factor = 1 / Math.sqrt(square);
    for (let i = 0; i < rows; i++) q[kept * rows + i] = (q[start + i] as number) * factor;
    kept++;
  }
  return { q, rows, columns: kept };
}
