/** Where a warning about readings looks: rows of a file, or steps of a strip. */
import type { WarningDetails } from '@wedgebook/core';

/** Places that a sentence can name one by one; so many are not looked up. */
const MOST_PLACES = 8;

/**
 * Places as a detail of a warning, for its sentence.
 *
 * @param places - numbers of rows, or of steps
 * @returns no detail where there is none, or too many to be of use
 */
export function placesOf(kind: 'rows' | 'steps', places: readonly number[]): WarningDetails {
  return places.length === 0 || places.length > MOST_PLACES ? {} : { [kind]: places.join(', ') };
}
