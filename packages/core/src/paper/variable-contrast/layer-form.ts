/**
 * The forms of layers that are fitted to strips, their parameters and the derivatives by them.
 *
 *   p = D_min, D_n, ln k, h, s_1, gaps s_i - s_(i+1) >= 0, then c, b where the layers drift
 *
 * Sources: see `variable-contrast-paper.ts`. Deviations: none.
 */
import {
  placeOfLayer,
  type MixedExposure,
  type VariableContrastPaper,
} from './variable-contrast-paper.ts';

/** Which layers: how many, and whether they drift in contrast and hard speed. */
export interface LayerForm {
  readonly layers: number;
  readonly drifts: boolean;
}

/** Parameters before the gaps between the layers. */
export const BEFORE_GAPS = 5;

/** Names of the parameters, in their order. */
export function parameterNames({ layers, drifts }: LayerForm): string[] {
  const gaps = Array.from({ length: layers - 1 }, (_, i) => `softLogSpeedGap${i + 2}`);
  return [
    'minimumDensity',
    'netMaximumDensity',
    'logLayerContrast',
    'hardLogSpeed',
    'softLogSpeed1',
    ...gaps,
    ...(drifts ? ['logContrastDrift', 'hardLogSpeedDrift'] : []),
  ];
}

/** The paper that parameters stand for. */
export function paperOfParameters(
  { layers, drifts }: LayerForm,
  p: readonly number[],
): VariableContrastPaper {
  const softLogSpeeds: number[] = [];
  let speed = p[BEFORE_GAPS - 1] ?? 0;
  for (let i = 0; i < layers; i++) {
    softLogSpeeds.push(speed);
    speed -= p[BEFORE_GAPS + i] ?? 0;
  }
  const after = BEFORE_GAPS + layers - 1;
  return {
    minimumDensity: p[0] ?? 0,
    netMaximumDensity: p[1] ?? 0,
    layerContrast: Math.exp(p[2] ?? 0),
    hardLogSpeed: p[3] ?? 0,
    softLogSpeeds,
    ...(drifts && { drift: { logContrast: p[after] ?? 0, hardLogSpeed: p[after + 1] ?? 0 } }),
  };
}

/**
 * Print density by the parameters of a form, with its derivatives by them.
 *
 * @param form - which layers
 * @param p - values of the parameters, in their order
 * @param exposure - log exposures of both lights
 * @param out - where the derivatives are written, from `offset`
 */
export function mixtureDerivatives(
  { layers, drifts }: LayerForm,
  p: ArrayLike<number>,
  { hardLogExposure, softLogExposure }: MixedExposure,
  out: Float64Array,
  offset: number,
): number {
  const net = p[1] as number;
  const after = BEFORE_GAPS + layers - 1;
  const [contrastDrift, hardDrift] = drifts ? [p[after] as number, p[after + 1] as number] : [0, 0];
  out.fill(0, offset, offset + p.length);
  const add = (index: number, by: number): void => {
    out[offset + index] = (out[offset + index] as number) + (net / layers) * by;
  };
  let sum = 0;
  let speed = p[BEFORE_GAPS - 1] as number;
  for (let i = 0; i < layers; i++) {
    const place = placeOfLayer(i, layers);
    const k = Math.exp((p[2] as number) + contrastDrift * place);
    const hard = 10 ** ((p[3] as number) + hardDrift * place + hardLogExposure);
    const soft = 10 ** (speed + softLogExposure);
    const log = Math.log10(hard + soft);
    const s = 1 / (1 + Math.exp(-k * log));
    sum += s;
    const bend = s * (1 - s);
    if (bend > 0) {
      const byContrast = bend * k * log;
      const byHard = (bend * k * hard) / (hard + soft);
      const bySoft = (bend * k * soft) / (hard + soft);
      add(2, byContrast);
      add(3, byHard);
      // s_i = s_1 - gap_2 - … - gap_i
      for (let j = 0; j <= i; j++) add(BEFORE_GAPS - 1 + j, j === 0 ? bySoft : -bySoft);
      if (drifts) {
        add(after, place * byContrast);
        add(after + 1, place * byHard);
      }
    }
    speed -= i + 1 < layers ? (p[BEFORE_GAPS + i] as number) : 0;
  }
  out[offset] = 1;
  out[offset + 1] = sum / layers;
  return (p[0] as number) + (net / layers) * sum;
}
