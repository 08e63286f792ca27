/**
 * Undoable store of one immutable document. Knows nothing of the screen or of storage.
 */

/** What a listener sees. */
export interface StoreState<Doc> {
  readonly document: Doc;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
}

interface Entry<Doc> {
  readonly before: Doc;
  readonly after: Doc;
  readonly mergeKey: string | undefined;
}

/**
 * Holds the document, applies commands, and remembers whole documents for undo; since unchanged
 * parts are shared between them, a step of undo costs only what changed.
 */
export class DocumentStore<Doc, Cmd extends { readonly mergeKey?: string }> {
  #document: Doc;
  #past: Entry<Doc>[] = [];
  #future: Entry<Doc>[] = [];
  readonly #listeners = new Set<() => void>();
  readonly #apply: (document: Doc, command: Cmd) => Doc;
  readonly #limit: number;

  /**
   * @param initial - the document to begin with
   * @param apply - pure; returns the same object where a command changes nothing
   * @param options - `limit`: steps of undo kept
   */
  constructor(
    initial: Doc,
    apply: (document: Doc, command: Cmd) => Doc,
    { limit = 200 }: { readonly limit?: number } = {},
  ) {
    this.#document = initial;
    this.#apply = apply;
    this.#limit = limit;
  }

  get state(): StoreState<Doc> {
    return {
      document: this.#document,
      canUndo: this.#past.length > 0,
      canRedo: this.#future.length > 0,
    };
  }

  /** Applies a command; one that changes nothing leaves history and listeners alone. */
  dispatch(command: Cmd): void {
    const before = this.#document;
    const after = this.#apply(before, command);
    if (Object.is(before, after)) return;
    const last = this.#past.at(-1);
    const merges =
      command.mergeKey !== undefined &&
      last?.mergeKey === command.mergeKey &&
      this.#future.length === 0;
    if (merges) this.#past.pop();
    this.#past.push({
      before: merges ? last.before : before,
      after,
      mergeKey: command.mergeKey,
    });
    if (this.#past.length > this.#limit) this.#past.shift();
    this.#future = [];
    this.#set(after);
  }

  /** Ends a gesture: the next command is a step of its own even with the same merge key. */
  endMerge(): void {
    const last = this.#past.pop();
    if (last !== undefined) this.#past.push({ ...last, mergeKey: undefined });
  }

  /**
   * Takes the last step back as if it had never been, where it began at `before`: a gesture that
   * came to nothing leaves nothing to undo or redo.
   *
   * @returns false, with nothing changed, where the last step began elsewhere
   */
  withdraw(before: Doc): boolean {
    if (this.#past.at(-1)?.before !== before) return false;
    this.#past.pop();
    this.#set(before);
    return true;
  }

  undo(): void {
    const entry = this.#past.pop();
    if (entry === undefined) return;
    this.#future.push(entry);
    this.#set(entry.before);
  }

  redo(): void {
    const entry = this.#future.pop();
    if (entry === undefined) return;
    this.#past.push({ ...entry, mergeKey: undefined });
    this.#set(entry.after);
  }

  /** @returns a function that ends the subscription */
  subscribe(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => {
      this.#listeners.delete(listener);
    };
  }

  #set(document: Doc): void {
    this.#document = document;
    for (const listener of [...this.#listeners]) listener();
  }
}
