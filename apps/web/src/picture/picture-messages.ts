/** What passes between the page and the worker that holds the picture. */
import type { PictureFault } from '../scan/decode/decoded-picture.ts';
import type { ToneEncoding, TonePicture } from './tone-picture.ts';
import type { View } from './viewport.ts';

/** A picture without its pixels, as the page knows it. */
export type PictureFacts = Omit<TonePicture, 'tones'> & {
  /** Name of the file, or null for the scene of the demonstration. */
  readonly name: string | null;
  readonly bits: number;
  /** Sides of the file's picture, before it was reduced. */
  readonly original: readonly [number, number];
};

export type PictureRequest =
  /** The panes' canvases, handed over once. */
  | { readonly kind: 'canvases'; readonly canvases: readonly OffscreenCanvas[] }
  | { readonly kind: 'demo'; readonly job: number }
  | {
      readonly kind: 'file';
      readonly job: number;
      readonly name: string;
      readonly bytes: ArrayBuffer;
      readonly encoding: ToneEncoding;
    }
  | DrawRequest
  | { readonly kind: 'probe'; readonly x: number; readonly y: number };

export interface DrawRequest {
  readonly kind: 'draw';
  /** Pixels of each pane. */
  readonly width: number;
  readonly height: number;
  readonly view: View;
  /** Colours by tone for each pane; null leaves a pane as it is: hidden, or out of sight. */
  readonly tables: readonly (Uint32Array | null)[];
  readonly ground: number;
}

/** What one drawing took. */
export interface Drawing {
  /** Panes painted anew; the others showed the same already, or nothing. */
  readonly panes: number;
  readonly milliseconds: number;
}

export type PictureAnswer =
  | { readonly kind: 'picture'; readonly job: number; readonly facts: PictureFacts }
  | {
      readonly kind: 'fault';
      readonly job: number;
      readonly fault: PictureFault;
      readonly detail: string;
    }
  | { readonly kind: 'drawn'; readonly drawing: Drawing }
  | { readonly kind: 'tone'; readonly tone: number | null };
