/**
 * Paints one pane in the worker: a table of colours laid over the tones in view.
 *
 * The canvas was handed over, so that its pixels reach the screen without passing through the page.
 * All panes are painted into the same memory, one after the other: fresh memory for each drawing
 * took longer to get than to fill.
 */
import { TONE_LEVELS } from './tone-picture.ts';
import { NO_TONE, paint } from './viewport.ts';

/** What a pane shows beside its own colours. */
export interface PaneTones {
  /** A tone for each pixel; see `tonesInView`. */
  readonly tones: Uint16Array;
  readonly width: number;
  readonly height: number;
  /** Packed colour beside the picture. */
  readonly ground: number;
}

let shared: ImageData | null = null;

/** Memory of a size, kept until another size is asked for. */
function imageOf(width: number, height: number): ImageData {
  if (shared?.width !== width || shared.height !== height) shared = new ImageData(width, height);
  return shared;
}

export class PanePainter {
  readonly #canvas: OffscreenCanvas;
  readonly #context: OffscreenCanvasRenderingContext2D | null;
  /** Colours by tone, and last the ground. */
  readonly #colours = new Uint32Array(TONE_LEVELS + 1);
  /** Tones that the canvas shows in these colours. */
  #shown: Uint16Array | null = null;

  constructor(canvas: OffscreenCanvas) {
    this.#canvas = canvas;
    this.#context = canvas.getContext('2d', { alpha: false });
  }

  /** @returns false where the canvas shows this already: a bath leaves untreated prints alone */
  paint(table: Uint32Array, { tones, width, height, ground }: PaneTones): boolean {
    const colours = this.#colours;
    if (this.#shown === tones && colours[NO_TONE] === ground && startsWith(colours, table)) {
      return false;
    }
    colours.set(table);
    colours[NO_TONE] = ground;
    if (this.#canvas.width !== width) this.#canvas.width = width;
    if (this.#canvas.height !== height) this.#canvas.height = height;
    const image = imageOf(width, height);
    paint(tones, colours, new Uint32Array(image.data.buffer));
    this.#context?.putImageData(image, 0, 0);
    this.#shown = tones;
    return true;
  }
}

function startsWith(colours: Uint32Array, table: Uint32Array): boolean {
  for (let tone = 0; tone < table.length; tone++) {
    if (colours[tone] !== table[tone]) return false;
  }
  return true;
}
