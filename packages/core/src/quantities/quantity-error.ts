/**
 * The error of a quantity that cannot be read. It is the user's typing, not a bug, so the app and
 * the command catch it and show the reason in their own words.
 */
import { WedgebookError } from '../errors.ts';

/** Why a text is no quantity. */
export type QuantityFault =
  | 'empty'
  | 'too-long'
  | 'not-a-number'
  | 'ambiguous-number'
  | 'unit-missing'
  | 'unknown-unit'
  | 'wrong-dimension'
  | 'out-of-range'
  | 'not-a-dilution'
  | 'ambiguous-dilution';

/** A text that is no quantity of the kind wanted. Narrow on `fault`. */
export class QuantityError extends WedgebookError {
  override readonly name = 'QuantityError';
  readonly fault: QuantityFault;
  /** What would have been read, such as `a volume such as 250 ml`. */
  readonly expected: string;
  constructor(fault: QuantityFault, text: string, expected: string) {
    super(
      'quantity-not-read',
      `quantity: expected ${expected}; received "${text.slice(0, 60)}" (${fault})`,
      { fault, expected, text: text.slice(0, 60) },
    );
    this.fault = fault;
    this.expected = expected;
  }
}
