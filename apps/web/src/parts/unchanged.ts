/**
 * Leaves alone what would be drawn as it stands: of a long list, a keystroke changes one entry.
 */
import { noChange } from 'lit';

/**
 * What each entry of a list was last drawn from. `begin` once for each rendering of the list, in
 * which every entry is then drawn once.
 */
export class Unchanged {
  #before = new Map<string | number, readonly unknown[]>();
  #now = new Map<string | number, readonly unknown[]>();

  begin(): void {
    this.#before = this.#now;
    this.#now = new Map();
  }

  /**
   * What `draw` makes of the entry, or `noChange` where everything it is drawn from is the very same.
   *
   * @param key - the entry's name in the list
   * @param from - all that `draw` reads
   */
  draw<T>(key: string | number, from: readonly unknown[], draw: () => T): T | typeof noChange {
    this.#now.set(key, from);
    const before = this.#before.get(key);
    const same =
      before?.length === from.length && from.every((each, i) => Object.is(each, before[i]));
    return same ? noChange : draw();
  }
}
