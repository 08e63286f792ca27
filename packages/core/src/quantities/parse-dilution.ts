/**
 * Dilutions as people write them.
 *
 * Sources: common practice: 1+n is one part of concentrate and n of water. Deviations: 1:n is
 * refused, since old texts mean 1+n or one part in n by it.
 */
import { QuantityError } from './quantity-error.ts';

const EXPECTED = 'a dilution such as 1+3';
const PART = '([0-9]{1,4}(?:[.,][0-9]{1,3})?)';
const PLUS = new RegExp(`^${PART}\\s*\\+\\s*${PART}$`);
const COLON = new RegExp(`^${PART}\\s*[:/]\\s*${PART}$`);

/** What 1:n may mean. */
export interface DilutionReadings {
  /** Parts of water if 1:n is meant as 1+n. */
  readonly asParts: number;
  /** Parts of water if it is meant as one part in n of the whole. */
  readonly asOneInWhole: number;
}

/**
 * Parts of water to one part of concentrate.
 *
 * @param text - `1+3`, `1 + 3`, `2+7`, `stock`, `undiluted`
 * @returns n of 1+n; 0 for stock
 * @throws QuantityError `ambiguous-dilution` for 1:n (ask with `readingsOfColon`), `not-a-dilution`
 *   for anything else
 * @example
 * parseDilution('1+9'); // => 9
 */
export function parseDilution(text: string): number {
  const trimmed = text.trim().toLowerCase();
  if (trimmed === '') throw new QuantityError('empty', text, EXPECTED);
  if (trimmed === 'stock' || trimmed === 'undiluted') return 0;
  const plus = PLUS.exec(trimmed);
  if (plus) {
    const concentrate = numberOf(plus[1]);
    const water = numberOf(plus[2]);
    if (!(concentrate > 0)) throw new QuantityError('not-a-dilution', text, EXPECTED);
    return water / concentrate;
  }
  const colon = COLON.test(trimmed);
  throw new QuantityError(colon ? 'ambiguous-dilution' : 'not-a-dilution', text, EXPECTED);
}

/**
 * Both meanings of a dilution written with a colon, to ask the user by.
 *
 * @param text - `1:9`
 * @throws QuantityError `not-a-dilution` if the text has no such form, or one part in less than one
 * @example
 * readingsOfColon('1:9'); // => { asParts: 9, asOneInWhole: 8 }
 */
export function readingsOfColon(text: string): DilutionReadings {
  const colon = COLON.exec(text.trim());
  const first = numberOf(colon?.[1]);
  const second = numberOf(colon?.[2]);
  if (!(first > 0 && second >= first)) throw new QuantityError('not-a-dilution', text, EXPECTED);
  return { asParts: second / first, asOneInWhole: second / first - 1 };
}

const numberOf = (part: string | undefined): number => Number((part ?? '').replace(',', '.'));
