/** Lines of a text fed in pieces, ended by LF, CRLF or CR, wherever the pieces are cut. */
import type { Place } from '../notebook-error.ts';
import { inputFault } from '../wording/input-fault.ts';

/** A line may have at most this many characters: more is no line, and must not be held. */
const MOST_HELD_BACK = 1_000_000;

export interface LineReader {
  readonly push: (text: string) => void;
  readonly end: () => void;
}

/**
 * @param onLine - called for every line without its end; numbers count from 1
 * @param place - names the file in messages
 * @throws {InputError} from `push`: a line too long
 */
export function lineReader(
  onLine: (line: string, number: number) => void,
  place: Place = {},
): LineReader {
  let pending = '';
  let number = 0;
  return {
    push: (text) => {
      const lines = (pending + text).split(/\r\n|\n|\r(?!$)/);
      pending = lines.pop() ?? '';
      for (const line of lines) onLine(line, (number += 1));
      if (pending.length > MOST_HELD_BACK) {
        throw inputFault.rowTooLong({ ...place, row: number + 1 }, MOST_HELD_BACK);
      }
    },
    end: () => {
      // A carriage return may have been held back, to see what follows it.
      if (pending !== '') onLine(pending.replace(/\r$/, ''), number + 1);
    },
  };
}
