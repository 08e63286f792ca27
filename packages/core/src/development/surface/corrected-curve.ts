/**
 * A cut of the surface with its correction, as one rising spline.
 *
 *   c = (B'B)^-1 B' d,   d = cut + correction on a fine grid
 *   covariance of c = M (J C J' + R V R') M',   M = (B'B)^-1 B'
 *
 * Sources: delta method, [Seber2003] section 5.1. Deviations: coefficients that would fall are held
 * level, as in the spline of a strip.
 */
import type { CharacteristicCurve } from '../../curve/index.ts';
import {
  cholesky,
  choleskySolve,
  monotoneSmoothModel,
  toeOnly,
  toeShoulder,
} from '../../fitting/index.ts';
import { correctionAt, correctionRow, type ShapeCorrection } from './shape-correction.ts';

/** Cells of the spline for one unit of log exposure. */
const CELLS_PER_UNIT = 8;
const POINTS_PER_CELL = 4;

export function correctedCurve(
  parameters: readonly number[],
  covariance: readonly number[],
  correction: ShapeCorrection,
  time: number,
  [first, last]: readonly [number, number],
): Pick<CharacteristicCurve, 'parameters' | 'parameterNames' | 'covariance' | 'knots'> {
  const cutModel = parameters.length > 4 ? toeShoulder : toeOnly;
  const [, , toe = first, width = 0.1] = parameters;
  // From where the cut lies on base + fog, so that the spline may begin there without a slope.
  const from = Math.max(first - 3, Math.min(first, toe - 7 * width));
  const cells = Math.max(4, Math.ceil(CELLS_PER_UNIT * (last - from)));
  const knots = Array.from({ length: cells + 1 }, (_, i) => from + ((last - from) * i) / cells);
  const model = monotoneSmoothModel(knots);
  const size = knots.length;
  const grid = Array.from(
    { length: cells * POINTS_PER_CELL + 1 },
    (_, i) => from + ((last - from) * i) / (cells * POINTS_PER_CELL),
  );
  const rows = grid.map((x) => {
    const basis = new Float64Array(size);
    model.derivatives(x, new Float64Array(size), basis);
    const byCut = new Float64Array(parameters.length);
    const value = cutModel.derivatives(x, parameters, byCut);
    const byCorrection = correctionRow(correction, Math.max(x, first), time);
    const added = correctionAt(correction, x, time);
    return { basis, byCut, byCorrection, density: value + added };
  });
  const gram = new Float64Array(size * size);
  for (const { basis } of rows) {
    for (let i = 0; i < size; i++) {
      const own = basis[i] ?? 0;
      if (own === 0) continue;
      for (let j = 0; j < size; j++) {
        gram[i * size + j] = (gram[i * size + j] ?? 0) + own * (basis[j] ?? 0);
      }
    }
  }
  cholesky(gram, size);
  const project = (of: (row: (typeof rows)[number]) => number): Float64Array => {
    const right = new Float64Array(size);
    for (const row of rows) {
      const value = of(row);
      row.basis.forEach((own, i) => {
        right[i] = (right[i] ?? 0) + own * value;
      });
    }
    choleskySolve(gram, size, right);
    return right;
  };
  const coefficients = Array.from(project(({ density }) => density));
  for (let i = 1; i < size; i++) {
    coefficients[i] = Math.max(coefficients[i] ?? 0, coefficients[i - 1] ?? 0);
  }
  const byCut = parameters.map((_, j) => project((row) => row.byCut[j] ?? 0));
  const byCorrection = correction.coefficients.map((_, j) =>
    project((row) => row.byCorrection[j] ?? 0),
  );
  const total = new Float64Array(size * size);
  addSandwich(total, byCut, covariance);
  addSandwich(total, byCorrection, correction.covariance);
  return {
    parameters: coefficients,
    parameterNames: model.parameterNames,
    covariance: Array.from(total),
    knots,
  };
}

/** total += G' C G for columns G. */
function addSandwich(
  total: Float64Array,
  columns: readonly Float64Array[],
  covariance: readonly number[],
): void {
  const count = columns.length;
  const size = Math.sqrt(total.length);
  columns.forEach((left, a) => {
    const inner = new Float64Array(size);
    columns.forEach((right, b) => {
      const entry = covariance[a * count + b] ?? 0;
      if (entry === 0) return;
      for (let j = 0; j < size; j++) inner[j] = (inner[j] ?? 0) + entry * (right[j] ?? 0);
    });
    for (let i = 0; i < size; i++) {
      const own = left[i] ?? 0;
      for (let j = 0; j < size; j++) {
        total[i * size + j] = (total[i * size + j] ?? 0) + own * (inner[j] ?? 0);
      }
    }
  });
}
