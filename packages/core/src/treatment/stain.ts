/**
 * Silver and image stain as the paper sees them.
 *
 *   before    D = b + S + s S              s stain density per unit of silver density
 *   after     D = b + k S + s ρ S          ρ part of the stain that is kept
 *   effective gain (k + s ρ) / (1 + s)     by diffuse light
 *   printing range of a density range DR:  DR (Q + s) / (1 + s), since Q acts on silver alone
 *   its error:  var = ((Q + s) / (1 + s))² var DR + (DR / (1 + s))² var Q
 *
 * Sources: [STAINSHEET] stain roughly follows silver; the formulas are derived; the error is the
 * delta method [Seber2003] section 5.1. Deviations: stain in excess
 * of proportion (general stain) is left to base + fog.
 */
import { InvalidArgumentError } from '../errors.ts';
import { combinedError, type Estimate } from '../estimate.ts';

export interface StainOptions {
  /** s in the paper's channel, zero or more. */
  readonly stain: number;
  /** ρ, in [0, 1]; 1 unless given. */
  readonly stainKept?: number;
}

/**
 * Gain of the whole density range, silver and stain together, by diffuse light.
 *
 * @param silverGain - k, gain of the silver alone, > 0
 * @param options - stain and the part of it that is kept
 * @returns (k + s ρ) / (1 + s)
 * @throws InvalidArgumentError if a value is out of range
 * @example
 * effectiveGain(1, { stain: 0.375, stainKept: 0 }); // => 0.7272727272727273
 */
export function effectiveGain(silverGain: number, options: StainOptions): number {
  const { stain, stainKept = 1 } = checked('effectiveGain', options);
  if (!(silverGain > 0 && silverGain < Infinity)) {
    throw new InvalidArgumentError('effectiveGain', 'silverGain', silverGain, 'above zero');
  }
  return (silverGain + stain * stainKept) / (1 + stain);
}

/**
 * Range that the paper sees of a density range read by diffuse light in the paper's channel.
 *
 * @param densityRange - silver and stain together
 * @param options - Callier factor of the enlarger with its standard error where it was measured,
 *   stain per unit of silver
 * @returns DR (Q + s) / (1 + s); its error counts those of range and factor that are known
 * @throws InvalidArgumentError if a value is out of range
 */
export function printingRange(
  densityRange: Estimate,
  options: {
    readonly callierFactor: number;
    readonly callierFactorError?: number | null;
    readonly stain: number;
  },
): Estimate {
  const { callierFactor, callierFactorError = null } = options;
  if (!(callierFactor > 0 && callierFactor < Infinity)) {
    throw new InvalidArgumentError('printingRange', 'callierFactor', callierFactor, 'above zero');
  }
  const { stain } = checked('printingRange', options);
  const factor = (callierFactor + stain) / (1 + stain);
  const { value, standardError } = densityRange;
  checkedCallierError('printingRange', callierFactorError);
  return {
    value: factor * value,
    standardError: combinedError(
      standardError === null ? null : factor * standardError,
      callierFactorError === null ? null : (Math.abs(value) / (1 + stain)) * callierFactorError,
    ),
  };
}

/**
 * Refuses a standard error of the Callier factor that cannot be.
 *
 * @throws InvalidArgumentError if it is below zero or not finite; null stands for none
 */
export function checkedCallierError(functionName: string, error: number | null): number | null {
  if (error !== null && !(error >= 0 && error < Infinity)) {
    throw new InvalidArgumentError(functionName, 'callierFactorError', error, 'zero or more');
  }
  return error;
}

function checked<T extends StainOptions>(functionName: string, options: T): T {
  const { stain, stainKept = 1 } = options;
  if (!(stain >= 0 && stain <= 5)) {
    throw new InvalidArgumentError(functionName, 'stain', stain, 'from 0 to 5');
  }
  if (!(stainKept >= 0 && stainKept <= 1)) {
    throw new InvalidArgumentError(functionName, 'stainKept', stainKept, 'in [0, 1]');
  }
  return options;
}
