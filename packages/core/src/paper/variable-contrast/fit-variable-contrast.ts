/**
 * Fits the layers of a variable-contrast paper to strips printed by soft light, by hard light, or
 * by both.
 *
 *   minimise Σ (D(x_h, x_s; p) - density)²
 *   p = D_min, D_n, ln k, h, s_1, gaps s_i - s_(i+1) >= 0
 *
 * Sources: see `variable-contrast-paper.ts`. Deviations: none.
 */
import { InvalidArgumentError } from '../../errors.ts';
import type { Estimate } from '../../estimate.ts';
import { leastSquares } from '../../fitting/index.ts';
import type { MixedExposure, VariableContrastPaper } from './variable-contrast-paper.ts';

/** One step of a strip: what light it got and the density read. */
export interface VariableContrastReading extends MixedExposure {
  readonly density: number;
}

export interface VariableContrastFit {
  readonly status: 'ok' | 'not-determined';
  /** Why nothing was fitted; null with a fit. */
  readonly reason: 'too-few-readings' | 'one-light-only' | 'not-converged' | null;
  readonly paper: VariableContrastPaper | null;
  readonly parameters: readonly (Estimate & { readonly name: string })[];
  readonly residualStandardDeviation: number | null;
  readonly degreesOfFreedom: number;
  /** Covariance of the parameters, row by row; null where none can be stated. */
  readonly covariance: readonly number[] | null;
}

/** Layers of the model; makers speak of several, and three describe the published ranges. */
const LAYERS = 3;
const BEFORE_LAYERS = 5;

/**
 * Fits a paper.
 *
 * @param readings - steps of at least a soft-only and a hard-only strip (or mixed ones), 12 or more
 * @returns the paper with the errors of its parameters, or why there is none
 * @throws InvalidArgumentError if a density is not finite or a step got no light
 */
export function fitVariableContrast(
  readings: readonly VariableContrastReading[],
): VariableContrastFit {
  for (const { density, hardLogExposure, softLogExposure } of readings) {
    if (!Number.isFinite(density)) {
      throw new InvalidArgumentError('fitVariableContrast', 'density', density, 'finite');
    }
    const most = Math.max(hardLogExposure, softLogExposure);
    if (!Number.isFinite(most)) {
      throw new InvalidArgumentError('fitVariableContrast', 'exposure', most, 'of some light');
    }
  }
  const hard = readings.filter(({ hardLogExposure }) => hardLogExposure > -Infinity);
  const soft = readings.filter(({ softLogExposure }) => softLogExposure > -Infinity);
  if (readings.length < 12) return nothing('too-few-readings');
  if (hard.length < 4 || soft.length < 4) return nothing('one-light-only');

  const densities = readings.map(({ density }) => density);
  const minimum = Math.min(...densities);
  const net = Math.max(...densities) - minimum;
  const half = minimum + net / 2;
  const hardHalf = nearest(hard, half)?.hardLogExposure ?? 0;
  const softHalf = nearest(soft, half)?.softLogExposure ?? 0;
  const start = [minimum, net, Math.log(8), -hardHalf, -softHalf + 0.5, 0.5, 0.5];
  const count = start.length;
  const lower = start.map((_, j) => (j === 1 ? 1e-3 : j > 4 ? 0 : -Infinity));
  const upper = start.map((_, j) => (j === 2 ? Math.log(100) : Infinity));

  const fit = leastSquares({
    residualCount: readings.length,
    start,
    lower,
    upper,
    evaluate(p, residuals, jacobian) {
      readings.forEach((reading, i) => {
        const value = mixtureDerivatives(p, reading, jacobian, i * count);
        residuals[i] = value - reading.density;
      });
    },
  });
  const { status } = fit.report;
  if (status !== 'converged' && status !== 'rank-deficient') return nothing('not-converged');
  const paper = paperOf(fit.parameters);
  const names = ['minimumDensity', 'netMaximumDensity', 'logLayerContrast', 'hardLogSpeed'];
  const layerNames = Array.from({ length: LAYERS }, (_, i) =>
    i === 0 ? 'softLogSpeed1' : `softLogSpeedGap${i + 1}`,
  );
  return {
    status: 'ok',
    reason: null,
    paper,
    parameters: [...names, ...layerNames].map((name, j) => ({
      name,
      value: fit.parameters[j] ?? 0,
      standardError: fit.standardErrors[j] ?? null,
    })),
    residualStandardDeviation: fit.residualStandardDeviation,
    degreesOfFreedom: fit.degreesOfFreedom,
    covariance: fit.covariance,
  };
}

