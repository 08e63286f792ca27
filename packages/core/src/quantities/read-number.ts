/**
 * The number at the beginning of what people type: 250, 2.5, 2,5, 1/4, 1 1/2.
 */
import { QuantityError } from './quantity-error.ts';

export interface LeadingNumber {
  readonly value: number;
  /** The text after the number, trimmed. */
  readonly rest: string;
}

/** Longest text that is looked at. */
const LONGEST = 60;
const DECIMAL = '[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+';
const MIXED = /^([0-9]+)\s+([0-9]+)\s*[/⁄]\s*([0-9]+)(?![0-9])/;
const FRACTION = new RegExp(`^([0-9]+)\\s*[/⁄]\\s*([0-9]+)(?![0-9.,])`);
const PLAIN = new RegExp(`^[+-]?(?:${DECIMAL})(?:[eE][+-]?[0-9]+)?(?![0-9.,])`);
const HALVES: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅓': '1/3',
  '⅔': '2/3',
};

/**
 * Reads the number that a text begins with.
 *
 * @param text - as typed
 * @param expected - what was wanted, for the error
 * @returns the number and the rest of the text
 * @throws QuantityError `empty`, `too-long`, `not-a-number`, or `ambiguous-number` where a comma may
 *   mean thousands (1,000)
 */
export function readNumber(text: string, expected: string): LeadingNumber {
  if (text.length > LONGEST) throw new QuantityError('too-long', text, expected);
  const trimmed = text
    .replace(/\s+/g, ' ')
    .replace(/([0-9]?)([½¼¾⅓⅔])/g, (_, digit: string, half: string) =>
      digit === '' ? (HALVES[half] ?? half) : `${digit} ${HALVES[half] ?? half}`,
    )
    .replace(/−/g, '-')
    .trim();
  if (trimmed === '') throw new QuantityError('empty', text, expected);
  const mixed = MIXED.exec(trimmed);
  if (mixed) {
    const [whole, , top = '', bottom = ''] = mixed;
    return finite(Number(mixed[1]) + Number(top) / Number(bottom), trimmed, whole, expected);
  }
  const fraction = FRACTION.exec(trimmed);
  if (fraction) {
    return finite(Number(fraction[1]) / Number(fraction[2]), trimmed, fraction[0], expected);
  }
  const plain = PLAIN.exec(trimmed);
  if (!plain) throw new QuantityError('not-a-number', text, expected);
  if (/^[+-]?[1-9][0-9]{0,2},[0-9]{3}$/.test(plain[0])) {
    throw new QuantityError('ambiguous-number', text, expected);
  }
  return finite(Number(plain[0].replace(',', '.')), trimmed, plain[0], expected);
}

function finite(value: number, text: string, read: string, expected: string): LeadingNumber {
  if (!Number.isFinite(value)) throw new QuantityError('not-a-number', text, expected);
  return { value, rest: text.slice(read.length).trim() };
}
