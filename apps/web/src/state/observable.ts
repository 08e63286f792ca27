/** A value that tells when it changes. Session state lives in these: it is not undone. */
export class Observable<T extends object> {
  #value: T;
  readonly #listeners = new Set<() => void>();

  constructor(initial: T) {
    this.#value = initial;
  }

  get value(): T {
    return this.#value;
  }

  /** Merges changes; tells nobody where nothing changes. */
  set(changes: Partial<T>): void {
    const keys = Object.keys(changes) as (keyof T)[];
    if (keys.every((key) => Object.is(this.#value[key], changes[key]))) return;
    this.#value = { ...this.#value, ...changes };
    for (const listener of [...this.#listeners]) listener();
  }

  subscribe(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => {
      this.#listeners.delete(listener);
    };
  }
}