function nothing(reason: NonNullable<VariableContrastFit['reason']>): VariableContrastFit {
  return {
    status: 'not-determined',
    reason,
    paper: null,
    parameters: [],
    residualStandardDeviation: null,
    degreesOfFreedom: 0,
    covariance: null,
  };
}

function nearest(
  readings: readonly VariableContrastReading[],
  density: number,
): VariableContrastReading | undefined {
  let best = readings[0];
  for (const reading of readings) {
    const isNearer =
      best !== undefined && Math.abs(reading.density - density) < Math.abs(best.density - density);
    if (isNearer) best = reading;
  }
  return best;
}

function paperOf(p: readonly number[]): VariableContrastPaper {
  const softLogSpeeds: number[] = [];
  let speed = p[BEFORE_LAYERS - 1] ?? 0;
  for (let i = 0; i < LAYERS; i++) {
    softLogSpeeds.push(speed);
    speed -= p[BEFORE_LAYERS + i] ?? 0;
  }
  return {
    minimumDensity: p[0] ?? 0,
    netMaximumDensity: p[1] ?? 0,
    layerContrast: Math.exp(p[2] ?? 0),
    hardLogSpeed: p[3] ?? 0,
    softLogSpeeds,
  };
}

/**
 * Print density by the fitted parameters, with its derivatives by them.
 *
 * @param p - values of the fit's parameters, in their order
 * @param exposure - log exposures of both lights
 * @param out - where the derivatives are written, from `offset`
 */
export function mixtureDerivatives(
  p: ArrayLike<number>,
  { hardLogExposure, softLogExposure }: MixedExposure,
  out: Float64Array,
  offset: number,
): number {
  const net = p[1] as number;
  const k = Math.exp(p[2] as number);
  const hard = 10 ** ((p[3] as number) + hardLogExposure);
  out.fill(0, offset, offset + BEFORE_LAYERS + LAYERS - 1);
  let sum = 0;
  let byContrast = 0;
  let byHard = 0;
  let speed = p[BEFORE_LAYERS - 1] as number;
  for (let i = 0; i < LAYERS; i++) {
    const soft = 10 ** (speed + softLogExposure);
    const log = Math.log10(hard + soft);
    const s = 1 / (1 + Math.exp(-k * log));
    sum += s;
    const bend = s * (1 - s);
    if (bend > 0) {
      byContrast += bend * k * log;
      byHard += (bend * k * hard) / (hard + soft);
      const bySoft = (bend * k * soft) / (hard + soft);
      // s_i = s_1 - gap_2 - … - gap_i
      for (let j = 0; j <= i; j++) {
        const at = offset + BEFORE_LAYERS - 1 + j;
        out[at] = (out[at] as number) + (((j === 0 ? 1 : -1) * net) / LAYERS) * bySoft;
      }
    }
    speed -= i + 1 < LAYERS ? (p[BEFORE_LAYERS + i] as number) : 0;
  }
  out[offset] = 1;
  out[offset + 1] = sum / LAYERS;
  out[offset + 2] = (net / LAYERS) * byContrast;
  out[offset + 3] = (net / LAYERS) * byHard;
  return (p[0] as number) + (net / LAYERS) * sum;
}
