/**
 * A number as people write it in a table, read strictly: all of the cell or nothing.
 */
import type { Place } from '../notebook-error.ts';
import { inputFault } from '../wording/input-fault.ts';

const WITH_POINT = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i;
const WITH_COMMA = /^[+-]?(?:\d+,\d*|,\d+)(?:e[+-]?\d+)?$/i;

/**
 * Number of a cell that is not empty.
 *
 * @param cell - trimmed text; the typographic minus sign is read as a minus
 * @param decimalComma - whether a decimal comma is read, as between semicolons or tabs
 * @param place - for the message
 * @throws {InputError} `comma-for-point` or `not-a-number`
 */
export function numberFromCell(cell: string, decimalComma: boolean, place: () => Place): number {
  const text = cell.replace('\u2212', '-');
  if (WITH_POINT.test(text)) {
    const value = Number(text);
    if (Number.isFinite(value)) return value;
  } else if (WITH_COMMA.test(text)) {
    if (!decimalComma) throw inputFault.commaForPoint(place(), cell);
    return Number(text.replace(',', '.'));
  }
  throw inputFault.notANumber(place(), cell);
}
