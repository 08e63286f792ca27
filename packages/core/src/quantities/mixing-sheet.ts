/**
 * How much concentrate and water make a bath.
 *
 *   concentrate = volume / (1 + n),   water = volume - concentrate
 *
 * Sources: [NIST811] for the US fluid ounce, as mathjs has it. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import { QuantityError } from './quantity-error.ts';
import { quantityOf } from './unit-factory.ts';

/** A volume in both units. */
export interface MixedVolume {
  readonly millilitres: number;
  readonly usFluidOunces: number;
}

export interface MixingSheet {
  readonly partsWater: number;
  readonly concentrate: MixedVolume;
  readonly water: MixedVolume;
  readonly total: MixedVolume;
}

/**
 * Mixing sheet of a working bath.
 *
 * @param totalMillilitres - volume of the working bath, above zero to 1000 l
 * @param partsWater - n of 1+n, 0 to 1000
 * @returns concentrate, water and total in millilitres and US fluid ounces, unrounded
 * @throws InvalidArgumentError if an argument is out of range
 * @example
 * mixingSheet(1000, 3).concentrate.millilitres; // => 250
 */
export function mixingSheet(totalMillilitres: number, partsWater: number): MixingSheet {
  if (!(totalMillilitres > 0 && totalMillilitres <= 1e6)) {
    throw new InvalidArgumentError(
      'mixingSheet',
      'totalMillilitres',
      totalMillilitres,
      'above zero, to 1,000,000',
    );
  }
  if (!(partsWater >= 0 && partsWater <= 1000)) {
    throw new InvalidArgumentError('mixingSheet', 'partsWater', partsWater, 'from 0 to 1000');
  }
  const concentrate = totalMillilitres / (1 + partsWater);
  return {
    partsWater,
    concentrate: inBothUnits(concentrate),
    water: inBothUnits(totalMillilitres - concentrate),
    total: inBothUnits(totalMillilitres),
  };
}

/**
 * US fluid ounces of a volume.
 *
 * @param millilitres - volume, finite
 * @throws QuantityError if the volume is not a number
 */
export function usFluidOunces(millilitres: number): number {
  const quantity = Number.isFinite(millilitres) ? quantityOf(millilitres, 'ml') : null;
  if (quantity === null) {
    throw new QuantityError('not-a-number', String(millilitres), 'a volume in millilitres');
  }
  return quantity.toNumber('floz');
}

function inBothUnits(millilitres: number): MixedVolume {
  return { millilitres, usFluidOunces: usFluidOunces(millilitres) };
}
