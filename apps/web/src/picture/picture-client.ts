/** The page's side of the picture's worker, which paints the canvases that it was handed. */
import type {
  Drawing,
  DrawRequest,
  PictureAnswer,
  PictureFacts,
  PictureRequest,
} from './picture-messages.ts';
import { PictureError } from '../scan/decode/decoded-picture.ts';
import type { ToneEncoding } from './tone-picture.ts';

interface Waiting {
  readonly job: number;
  readonly resolve: (facts: PictureFacts) => void;
  readonly reject: (error: PictureError) => void;
}

export class PictureClient {
  readonly #worker = new Worker(new URL('./picture.worker.ts', import.meta.url), {
    type: 'module',
  });
  readonly #onDrawn: (drawing: Drawing) => void;
  /** Told when the picture that was answered first as a sketch is there in full. */
  onRefined: (facts: PictureFacts) => void = () => undefined;
  #job = 0;
  #waiting: Waiting | null = null;
  #probes: ((tone: number | null) => void)[] = [];

  constructor(onDrawn: (drawing: Drawing) => void) {
    this.#onDrawn = onDrawn;
    this.#worker.addEventListener('message', ({ data }: MessageEvent<PictureAnswer>) => {
      this.#take(data);
    });
    // A worker that could not be fetched answers nothing.
    this.#worker.addEventListener('error', ({ message }) => {
      this.#waiting?.reject(new PictureError('broken', message));
    });
  }

  demo(): Promise<PictureFacts> {
    const job = ++this.#job;
    this.#send({ kind: 'demo', job });
    return this.#wait(job);
  }

  /** @throws {PictureError} where the file cannot be read */
  async file(file: File, encoding: ToneEncoding): Promise<PictureFacts> {
    const job = ++this.#job;
    const bytes = await file.arrayBuffer();
    this.#send({ kind: 'file', job, name: file.name, bytes, encoding }, [bytes]);
    return this.#wait(job);
  }

  /** Hands the canvases of the panes to the worker; once, for they cannot be taken back. */
  paintOn(elements: readonly HTMLCanvasElement[]): void {
    const canvases = elements.map((canvas) => canvas.transferControlToOffscreen());
    this.#send({ kind: 'canvases', canvases }, canvases);
  }

  /** Of drawings asked for within a frame of the screen the worker makes only the last. */
  draw(request: Omit<DrawRequest, 'kind'>): void {
    this.#send({ kind: 'draw', ...request });
  }

  /** The tone of a pixel. */
  probe(x: number, y: number): Promise<number | null> {
    this.#send({ kind: 'probe', x, y });
    return new Promise((resolve) => {
      this.#probes.push(resolve);
    });
  }

  close(): void {
    this.#worker.terminate();
  }

  #send(message: PictureRequest, transfer: Transferable[] = []): void {
    this.#worker.postMessage(message, transfer);
  }

  /** An older job is given up where a newer one is asked for. */
  #wait(job: number): Promise<PictureFacts> {
    return new Promise((resolve, reject) => {
      this.#waiting = { job, resolve, reject };
    });
  }

  #take(message: PictureAnswer): void {
    switch (message.kind) {
      case 'picture':
        if (message.job === this.#waiting?.job) {
          this.#waiting.resolve(message.facts);
          this.#waiting = null;
        } else if (message.job === this.#job) {
          this.onRefined(message.facts);
        }
        break;
      case 'fault':
        if (message.job === this.#waiting?.job) {
          this.#waiting.reject(new PictureError(message.fault, message.detail));
          this.#waiting = null;
        }
        break;
      case 'drawn':
        this.#onDrawn(message.drawing);
        break;
      case 'tone':
        this.#probes.shift()?.(message.tone);
        break;
    }
  }
}
