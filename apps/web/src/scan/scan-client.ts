/** The page's side of the scan's worker: one request after another, each with its answer. */
import type { ScreenInk } from '../picture/screen-table.ts';
import { PictureError } from './decode/decoded-picture.ts';
import type {
  ReadQuestion,
  ScanAnswer,
  ScanFacts,
  ScanReply,
  ScanRequest,
} from './scan-messages.ts';

export class ScanClient {
  readonly #worker = new Worker(new URL('./scan.worker.ts', import.meta.url), { type: 'module' });
  #waiting: ((reply: ScanReply) => void)[] = [];

  constructor() {
    this.#worker.addEventListener('message', ({ data }: MessageEvent<ScanReply>) => {
      this.#waiting.shift()?.(data);
    });
    // A worker that could not be fetched answers nothing.
    this.#worker.addEventListener('error', ({ message }) => {
      for (const answer of this.#waiting.splice(0)) answer({ kind: 'failed', message });
    });
  }

  /** @throws {PictureError} where the file cannot be read */
  async open(file: File): Promise<ScanFacts> {
    const bytes = await file.arrayBuffer();
    const reply = await this.#ask({ kind: 'open', bytes }, [bytes]);
    if (reply.kind === 'fault') throw new PictureError(reply.fault, reply.detail);
    if (reply.kind === 'opened') return reply.facts;
    throw new PictureError('broken', reply.kind === 'failed' ? reply.message : '');
  }

  /** A small image to mark the strips on, or null where no picture is open. */
  async preview(ink: ScreenInk, inverted: boolean): Promise<ImageBitmap | null> {
    const reply = await this.#ask({ kind: 'preview', ink, inverted });
    return reply.kind === 'preview' ? reply.bitmap : null;
  }

  /** @throws {Error} where the marks are no strips */
  async read(question: ReadQuestion): Promise<ScanAnswer> {
    const reply = await this.#ask({ kind: 'read', question });
    if (reply.kind === 'read') return reply.answer;
    throw new Error(reply.kind === 'failed' ? reply.message : reply.kind);
  }

  #ask(request: ScanRequest, transfer: Transferable[] = []): Promise<ScanReply> {
    this.#worker.postMessage(request, transfer);
    return new Promise((resolve) => {
      this.#waiting.push(resolve);
    });
  }
}
