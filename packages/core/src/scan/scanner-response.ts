/**
 * The response of a scanner or camera, from a tablet of known densities in the same picture, and
 * densities of other places by it.
 *
 *   fit      y_i = F(D_i; p)                          y darkness, D tablet density
 *   density  D = F^-1(y)
 *   error    var D = (var y + e^2 + g' C g) / F'(D)^2,  e the scatter of the tablet beyond its errors
 *
 * F is one of two forms with flare (see `response-models.ts`), the likelier; where the test for
 * lack of fit says that it misses the tablet by more than its scatter, a monotone smooth curve of -y over -D.
 * Darkness is fitted over density, not density over darkness: the tablet is what is known.
 *
 * Sources: [FULLER1987] section 1.1 for which variable is fitted; [Seber2003] section 5.1 delta
 * method; [HUBER1981] the loss, so that a dirty step does not bend the curve. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';
import {
  fitModel,
  LACK_OF_FIT_PROBABILITY,
  lackOfFit,
  monotoneSmooth,
  quadraticForm,
  robustLeastSquares,
  tangentBasis,
  type Model,
  type ModelFit,
} from '../fitting/index.ts';
import { powerResponse, screenResponse } from './response-models.ts';

/** Darkness read in a picture, with its standard error, log10 units. */
export interface Darkness {
  readonly darkness: number;
  readonly standardError: number;
}

export interface ScannerResponse {
  readonly form: 'power' | 'screen' | 'smooth';
  /** Exponent of the power form, 1 where the file is proportional to light; null in other forms. */
  readonly exponent: Estimate | null;
  /** Light from elsewhere as a part of the open light; null in the smooth form. */
  readonly flare: Estimate | null;
  /** Robust standard deviation of the tablet about the curve, as density at its middle. */
  readonly tabletScatter: number;
  /** Densities of the tablet between which densities are given. */
  readonly range: readonly [number, number];
  /** Darkness expected of a density. */
  readonly darknessAt: (density: number) => number;
  readonly densityOf: (read: Darkness) => ScannedDensity;
}

/** A density, or on which side of the tablet's it lies. */
export type ScannedDensity =
  | {
      readonly status: 'ok';
      readonly value: number;
      readonly standardError: number;
    }
  | { readonly status: 'thinner' | 'denser' };

/** Steps of the tablet below which there is no curve. */
export const FEWEST_TABLET_STEPS = 5;
/** A miss smaller than this, density, is no reason to leave the form with a known shape. */
const SMALL_SCATTER = 0.004;
/** Places beyond the tablet by so many standard errors, or so much density, still count as its end. */
const BEYOND_ERRORS = 2;
const BEYOND_DENSITY = 0.02;

/**
 * Fits the response to a tablet.
 *
 * @param densities - known densities of the tablet's steps, at least five different ones
 * @param read - darkness of each, same order
 * @throws InvalidArgumentError if there are fewer than five, lengths differ or a value is not finite
 */
export function scannerResponse(
  densities: readonly number[],
  read: readonly Darkness[],
): ScannerResponse {
  const name = 'scannerResponse';
  if (densities.length !== read.length || densities.length < FEWEST_TABLET_STEPS) {
    throw new InvalidArgumentError(name, 'read', read, `at least ${FEWEST_TABLET_STEPS}, as many`);
  }
  const order = densities
    .map((_, i) => i)
    .sort((a, b) => (densities[a] ?? 0) - (densities[b] ?? 0));
  const x = order.map((i) => densities[i] ?? NaN);
  const y = order.map((i) => read[i]?.darkness ?? NaN);
  const errors = order.map((i) => Math.max(read[i]?.standardError ?? NaN, 1e-4));
  const options = {
    sigma: { kind: 'relative', values: errors },
    solve: robustLeastSquares,
  } as const;
  const fits = [powerResponse, screenResponse].map((model) => ({
    model,
    fit: fitModel(model, x, y, options),
  }));
  const [power, screen] = fits as [FittedForm, FittedForm];
  const chosen = criterion(screen, x.length) < criterion(power, x.length) ? screen : power;
  const scatter = scatterOf(chosen, x);
  const { probability } = lackOfFit(
    x,
    chosen.fit.residuals.map((residual, i) => residual / (errors[i] ?? 1)),
    tangentBasis(chosen.model, x, chosen.fit),
  );
  const misses = probability !== null && probability < LACK_OF_FIT_PROBABILITY;
  if (misses && scatter > SMALL_SCATTER) {
    const smooth = smoothResponse(x, y, errors);
    if (smooth !== null && smooth.tabletScatter < scatter) return smooth;
  }
  const isPower = chosen.model === powerResponse;
  const at = (index: number): Estimate => ({
    value: chosen.fit.parameters[index] ?? 0,
    standardError: chosen.fit.standardErrors[index] ?? null,
  });
  return {
    form: isPower ? 'power' : 'screen',
    exponent: isPower ? at(1) : null,
    flare: at(isPower ? 2 : 1),
    tabletScatter: scatter,
    ...inverseOf({
      range: [x[0] ?? 0, x.at(-1) ?? 0],
      value: (density) => chosen.model.value(density, chosen.fit.parameters),
      variance: (density) => curveVariance(chosen, density),
      excess: excessOf(chosen.fit.residuals, errors),
    }),
  };
}

