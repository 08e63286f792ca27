import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** Takes files that are dropped on the page; the browser would leave the page for them. */
export class FileDrop implements ReactiveController {
  readonly #onFiles: (files: readonly File[]) => void;

  constructor(host: ReactiveControllerHost, onFiles: (files: readonly File[]) => void) {
    this.#onFiles = onFiles;
    host.addController(this);
  }

  hostConnected(): void {
    addEventListener('dragover', this.#onDrag);
    addEventListener('drop', this.#onDrag);
  }

  hostDisconnected(): void {
    removeEventListener('dragover', this.#onDrag);
    removeEventListener('drop', this.#onDrag);
  }

  readonly #onDrag = (event: DragEvent): void => {
    const { dataTransfer } = event;
    if (dataTransfer?.types.includes('Files') !== true) return;
    event.preventDefault();
    if (event.type === 'drop') this.#onFiles([...dataTransfer.files]);
  };
}
