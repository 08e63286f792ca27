/**
 * Cuts the text of an instrument into lines as it comes in pieces. A line ends with a return, a
 * line feed or both, also where the two come in different pieces; a return alone ends it at once,
 * for an instrument that sends no line feed would otherwise always be one reading behind.
 */

/** No densitometer's line is longer; more is another rate of transmission, or no line end at all. */
const MOST_CHARACTERS = 400;

/** Control characters that frame lines and mean nothing to a reader. */
const CONTROL = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/g;

export class LineSplitter {
  #pending = '';
  #afterReturn = false;
  #skipping = false;

  /** What has come of a line that has not ended. */
  get pending(): string {
    return this.#pending;
  }

  /**
   * @param piece - text in the order in which it came
   * @returns the lines that it completes, trimmed, without empty ones; and whether one grew too
   *   long, which is left out to its end
   */
  push(piece: string): { readonly lines: readonly string[]; readonly overlong: boolean } {
    const lines: string[] = [];
    let overlong = false;
    for (const character of piece.replace(CONTROL, '')) {
      const closesPair = character === '\n' && this.#afterReturn;
      this.#afterReturn = character === '\r';
      if (closesPair) continue;
      if (character === '\r' || character === '\n') {
        const line = this.#pending.trim();
        if (!this.#skipping && line !== '') lines.push(line);
        this.#pending = '';
        this.#skipping = false;
      } else if (!this.#skipping) {
        this.#pending += character;
        if (this.#pending.length > MOST_CHARACTERS) {
          overlong = true;
          this.skip();
        }
      }
    }
    return { lines, overlong };
  }

  /** Leaves out what has come of the line and what will come of it. */
  skip(): void {
    this.#pending = '';
    this.#skipping = true;
  }
}
