/**
 * Faults of what the user hands in: a saved notebook, a file of readings. Not bugs, so no core
 * errors: each names the place and the remedy.
 */

/** Where in the input a fault stands. Rows count from 1 and include the header. */
export interface Place {
  readonly file?: string;
  readonly row?: number;
  readonly column?: string;
}

/** Every error that reading a user's input throws on purpose. Narrow on `code`. */
export class InputError extends Error {
  override readonly name = 'InputError';
  readonly code: string;
  readonly place: Place;
  /** What is wrong, without the place. */
  readonly fault: string;
  /** What to do about it. */
  readonly remedy: string;
  constructor(code: string, place: Place, fault: string, remedy: string) {
    super(`${placeText(place)}${fault}. ${remedy}.`);
    this.code = code;
    this.place = place;
    this.fault = fault;
    this.remedy = remedy;
  }
}

function placeText({ file, row, column }: Place): string {
  const parts = [
    file,
    row === undefined ? undefined : `row ${row}`,
    column === undefined ? undefined : `column "${column}"`,
  ].filter((part) => part !== undefined);
  return parts.length === 0 ? '' : `${parts.join(', ')}: `;
}
