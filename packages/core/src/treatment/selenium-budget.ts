/**
 * Selenium that a toned negative takes from the bath.
 *
 *   2 Ag + Se -> Ag2Se:   m_Se = m_Ag M_Se / (2 M_Ag)
 *   m_Ag = area × mean net density × silver per density × conversion
 *
 * Sources: [MEES1942] 1 to 3 g of silver per square metre at density 1; atomic weights by IUPAC.
 * Deviations: none; how much selenium a concentrate holds is on its safety data sheet, not here.
 */
import { InvalidArgumentError } from '../errors.ts';

const SILVER = 107.868; // g/mol
const SELENIUM = 78.971; // g/mol

/** Grams of selenium to a gram of silver in silver selenide. */
export const SELENIUM_PER_SILVER = SELENIUM / (2 * SILVER);

/** Silver per square metre at density 1: low, usual, high. */
export const SILVER_PER_DENSITY = { low: 1, usual: 1.3, high: 3 } as const;

export interface TonedFilm {
  readonly areaSquareCentimetres: number;
  /** Mean net density over the area. */
  readonly meanNetDensity: number;
  /** Part of the silver that is converted, in [0, 1]; 1, the most, unless given. */
  readonly conversion?: number;
}

/** Grams with the range that the silver's covering power leaves open. */
export interface SeleniumUsed {
  readonly silverGrams: readonly [number, number, number];
  /** Low, usual and high estimate. */
  readonly seleniumGrams: readonly [number, number, number];
}

/**
 * Selenium that films take from a bath.
 *
 * @param films - areas and mean net densities
 * @returns grams of silver converted and selenium bound; low, usual and high
 * @throws InvalidArgumentError if a value is out of range
 * @source [MEES1942] for the silver
 */
export function seleniumUsed(films: readonly TonedFilm[]): SeleniumUsed {
  let load = 0;
  films.forEach(({ areaSquareCentimetres, meanNetDensity, conversion = 1 }, i) => {
    const inOrder =
      areaSquareCentimetres > 0 &&
      areaSquareCentimetres < 1e7 &&
      meanNetDensity >= 0 &&
      meanNetDensity <= 6 &&
      conversion >= 0 &&
      conversion <= 1;
    if (!inOrder) {
      throw new InvalidArgumentError(
        'seleniumUsed',
        `film ${i + 1}`,
        areaSquareCentimetres,
        'an area above zero, a density from 0 to 6 and a conversion in [0, 1]',
      );
    }
    load += (areaSquareCentimetres / 1e4) * meanNetDensity * conversion;
  });
  const { low, usual, high } = SILVER_PER_DENSITY;
  const silverGrams = [low * load, usual * load, high * load] as const;
  const [a, b, c] = silverGrams;
  return {
    silverGrams,
    seleniumGrams: [a * SELENIUM_PER_SILVER, b * SELENIUM_PER_SILVER, c * SELENIUM_PER_SILVER],
  };
}
