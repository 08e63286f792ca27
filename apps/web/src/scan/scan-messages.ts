/** What passes between the page and the worker that holds a scan. */
import type { PatchRow, ScanFault, StripPlace, Warning } from '@wedgebook/core';
import type { ScreenInk } from '../picture/screen-table.ts';
import type { DecodedPicture, PictureChannel, PictureFault } from './decode/decoded-picture.ts';

export type ScanFacts = Pick<DecodedPicture, 'format' | 'width' | 'height' | 'bits' | 'channels'>;

/** A strip as it was marked and what it was exposed or made by. */
interface StripQuestion {
  readonly place: StripPlace;
  readonly count: number;
}

export interface ReadQuestion {
  readonly tablet: StripQuestion;
  readonly tabletDensities: readonly (number | null)[];
  readonly strip: StripQuestion;
  readonly channel: PictureChannel;
  /** True for a file in which light and dark were exchanged. */
  readonly inverted: boolean;
}

/** One step of the strip. */
export interface StepAnswer {
  readonly step: number;
  /** Null where no density can be given; see `status`. */
  readonly density: number | null;
  readonly standardError: number | null;
  readonly status: 'ok' | 'thinner' | 'denser' | 'clipped';
  readonly darkness: number;
  /** Part of the pixels left out as dust or scratches. */
  readonly rejected: number;
  readonly pixels: number;
}

interface TabletAnswer {
  readonly step: number;
  readonly density: number | null;
  readonly darkness: number;
  readonly difference: number | null;
}

/** What core read, as plain data that a message can carry. */
export type ScanAnswer =
  | {
      readonly status: 'ok';
      readonly steps: readonly StepAnswer[];
      readonly tablet: readonly TabletAnswer[];
      readonly rows: { readonly strip: PatchRow; readonly tablet: PatchRow };
      readonly form: 'power' | 'screen' | 'smooth';
      readonly exponent: number | null;
      readonly flare: number | null;
      readonly tabletScatter: number;
      readonly lightSpan: number | null;
      /** Densities and the darkness that the response gives them. */
      readonly curve: readonly { readonly density: number; readonly darkness: number }[];
      readonly warnings: readonly Warning[];
    }
  | {
      readonly status: 'not-determined';
      readonly reason: ScanFault;
      readonly warnings: readonly Warning[];
    };

export type ScanRequest =
  | { readonly kind: 'open'; readonly bytes: ArrayBuffer }
  | { readonly kind: 'preview'; readonly ink: ScreenInk; readonly inverted: boolean }
  | { readonly kind: 'read'; readonly question: ReadQuestion };

/** Answers come in the order of the requests. */
export type ScanReply =
  | { readonly kind: 'opened'; readonly facts: ScanFacts }
  | { readonly kind: 'fault'; readonly fault: PictureFault; readonly detail: string }
  | { readonly kind: 'preview'; readonly bitmap: ImageBitmap | null }
  | { readonly kind: 'read'; readonly answer: ScanAnswer }
  | { readonly kind: 'failed'; readonly message: string };
