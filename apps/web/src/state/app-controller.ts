/**
 * Gives an element the app and re-renders it only when the part it selects changes identity. An
 * element out of sight follows when the user pauses, so that a keystroke waits for none of them.
 */
import { ContextConsumer } from '@lit/context';
import type { LitElement, ReactiveController } from 'lit';
import { soundFigures } from '@wedgebook/notebook';
import { afterFrame, afterPause, forget } from './after-frame.ts';
import { appContext, type App, type View } from './app.ts';
import { isInSight, watchStationOf } from './in-sight.ts';

/** The view of the app at this moment; of figures that cannot be, the usual ones are shown. */
function viewOf(app: App): View {
  const { state } = app.store;
  const { document } = soundFigures(state.document);
  return { ...state, document, session: app.session.value };
}

/** Whether a part follows in the frame that answers a keystroke, while in sight, or after it. */
export type When = 'in-frame' | 'after-frame';

export class AppController<T> implements ReactiveController {
  /** The selected part; undefined until the element is connected. */
  value: T | undefined;
  #app: App | undefined;
  #off: (() => void)[] = [];
  #station: Element | undefined;
  readonly #host: LitElement;
  readonly #select: (view: View, app: App) => T;
  readonly #same: (a: T, b: T) => boolean;
  readonly #when: When;

  constructor(
    host: LitElement,
    select: (view: View, app: App) => T,
    same: (a: T, b: T) => boolean = shallowEqual,
    when: When = 'in-frame',
  ) {
    this.#host = host;
    this.#select = select;
    this.#same = same;
    this.#when = when;
    new ContextConsumer(host, {
      context: appContext,
      callback: (app) => {
        this.#app = app;
        this.#listen();
      },
    });
    host.addController(this);
  }

  get app(): App {
    if (this.#app === undefined) throw new Error('the element is not inside the app');
    return this.#app;
  }

  /** Has a sentence seen and spoken. */
  say(says: string): void {
    this.app.session.set({ announcement: { says } });
  }

  /** The part as the notebook stands now, whatever the element shows. */
  get now(): T {
    return this.#select(viewOf(this.app), this.app);
  }

  hostConnected(): void {
    this.#listen();
  }

  hostDisconnected(): void {
    for (const off of this.#off) off();
    this.#off = [];
    forget(this.#read);
  }

  #listen(): void {
    if (this.#app === undefined || this.#off.length > 0) return;
    this.#station = watchStationOf(this.#host);
    this.#off = [this.#app.store.subscribe(this.#heed), this.#app.session.subscribe(this.#heed)];
    void this.#read();
  }

  readonly #heed = (): void => {
    if (this.#station !== undefined && !isInSight(this.#station)) afterPause(this.#read);
    else if (this.#when === 'after-frame') afterFrame(this.#read);
    else void this.#read();
  };

  /** Reads the selected part; the promise resolves when the element shows it. */
  readonly #read = (): Promise<unknown> | undefined => {
    if (this.#app === undefined) return undefined;
    const next = this.#select(viewOf(this.#app), this.#app);
    if (this.value !== undefined && this.#same(this.value, next)) return undefined;
    this.value = next;
    this.#host.requestUpdate();
    return this.#host.updateComplete;
  };
}

/** Equality of the fields of two plain objects, or of two values. */
export function shallowEqual(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  const keys = Object.keys(a);
  return (
    keys.length === Object.keys(b).length &&
    keys.every((key) =>
      Object.is((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]),
    )
  );
}
