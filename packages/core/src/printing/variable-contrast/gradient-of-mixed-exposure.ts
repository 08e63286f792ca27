/**
 * Slope of a variable-contrast paper's density when both lights grow alike.
 *
 *   dD/dx = (D_n / N) Σ_i k S_i (1 - S_i),   S_i = 1 / (1 + exp(-k log10 E_i))
 *
 * Sources: see `variable-contrast-paper.ts`. Deviations: none.
 */
import { InvalidArgumentError } from '../../errors.ts';
import type { MixedExposure, VariableContrastPaper } from './variable-contrast-paper.ts';

/**
 * Gradient under a mixed exposure, its ratio kept.
 *
 * @param exposure - log10 exposures of both lights; -Infinity where one is off
 * @returns density per log10 exposure
 * @throws InvalidArgumentError if a log exposure is NaN or +Infinity
 */
export function gradientOfMixedExposure(
  paper: VariableContrastPaper,
  { hardLogExposure, softLogExposure }: MixedExposure,
): number {
  for (const [name, value] of Object.entries({ hardLogExposure, softLogExposure })) {
    if (!(value < Infinity)) {
      throw new InvalidArgumentError('gradientOfMixedExposure', name, value, 'a log exposure');
    }
  }
  const { layerContrast, netMaximumDensity, softLogSpeeds } = paper;
  const hard = 10 ** (paper.hardLogSpeed + hardLogExposure);
  let sum = 0;
  for (const softLogSpeed of softLogSpeeds) {
    const layer = hard + 10 ** (softLogSpeed + softLogExposure);
    const part = 1 / (1 + Math.exp(-layerContrast * Math.log10(layer)));
    sum += layerContrast * part * (1 - part);
  }
  return (netMaximumDensity / softLogSpeeds.length) * sum;
}
