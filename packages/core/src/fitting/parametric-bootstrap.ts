/**
 * Parametric bootstrap: readings are invented from the fitted curve with its own scatter, and each
 * set is fitted anew. The spread of the parameters checks their standard errors, and any measure
 * taken from them, without a linear approximation.
 *
 *   y*_i = f(x_i; p) + s z_i,  z_i standard normal
 *
 * Sources: [ET1993] section 6.5. Deviations: fits start at the estimate and stop at a relative
 * offset of 1e-4, a ten-thousandth of a standard error.
 */
import { InvalidArgumentError } from '../errors.ts';
import { fitModel, type ModelFit } from './fit-model.ts';
import type { Model } from './model.ts';
import { randomNormal } from './random-normal.ts';

/** Options of `parametricBootstrap`. */
export interface BootstrapOptions {
  /** Sets of readings, default 1,000. */
  readonly replicates?: number | undefined;
  /** Seed of the random numbers, default 1. */
  readonly seed?: number | undefined;
}

/** The fitted parameters of every set. */
export interface Bootstrap {
  /** One row a set that could be fitted. */
  readonly parameters: readonly (readonly number[])[];
  /** Sets whose fit did not converge; they are left out. */
  readonly failed: number;
}

/**
 * Refits a model to invented readings.
 *
 * @param model - the model fitted
 * @param x - abscissae of the readings
 * @param fit - its fit, with a residual standard deviation
 * @throws {InvalidArgumentError} if the fit has no residual standard deviation, or `replicates` is
 *   not a whole number of at least 1
 * @source [ET1993] section 6.5
 */
export function parametricBootstrap(
  model: Model,
  x: readonly number[],
  fit: Pick<ModelFit, 'parameters' | 'residualStandardDeviation'>,
  options: BootstrapOptions = {},
): Bootstrap {
  const { replicates = 1000, seed = 1 } = options;
  const name = 'parametricBootstrap';
  const sigma = fit.residualStandardDeviation;
  if (sigma === null) {
    throw new InvalidArgumentError(name, 'fit', fit, 'a fit with degrees of freedom');
  }
  if (!(Number.isInteger(replicates) && replicates >= 1)) {
    throw new InvalidArgumentError(name, 'replicates', replicates, 'a whole number of at least 1');
  }
  const normal = randomNormal(seed);
  const centre = x.map((at) => model.value(at, fit.parameters));
  const y = [...centre];
  const parameters: (readonly number[])[] = [];
  let failed = 0;
  for (let r = 0; r < replicates; r++) {
    for (let i = 0; i < y.length; i++) y[i] = (centre[i] as number) + sigma * normal();
    const refit = fitModel(model, x, y, { start: fit.parameters, offsetTolerance: 1e-4 });
    const { status } = refit.report;
    if (status === 'not-converged' || status === 'too-few-data') failed++;
    else parameters.push(refit.parameters);
  }
  return { parameters, failed };
}

/** Limits between which a share of the values lies. */
export interface Interval {
  readonly lower: number;
  readonly upper: number;
}

/**
 * Percentile interval of bootstrapped values.
 *
 * @param values - the measure in each set, finite, at least one
 * @param confidence - share between the limits, in (0, 1); default 0.95
 * @throws {InvalidArgumentError} if there is no value or the confidence is out of range
 * @source [ET1993] section 13.3
 */
export function percentileInterval(values: readonly number[], confidence = 0.95): Interval {
  const name = 'percentileInterval';
  if (!(values.length > 0 && values.every(Number.isFinite))) {
    throw new InvalidArgumentError(name, 'values', values, 'at least one finite number');
  }
  if (!(confidence > 0 && confidence < 1)) {
    throw new InvalidArgumentError(name, 'confidence', confidence, 'in (0, 1)');
  }
  const sorted = Float64Array.from(values).sort();
  const quantile = (share: number): number => {
    const position = share * (sorted.length - 1);
    const low = Math.floor(position);
    const high = Math.min(low + 1, sorted.length - 1);
    const weight = position - low;
    return (1 - weight) * (sorted[low] as number) + weight * (sorted[high] as number);
  };
  return { lower: quantile((1 - confidence) / 2), upper: quantile((1 + confidence) / 2) };
}
