/** Holds the picture apart from the page: decodes or draws it, and paints the panes. */
import { PictureError, greyOf } from '../scan/decode/decoded-picture.ts';
import { decodePicture } from '../scan/decode/decode-picture.ts';
import { demoScene, drawRows, SCENE_HEIGHT, SCENE_WIDTH } from './demo-scene.ts';
import { PanePainter } from './pane-painter.ts';
import type {
  DrawRequest,
  PictureAnswer,
  PictureFacts,
  PictureRequest,
} from './picture-messages.ts';
import { tonesOfImage, tonesOfLogs, type ToneEncoding, type TonePicture } from './tone-picture.ts';
import { tonesInView, type View } from './viewport.ts';

let picture: TonePicture | null = null;
/** Tones of the panes as last seen: a slider changes tables, not tones. */
let seen: { readonly key: string; readonly tones: Uint16Array } | null = null;
/** The picture asked for last. */
let latest = 0;
let painters: readonly PanePainter[] = [];
/** The drawing that the next frame of the screen shows; a later one takes its place. */
let awaited: DrawRequest | null = null;

/** The sketch of the scene is so many times smaller along each side. */
const SKETCH = 4;
const ROWS_AT_ONCE = 12;

function answer(message: PictureAnswer, transfer: Transferable[] = []): void {
  postMessage(message, { transfer });
}

addEventListener('message', ({ data }: MessageEvent<PictureRequest>) => {
  switch (data.kind) {
    case 'canvases':
      painters = data.canvases.map((canvas) => new PanePainter(canvas));
      break;
    case 'demo':
      void drawDemo(data.job);
      break;
    case 'file':
      latest = data.job;
      void decode(data.job, data.name, new Uint8Array(data.bytes), data.encoding);
      break;
    case 'draw':
      if (awaited === null) requestAnimationFrame(drawAwaited);
      awaited = data;
      break;
    case 'probe': {
      const at = picture === null ? undefined : picture.tones[data.y * picture.width + data.x];
      answer({ kind: 'tone', tone: at ?? null });
      break;
    }
  }
});

/** A small scene at once, and the whole one row by row, so that it never keeps a drawing waiting. */
async function drawDemo(job: number): Promise<void> {
  latest = job;
  const about = { name: null, bits: 16, original: [SCENE_WIDTH, SCENE_HEIGHT] } as const;
  const [width, height] = [SCENE_WIDTH / SKETCH, SCENE_HEIGHT / SKETCH];
  take(job, tonesOfLogs(demoScene(width, height), width, height), about);
  const logs = new Float32Array(SCENE_WIDTH * SCENE_HEIGHT);
  for (let row = 0; row < SCENE_HEIGHT; row += ROWS_AT_ONCE) {
    await new Promise((resolve) => setTimeout(resolve));
    if (latest !== job) return;
    drawRows(logs, SCENE_WIDTH, SCENE_HEIGHT, row, row + ROWS_AT_ONCE);
  }
  take(job, tonesOfLogs(logs, SCENE_WIDTH, SCENE_HEIGHT), about);
}

async function decode(
  job: number,
  name: string,
  bytes: Uint8Array<ArrayBuffer>,
  encoding: ToneEncoding,
): Promise<void> {
  try {
    const decoded = await decodePicture(bytes);
    const { bits, width, height } = decoded;
    const tones = tonesOfImage(greyOf(decoded, 'mean'), encoding);
    take(job, tones, { name, bits, original: [width, height] });
  } catch (error) {
    const [fault, detail] =
      error instanceof PictureError
        ? [error.fault, error.detail]
        : ['broken' as const, error instanceof Error ? error.message : ''];
    answer({ kind: 'fault', job, fault, detail });
  }
}

function take(
  job: number,
  next: TonePicture,
  about: Pick<PictureFacts, 'name' | 'bits' | 'original'>,
): void {
  picture = next;
  seen = null;
  const { width, height, low, high, counts } = next;
  answer({ kind: 'picture', job, facts: { width, height, low, high, counts, ...about } });
}

function drawAwaited(): void {
  const request = awaited;
  awaited = null;
  if (request === null || picture === null) return;
  const { width, height, view, tables, ground } = request;
  if (!(width > 0 && height > 0)) return;
  const begun = performance.now();
  const tones = tonesOf(picture, view, width, height);
  let panes = 0;
  tables.forEach((table, index) => {
    const pane = { tones, width, height, ground };
    if (table !== null && painters[index]?.paint(table, pane) === true) panes += 1;
  });
  answer({ kind: 'drawn', drawing: { panes, milliseconds: performance.now() - begun } });
}

function tonesOf(from: TonePicture, view: View, width: number, height: number): Uint16Array {
  const key = `${view.zoom} ${view.x} ${view.y} ${width} ${height}`;
  if (seen?.key !== key) seen = { key, tones: tonesInView(from, view, { width, height }) };
  return seen.tones;
}
