/** Holds a scan apart from the page: decodes it and reads its strips. */
import { answerOfScan } from './answer-of-scan.ts';
import { decodePicture } from './decode/decode-picture.ts';
import { greyOf, PictureError, type DecodedPicture } from './decode/decoded-picture.ts';
import { previewImage } from './preview-image.ts';
import type { ScanReply, ScanRequest } from './scan-messages.ts';

let picture: DecodedPicture | null = null;
/** Requests are worked off one by one, so that answers come in their order. */
let queue: Promise<void> = Promise.resolve();

addEventListener('message', ({ data }: MessageEvent<ScanRequest>) => {
  queue = queue.then(() => work(data));
});

async function work(request: ScanRequest): Promise<void> {
  try {
    const reply = await replyTo(request);
    postMessage(reply, {
      transfer: reply.kind === 'preview' && reply.bitmap !== null ? [reply.bitmap] : [],
    });
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    postMessage({ kind: 'failed', message } satisfies ScanReply);
  }
}

async function replyTo(request: ScanRequest): Promise<ScanReply> {
  if (request.kind === 'open') {
    try {
      picture = await decodePicture(new Uint8Array(request.bytes));
    } catch (error) {
      if (!(error instanceof PictureError)) throw error;
      return { kind: 'fault', fault: error.fault, detail: error.detail };
    }
    const { format, width, height, bits, channels } = picture;
    return { kind: 'opened', facts: { format, width, height, bits, channels } };
  }
  if (request.kind === 'preview') {
    if (picture === null) return { kind: 'preview', bitmap: null };
    const small = previewImage(greyOf(picture, 'green'), request.ink, request.inverted);
    return { kind: 'preview', bitmap: await createImageBitmap(small) };
  }
  if (picture === null) return { kind: 'failed', message: 'no picture' };
  const { question } = request;
  return { kind: 'read', answer: answerOfScan(greyOf(picture, question.channel), question) };
}
