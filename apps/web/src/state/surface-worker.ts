/** Fits the development surface away from the page's own thread: it may take a second. */
import {
  fitSurface,
  type SurfaceFit,
  type SurfaceOptions,
  type SurfaceStrip,
} from '@wedgebook/core';

export interface SurfaceOrder {
  readonly id: number;
  readonly strips: readonly SurfaceStrip[];
  readonly options: SurfaceOptions;
}

export interface SurfaceAnswer {
  readonly id: number;
  readonly fit: SurfaceFit;
}

addEventListener('message', ({ data }: MessageEvent<SurfaceOrder>) => {
  const { id, strips, options } = data;
  const answer: SurfaceAnswer = { id, fit: fitSurface(strips, options) };
  postMessage(answer);
});
