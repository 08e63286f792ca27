/**
 * The stations after the bath, in the way of the data: print, picture, next development. Each is
 * fetched when the reader comes near it.
 */
import { html } from 'lit';
import type { LazyStation } from '../parts/lazy-station.ts';
import { text } from '../text.ts';

export const LAZY_STATIONS: readonly LazyStation[] = [
  {
    name: 'printing',
    title: text.stations.printing,
    load: () => import('./printing-station.ts'),
    template: () => html`<wb-printing></wb-printing>`,
  },
  {
    name: 'picture',
    title: text.stations.picture,
    load: () => import('../picture/picture-station.ts'),
    template: () => html`<wb-picture></wb-picture>`,
  },
  {
    name: 'development',
    title: text.stations.development,
    load: () => import('./development-station.ts'),
    template: () => html`<wb-development></wb-development>`,
  },
];
