/**
 * Fits the layers of a variable-contrast paper to strips printed by soft light, by hard light, or
 * by both.
 *
 *   minimise Σ (D(x_h, x_s; p) - density)²
 *   p = D_min, D_n, ln k, h, s_1, gaps s_i - s_(i+1) >= 0
 *
 * Two, three and four layers are tried; the number with the least AICc is taken.
 *
 * Sources: see `variable-contrast-paper.ts`; [BA2002] section 2.4 for AICc. Deviations: makers speak of
 * several emulsions without a number, so that the strips choose it; the errors are those of the chosen
 * number.
 */
import { InvalidArgumentError } from '../../errors.ts';
import type { Estimate } from '../../estimate.ts';
import { akaikeCorrected, leastSquares, type LeastSquaresFit } from '../../fitting/index.ts';
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

/** Numbers of layers that are tried. */
const LAYERS = [2, 3, 4] as const;
/** Parameters before the gaps between the layers. */
const BEFORE_GAPS = 5;

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
  const start = [minimum, net, Math.log(8), -hardHalf, -softHalf + 0.5];
  const candidates = LAYERS.flatMap((layers) => {
    const fit = fitLayers(readings, start, layers);
    const { status } = fit.report;
    if (status !== 'converged' && status !== 'rank-deficient') return [];
    const criterion = akaikeCorrected(
      fit.residualSumOfSquares,
      readings.length,
      fit.parameters.length,
    );
    return [{ fit, criterion }];
  });
  // A number of layers that the strips do not determine is taken only where none is determined.
  const determined = candidates.filter(({ fit }) => fit.covariance !== null);
  const usable = determined.length > 0 ? determined : candidates;
  const [first, ...others] = usable;
  if (first === undefined) return nothing('not-converged');
  const { fit } = others.reduce((a, b) => (b.criterion < a.criterion ? b : a), first);
  const names = ['minimumDensity', 'netMaximumDensity', 'logLayerContrast', 'hardLogSpeed'];
  const layerNames = Array.from({ length: fit.parameters.length - names.length }, (_, i) =>
    i === 0 ? 'softLogSpeed1' : `softLogSpeedGap${i + 1}`,
  );
  return {
    status: 'ok',
    reason: null,
    paper: paperOf(fit.parameters),
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

function fitLayers(
  readings: readonly VariableContrastReading[],
  before: readonly number[],
  layers: number,
): LeastSquaresFit {
  // The spread of the soft speeds is much the same however many layers share it.
  const start = [...before, ...Array.from({ length: layers - 1 }, () => 1 / (layers - 1))];
  const count = start.length;
  return leastSquares({
    residualCount: readings.length,
    start,
    lower: start.map((_, j) => (j === 1 ? 1e-3 : j >= BEFORE_GAPS ? 0 : -Infinity)),
    upper: start.map((_, j) => (j === 2 ? Math.log(100) : Infinity)),
    evaluate(p, residuals, jacobian) {
      readings.forEach((reading, i) => {
        residuals[i] = mixtureDerivatives(p, reading, jacobian, i * count) - reading.density;
      });
    },
  });
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
  let speed = p[BEFORE_GAPS - 1] ?? 0;
  for (let i = 0; i < layersOf(p); i++) {
    softLogSpeeds.push(speed);
    speed -= p[BEFORE_GAPS + i] ?? 0;
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
  const layers = layersOf(p);
  const net = p[1] as number;
  const k = Math.exp(p[2] as number);
  const hard = 10 ** ((p[3] as number) + hardLogExposure);
  out.fill(0, offset, offset + p.length);
  let sum = 0;
  let byContrast = 0;
  let byHard = 0;
  let speed = p[BEFORE_GAPS - 1] as number;
  for (let i = 0; i < layers; i++) {
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
        const at = offset + BEFORE_GAPS - 1 + j;
        out[at] = (out[at] as number) + (((j === 0 ? 1 : -1) * net) / layers) * bySoft;
      }
    }
    speed -= i + 1 < layers ? (p[BEFORE_GAPS + i] as number) : 0;
  }
  out[offset] = 1;
  out[offset + 1] = sum / layers;
  out[offset + 2] = (net / layers) * byContrast;
  out[offset + 3] = (net / layers) * byHard;
  return (p[0] as number) + (net / layers) * sum;
}

const layersOf = (p: ArrayLike<number>): number => p.length - BEFORE_GAPS + 1;
