/**
 * Ink values for paper. Black, blue and vermillion of the Okabe-Ito set keep 3:1 on white; every
 * series also differs by dash, weight and marker, so that a grey copy reads the same.
 */
import type { Ink } from './mark.ts';

export type Palette = Readonly<Record<Ink, string>>;

export const printPalette: Palette = {
  text: '#141414',
  quiet: '#4a4a4a',
  rule: '#d9d9d9',
  frame: '#6b6b6b',
  before: '#141414',
  after: '#a33b00',
  paper: '#005a8f',
  other: '#7c7c7c',
  alert: '#141414',
  ground: '#ffffff',
};
