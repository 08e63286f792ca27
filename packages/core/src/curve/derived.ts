/**
 * Building blocks of measures: numbers on a curve that carry their derivatives by its parameters,
 * so that every measure written with them has a delta-method error without finite differences.
 *
 *   x with D(x) = t(p):      dx/dp = (dt/dp - ∂D/∂p) / D'(x)
 *   D at a moving x(p):      dD/dp = ∂D/∂p + D'(x) dx/dp
 *
 * Sources: implicit function theorem; [Seber2003] section 5.1. Deviations: none.
 */
import type { CharacteristicCurve } from './characteristic-curve.ts';
import { logExposureAt } from './log-exposure-at.ts';
import type { Derived } from './measure.ts';
import { functionOf } from './function-of.ts';

/** A number that does not depend on the parameters. */
export function constant(curve: CharacteristicCurve, value: number): Derived {
  return { value, derivatives: new Float64Array(curve.parameters.length) };
}

/** a + factor b. */
export function plus(a: Derived, b: Derived, factor = 1): Derived {
  return {
    value: a.value + factor * b.value,
    derivatives: combined(a.derivatives, 1, b.derivatives, factor),
  };
}

/** a + an exact number. */
export function shifted(a: Derived, by: number): Derived {
  return { value: a.value + by, derivatives: a.derivatives };
}

/** factor a. */
export function scaled(a: Derived, factor: number): Derived {
  return { value: factor * a.value, derivatives: multiplied(a.derivatives, factor) };
}

/** f(a) with f' = slope at a. */
export function through(a: Derived, value: number, slope: number): Derived {
  return { value, derivatives: multiplied(a.derivatives, slope) };
}

/** a / b. */
export function quotient(a: Derived, b: Derived): Derived {
  const value = a.value / b.value;
  return {
    value,
    derivatives: combined(a.derivatives, 1 / b.value, b.derivatives, -value / b.value),
  };
}

/** fa + gb; a loop, as the array's own `map` takes several times as long. */
function combined(a: Float64Array, f: number, b: Float64Array, g: number): Float64Array {
  const sum = new Float64Array(a.length);
  for (let j = 0; j < a.length; j++) sum[j] = f * (a[j] ?? 0) + g * (b[j] ?? 0);
  return sum;
}

function multiplied(a: Float64Array, factor: number): Float64Array {
  const product = new Float64Array(a.length);
  for (let j = 0; j < a.length; j++) product[j] = factor * (a[j] ?? 0);
  return product;
}

/** Density of the unexposed material, base + fog. */
export function derivedBaseFog(curve: CharacteristicCurve): Derived {
  const derivatives = new Float64Array(curve.parameters.length);
  return { value: functionOf(curve).baseFog(curve.parameters, derivatives), derivatives };
}

/** Density at a log exposure that may itself depend on the parameters. */
export function derivedDensity(curve: CharacteristicCurve, at: Derived): Derived {
  const model = functionOf(curve);
  const derivatives = new Float64Array(curve.parameters.length);
  const value = model.derivatives(at.value, curve.parameters, derivatives);
  const gradient = model.gradient(at.value, curve.parameters);
  for (let j = 0; j < derivatives.length; j++) {
    derivatives[j] = (derivatives[j] ?? 0) + gradient * (at.derivatives[j] ?? 0);
  }
  return { value, derivatives };
}

/**
 * Log exposure at which the curve reaches a density that may itself depend on the parameters; null
 * where it does not, or touches it without rising.
 */
export function derivedLogExposure(curve: CharacteristicCurve, density: Derived): Derived | null {
  const x = logExposureAt(curve, density.value);
  if (x === null) return null;
  const model = functionOf(curve);
  const gradient = model.gradient(x, curve.parameters);
  if (!(gradient > 0)) return null;
  const derivatives = new Float64Array(curve.parameters.length);
  model.derivatives(x, curve.parameters, derivatives);
  for (let j = 0; j < derivatives.length; j++) {
    derivatives[j] = ((density.derivatives[j] ?? 0) - (derivatives[j] ?? 0)) / gradient;
  }
  return { value: x, derivatives };
}

/** Log exposure at which the curve stands `net` above base + fog. */
export function derivedNetPoint(curve: CharacteristicCurve, net: number): Derived | null {
  return derivedLogExposure(curve, shifted(derivedBaseFog(curve), net));
}
