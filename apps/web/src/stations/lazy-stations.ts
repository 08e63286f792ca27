/**
 * The stations after the bath, in the way of the data: print, picture, next development. Each is
 * fetched when the reader comes near it.
 *
 *     { name: 'printing', title: text.stations.printing,
 *       load: () => import('./printing-station.ts'),
 *       template: () => html`<wb-printing></wb-printing>` }
 */
import type { LazyStation } from '../parts/lazy-station.ts';

export const LAZY_STATIONS: readonly LazyStation[] = [];
