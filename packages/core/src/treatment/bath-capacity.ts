/**
 * What is left in a selenium bath that is used again.
 *
 *   in the bath    m = V c_Se / (1 + n),   c_Se grams of selenium in a litre of concentrate
 *   taken          see `selenium-budget.ts`, low, usual and high for the silver of the films
 *   left           1 - taken / m
 *   slower by      (1 - part taken)^-n_c, if only what is dissolved works, as c^n t = constant
 *
 * Sources: [MEES1942] for the silver, [TENBERGE] for the rate. Deviations: none; carry-over by wet
 * film, oxidation by air and the loss of the toner's other parts are not reckoned, so a bath is
 * spent sooner than this says.
 */
import { InvalidArgumentError } from '../errors.ts';
import { seleniumUsed, type SeleniumUsed, type TonedFilm } from './selenium-budget.ts';

export interface SeleniumBath {
  readonly volumeMillilitres: number;
  readonly partsWater: number;
  /** By the safety data sheet of the concentrate; null where it is not known. */
  readonly seleniumGramsPerLitre: number | null;
  readonly films: readonly TonedFilm[];
}

export interface BathCapacity {
  readonly used: SeleniumUsed;
  /** Grams of selenium when the bath was mixed; null where the concentrate's is not known. */
  readonly mixedGrams: number | null;
  /** Part left, for a low, usual and high reckoning of the silver; never below zero. */
  readonly left: readonly [number, number, number] | null;
  /** Factor on the minutes for the same dose, likewise; Infinity where nothing is left. */
  readonly slower: readonly [number, number, number] | null;
}

/**
 * What is left in a bath.
 *
 * @param bath - volume, dilution, concentrate and the films that went through it
 * @param concentrationExponent - n of c^n t; 1 unless given
 * @returns grams taken, and the part left where the concentrate is known
 * @throws InvalidArgumentError if a value is out of range
 * @source [MEES1942], [TENBERGE]
 * @example
 * bathCapacity({ volumeMillilitres: 1000, partsWater: 3, seleniumGramsPerLitre: 40, films: [] })
 *   .mixedGrams; // => 10
 */
export function bathCapacity(bath: SeleniumBath, concentrationExponent = 1): BathCapacity {
  const { volumeMillilitres, partsWater, seleniumGramsPerLitre, films } = bath;
  const checks: readonly (readonly [string, number, boolean])[] = [
    ['volumeMillilitres', volumeMillilitres, volumeMillilitres > 0 && volumeMillilitres <= 1e6],
    ['partsWater', partsWater, partsWater >= 0 && partsWater <= 1000],
    [
      'seleniumGramsPerLitre',
      seleniumGramsPerLitre ?? 1,
      seleniumGramsPerLitre === null ||
        (seleniumGramsPerLitre > 0 && seleniumGramsPerLitre <= 1000),
    ],
    [
      'concentrationExponent',
      concentrationExponent,
      concentrationExponent > 0 && concentrationExponent <= 5,
    ],
  ];
  for (const [name, value, inOrder] of checks) {
    if (!inOrder) throw new InvalidArgumentError('bathCapacity', name, value, 'in its range');
  }
  const used = seleniumUsed(films);
  if (seleniumGramsPerLitre === null) return { used, mixedGrams: null, left: null, slower: null };
  const mixedGrams = ((volumeMillilitres / 1000) * seleniumGramsPerLitre) / (1 + partsWater);
  const partLeft = (grams: number): number => Math.max(0, 1 - grams / mixedGrams);
  const [a, b, c] = used.seleniumGrams;
  const left = [partLeft(a), partLeft(b), partLeft(c)] as const;
  const factor = (part: number): number => (part > 0 ? part ** -concentrationExponent : Infinity);
  return {
    used,
    mixedGrams,
    left,
    slower: [factor(left[0]), factor(left[1]), factor(left[2])],
  };
}
