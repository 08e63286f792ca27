/**
 * Do residuals run in sequences, as they do where the model has the wrong shape?
 *
 *   d = sum (e_i+1 - e_i)^2 / sum e_i^2
 *
 * over readings in order of exposure, with the mean and variance that d has when the errors are
 * independent and the model right, which for a fit with many parameters on few steps differ much
 * from 2 and 4 / n:
 *
 *   E d = tr(AM) / (n - p),  var d = 2 [(n - p) tr(AMAM) - (tr AM)^2] / [(n - p)^2 (n - p + 2)]
 *
 * A the matrix of the squared differences, M = I - Q Q'. d / 4 is taken as a beta variable with
 * these moments.
 *
 * Sources: [DW1950], the statistic and its moments; [DW1971], the beta approximation. Deviations:
 * readings of the unexposed film count in the denominator alone, as they have no order.
 */
import { incompleteBeta } from './incomplete-beta.ts';
import type { TangentBasis } from './tangent-basis.ts';

/** The test of residuals in order. */
export interface SerialCorrelation {
  /** d; small when neighbours agree in sign. */
  readonly statistic: number;
  /** Its expectation under independent errors. */
  readonly expected: number;
  /** Probability of so small a d under independent errors. */
  readonly probability: number;
}

/**
 * Tests residuals for runs.
 *
 * @param x - abscissae; -Infinity for the unexposed film
 * @param residuals - as many
 * @param basis - tangent plane of the fit
 * @returns the test, or null where fewer than four readings have an order, no degree of freedom is
 *   left, or all residuals vanish
 */
export function serialCorrelation(
  x: readonly number[],
  residuals: readonly number[],
  basis: TangentBasis,
): SerialCorrelation | null {
  const { q, rows, columns } = basis;
  const order: number[] = [];
  x.forEach((at, i) => {
    if (Number.isFinite(at)) order.push(i);
  });
  order.sort((a, b) => (x[a] as number) - (x[b] as number));
  const m = order.length;
  const freedom = rows - columns;
  let square = 0;
  for (const e of residuals) square += e * e;
  if (m < 4 || freedom < 1 || !(square > 0)) return null;

  let differences = 0;
  for (let i = 0; i + 1 < m; i++) {
    const step =
      (residuals[order[i + 1] as number] as number) - (residuals[order[i] as number] as number);
    differences += step * step;
  }
  // D Q, the differences of the basis; A Q = D'D Q.
  const dq = new Float64Array(m * columns);
  let traceQaq = 0;
  let traceQaaq = 0;
  for (let c = 0; c < columns; c++) {
    for (let i = 0; i + 1 < m; i++) {
      const step =
        (q[c * rows + (order[i + 1] as number)] as number) -
        (q[c * rows + (order[i] as number)] as number);
      dq[c * m + i] = step;
      traceQaq += step * step;
    }
    for (let i = 0; i < m; i++) {
      const left = i > 0 ? (dq[c * m + i - 1] as number) : 0;
      const right = i + 1 < m ? (dq[c * m + i] as number) : 0;
      traceQaaq += (left - right) ** 2;
    }
  }
  let traceSquare = 0;
  for (let c = 0; c < columns; c++) {
    for (let k = 0; k < columns; k++) {
      let dot = 0;
      for (let i = 0; i + 1 < m; i++) dot += (dq[c * m + i] as number) * (dq[k * m + i] as number);
      traceSquare += dot * dot;
    }
  }
  const trace = 2 * (m - 1) - traceQaq;
  const traceOfSquare = 6 * m - 8 - 2 * traceQaaq + traceSquare;
  const expected = trace / freedom;
  const variance =
    (2 * (freedom * traceOfSquare - trace * trace)) / (freedom * freedom * (freedom + 2));
  const statistic = differences / square;
  const mean = expected / 4;
  const size = (mean * (1 - mean) * 16) / variance - 1;
  const probability =
    variance > 0 && size > 0 && mean < 1
      ? incompleteBeta(Math.min(1, statistic / 4), mean * size, (1 - mean) * size)
      : 1;
  return { statistic, expected, probability };
}
