/** What the sheet answers when it takes a reading from an instrument. */
import type { Strip } from '@wedgebook/notebook';
import { text } from '../text.ts';
import type { Position } from './cells.ts';

/** What became of a reading that an instrument sent. */
export type Entered =
  | {
      readonly status: 'entered';
      /** Name of its cell. */
      readonly place: string;
      readonly shown: string;
      /** What stood in the cell before, or null. */
      readonly before: string | null;
      /** Name of the cell for the next reading, or null at the end of the sheet. */
      readonly next: string | null;
      /** Why it does not lie on the curve so far, or null. */
      readonly suspect: string | null;
    }
  | { readonly status: 'wrong'; readonly sentence: string }
  | { readonly status: 'no-strip' | 'full' };

/** @returns the name of a reading's cell as it is read out; null for no cell */
export function placeName(strip: Strip, at: Position | null): string | null {
  if (at === null) return null;
  const row = strip.rows[at.row];
  const name = row === undefined ? text.sheet.baseFog : text.sheet.stepNumber(row.step);
  return text.sheet.cell(name, at.column);
}
