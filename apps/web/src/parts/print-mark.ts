import type { ReactiveController, ReactiveElement } from 'lit';

/** Marks the page with the attribute `printing` while it is printed. */
export class PrintMark implements ReactiveController {
  readonly #host: ReactiveElement;

  constructor(host: ReactiveElement) {
    this.#host = host;
    host.addController(this);
  }

  hostConnected(): void {
    addEventListener('beforeprint', this.#onPrint);
    addEventListener('afterprint', this.#onPrint);
  }

  hostDisconnected(): void {
    removeEventListener('beforeprint', this.#onPrint);
    removeEventListener('afterprint', this.#onPrint);
  }

  readonly #onPrint = ({ type }: Event): void => {
    this.#host.toggleAttribute('printing', type === 'beforeprint');
  };
}
