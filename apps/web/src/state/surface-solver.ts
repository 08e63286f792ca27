/**
 * Asks for the development surface after a pause in the typing, from a worker, and keeps the last
 * answer. A newer order makes an older one void.
 */
import type { SurfaceFit } from '@wedgebook/core';
import type { TimedStrip } from './derive-development.ts';
import type { SurfaceAnswer, SurfaceOrder } from './surface-worker.ts';

const PAUSE_MILLISECONDS = 300;

export interface SolvedSurface {
  readonly fit: SurfaceFit;
  /** The strips that it was fitted to. */
  readonly strips: readonly TimedStrip[];
}

export class SurfaceSolver {
  /** The last answer; null until there is one. */
  solved: SolvedSurface | null = null;
  /** True while the last answer is not the one to the last order. */
  pending = false;
  /** True where the worker could not be started or broke down. */
  failed = false;
  readonly #changed: () => void;
  #worker: Worker | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #ordered: { readonly strips: readonly TimedStrip[]; readonly coefficient: number } | undefined;
  #id = 0;

  /** @param changed - called when an answer has come */
  constructor(changed: () => void) {
    this.#changed = changed;
  }

  /** Orders the surface of these strips, unless it is ordered already. */
  ask(strips: readonly TimedStrip[], coefficient: number): void {
    if (strips === this.#ordered?.strips && coefficient === this.#ordered.coefficient) return;
    this.#ordered = { strips, coefficient };
    this.#id += 1;
    const id = this.#id;
    this.pending = true;
    clearTimeout(this.#timer);
    const order = () => {
      const order: SurfaceOrder = {
        id,
        strips: strips.map(({ development, fit }) => ({ ...development, readings: fit.readings })),
        options: { temperatureCoefficient: coefficient },
      };
      this.#start().postMessage(order);
    };
    this.#timer = setTimeout(order, this.solved === null ? 0 : PAUSE_MILLISECONDS);
  }

  /** Ends the worker; the next order starts another. */
  stop(): void {
    clearTimeout(this.#timer);
    this.#worker?.terminate();
    this.#worker = undefined;
    this.#ordered = undefined;
  }

  #start(): Worker {
    if (this.#worker !== undefined) return this.#worker;
    const worker = new Worker(new URL('./surface-worker.ts', import.meta.url), { type: 'module' });
    worker.addEventListener('message', ({ data }: MessageEvent<SurfaceAnswer>) => {
      if (data.id !== this.#id || this.#ordered === undefined) return;
      this.solved = { fit: data.fit, strips: this.#ordered.strips };
      this.pending = false;
      this.failed = false;
      this.#changed();
    });
    worker.addEventListener('error', () => {
      this.pending = false;
      this.failed = true;
      this.#changed();
    });
    this.#worker = worker;
    return worker;
  }
}
