/**
 * Householder QR that keeps its reflections, so that Q and Q' can be applied again.
 *
 *   H_k = I - f_k v_k v_k',  v_k = (1, below the diagonal of column k)
 *
 * Sources: [GVL2013] section 5.2. Deviations: none.
 */

/**
 * Factorises in place.
 *
 * @param a - column-major rows x columns; R above, the reflections below the diagonal
 * @param factors - receives f_k
 */
export function householderQr(
  a: Float64Array,
  rows: number,
  columns: number,
  factors: Float64Array,
): void {
  for (let k = 0; k < columns; k++) {
    const start = k * rows;
    let square = 0;
    for (let i = k; i < rows; i++) square += (a[start + i] as number) ** 2;
    const head = a[start + k] as number;
    const alpha = head > 0 ? -Math.sqrt(square) : Math.sqrt(square);
    if (alpha === 0) {
      factors[k] = 0;
      continue;
    }
    const v0 = head - alpha;
    for (let i = k + 1; i < rows; i++) a[start + i] = (a[start + i] as number) / v0;
    factors[k] = -v0 / alpha;
    a[start + k] = alpha;
    for (let j = k + 1; j < columns; j++) reflect(a, start, rows, k, factors, a, j * rows);
  }
}

/** b <- Q'b, or b <- Q b where `backwards` is true. */
export function applyReflections(
  a: Float64Array,
  rows: number,
  columns: number,
  factors: Float64Array,
  b: Float64Array,
  backwards: boolean,
): void {
  for (let step = 0; step < columns; step++) {
    const k = backwards ? columns - 1 - step : step;
    reflect(a, k * rows, rows, k, factors, b, 0);
  }
}

/** b <- R^-1 b. */
export function backSubstitute(
  a: Float64Array,
  rows: number,
  columns: number,
  b: Float64Array,
): void {
  for (let i = columns - 1; i >= 0; i--) {
    let sum = b[i] as number;
    for (let j = i + 1; j < columns; j++) sum -= (a[j * rows + i] as number) * (b[j] as number);
    b[i] = sum / (a[i * rows + i] as number);
  }
}

/** b <- R^-T b. */
export function forwardSubstitute(
  a: Float64Array,
  rows: number,
  columns: number,
  b: Float64Array,
): void {
  for (let i = 0; i < columns; i++) {
    let sum = b[i] as number;
    for (let j = 0; j < i; j++) sum -= (a[i * rows + j] as number) * (b[j] as number);
    b[i] = sum / (a[i * rows + i] as number);
  }
}

function reflect(
  a: Float64Array,
  start: number,
  rows: number,
  k: number,
  factors: Float64Array,
  target: Float64Array,
  targetStart: number,
): void {
  let dot = target[targetStart + k] as number;
  for (let i = k + 1; i < rows; i++) {
    dot += (a[start + i] as number) * (target[targetStart + i] as number);
  }
  dot *= factors[k] as number;
  target[targetStart + k] = (target[targetStart + k] as number) - dot;
  for (let i = k + 1; i < rows; i++) {
    target[targetStart + i] = (target[targetStart + i] as number) - dot * (a[start + i] as number);
  }
}
