/**
 * Washing: how long until the hypo left in a film is below the limit.
 *
 *   c(t) = c0 2^(-t / h),   h about a minute in running water
 *
 * Sources: [NAVY] thiosulfate halves about every minute; [ANSIIT9] 0.014 g/m² for films that are to
 * be kept. Deviations: the law is a rule of thumb; a test of the washed film settles it.
 */
import { InvalidArgumentError } from '../errors.ts';

/** Thiosulfate that a film for keeping may hold, g/m². */
export const KEEPING_LIMIT = 0.014;

/** Minutes in which running water takes half of the hypo. */
export const WASH_HALVING_MINUTES = 1;

/**
 * Minutes of washing until the hypo falls to a limit.
 *
 * @param startGramsPerSquareMetre - thiosulfate at the start, > 0
 * @param limitGramsPerSquareMetre - limit, > 0; 0.014 unless given
 * @param halvingMinutes - time of halving, > 0; 1 unless given
 * @returns minutes; 0 where the start is below the limit
 * @throws InvalidArgumentError if an argument is not above zero
 * @source [NAVY], [ANSIIT9]
 * @example
 * washingMinutes(0.014 * 8); // => 3
 */
export function washingMinutes(
  startGramsPerSquareMetre: number,
  limitGramsPerSquareMetre = KEEPING_LIMIT,
  halvingMinutes = WASH_HALVING_MINUTES,
): number {
  for (const [name, value] of Object.entries({
    startGramsPerSquareMetre,
    limitGramsPerSquareMetre,
    halvingMinutes,
  })) {
    if (!(value > 0 && value < Infinity)) {
      throw new InvalidArgumentError('washingMinutes', name, value, 'above zero');
    }
  }
  const halvings = Math.log2(startGramsPerSquareMetre / limitGramsPerSquareMetre);
  return Math.max(0, halvings) * halvingMinutes;
}