interface FittedForm {
  readonly model: Model;
  readonly fit: ModelFit;
}

/** Twice the negative log-likelihood with a penalty for each parameter; a failed fit never wins. */
function criterion({ fit }: FittedForm, n: number): number {
  if (!usable(fit)) return Infinity;
  return n * Math.log(Math.max(fit.residualSumOfSquares, 1e-12) / n) + 2 * fit.parameters.length;
}

/** Whether a fit settled on finite figures. */
function usable({ report, residualSumOfSquares }: ModelFit): boolean {
  return report.status !== 'too-few-data' && Number.isFinite(residualSumOfSquares);
}

/** Robust scatter of the tablet, in density: each residual over the slope there. */
function scatterOf({ model, fit }: FittedForm, x: readonly number[]): number {
  const misses = fit.residuals.map((residual, i) => {
    const slope = slopeAt((density) => model.value(density, fit.parameters), x[i] ?? 0);
    return Math.abs(residual) / Math.max(slope, 1e-6);
  });
  return robustScatter(misses, fit.degreesOfFreedom);
}

function robustScatter(misses: readonly number[], degreesOfFreedom: number): number {
  const sorted = misses.toSorted((a, b) => a - b);
  const middle = sorted[Math.floor(sorted.length / 2)] ?? 0;
  return 1.4826 * middle * Math.sqrt(misses.length / Math.max(1, degreesOfFreedom));
}

/** Variance of the tablet's darkness beyond what its steps' own errors explain. */
function excessOf(residuals: readonly number[], errors: readonly number[]): number {
  const squares = residuals.map((residual, i) => residual ** 2 - (errors[i] ?? 0) ** 2);
  const sorted = squares.toSorted((a, b) => a - b);
  // The median of a squared normal number is 0.4549 of its mean.
  return Math.max(0, (sorted[Math.floor(sorted.length / 2)] ?? 0) / 0.4549);
}

function curveVariance({ model, fit }: FittedForm, density: number): number {
  if (fit.covariance === null) return 0;
  const row = new Float64Array(fit.parameters.length);
  model.derivatives(density, fit.parameters, row);
  return quadraticForm(row, fit.covariance);
}

/** The smooth curve of -y over -D: the dense end, flattened by flare, is its toe. */
function smoothResponse(
  x: readonly number[],
  y: readonly number[],
  errors: readonly number[],
): ScannerResponse | null {
  const different = new Set(x);
  if (different.size < FEWEST_TABLET_STEPS) return null;
  const smooth = monotoneSmooth(
    x.map((density) => -density || 0),
    y.map((darkness) => -darkness || 0),
  );
  const { model, parameters, covariance } = smooth;
  const value = (density: number): number => -model.value(-density, parameters);
  const row = new Float64Array(parameters.length);
  return {
    form: 'smooth',
    exponent: null,
    flare: null,
    tabletScatter: robustScatter(
      smooth.residuals.map((r, i) => Math.abs(r) / Math.max(slopeAt(value, x[i] ?? 0), 1e-6)),
      smooth.degreesOfFreedom,
    ),
    ...inverseOf({
      range: [x[0] ?? 0, x.at(-1) ?? 0],
      value,
      variance: (density) => {
        if (covariance === null) return 0;
        model.derivatives(-density, parameters, row);
        return quadraticForm(row, covariance);
      },
      excess: excessOf(smooth.residuals, errors),
    }),
  };
}

interface Curve {
  readonly range: readonly [number, number];
  readonly value: (density: number) => number;
  /** Variance of the curve's darkness at a density. */
  readonly variance: (density: number) => number;
  readonly excess: number;
}

function inverseOf({
  range,
  value,
  variance,
  excess,
}: Curve): Pick<ScannerResponse, 'range' | 'darknessAt' | 'densityOf'> {
  const [thin, dense] = range;
  const densityOf = ({ darkness, standardError }: Darkness): ScannedDensity => {
    if (!Number.isFinite(darkness)) {
      throw new InvalidArgumentError('densityOf', 'darkness', darkness, 'a finite number');
    }
    const slack = (at: number): number => {
      const slope = Math.max(slopeAt(value, at), 1e-6);
      return Math.max(
        Math.min(BEYOND_ERRORS * Math.hypot(standardError, Math.sqrt(excess)), 0.05 * slope),
        BEYOND_DENSITY * slope,
      );
    };
    if (darkness < value(thin) - slack(thin)) return { status: 'thinner' };
    if (darkness > value(dense) + slack(dense)) return { status: 'denser' };
    let low = thin - 0.2;
    let high = dense + 0.2;
    for (let round = 0; round < 60; round++) {
      const middle = (low + high) / 2;
      if (value(middle) < darkness) low = middle;
      else high = middle;
    }
    const density = (low + high) / 2;
    const slope = Math.max(slopeAt(value, density), 1e-6);
    const total = standardError ** 2 + excess + variance(density);
    return { status: 'ok', value: density, standardError: Math.sqrt(total) / slope };
  };
  return { range, darknessAt: value, densityOf };
}

function slopeAt(value: (density: number) => number, density: number): number {
  const h = 1e-4;
  return (value(density + h) - value(density - h)) / (2 * h);
}
