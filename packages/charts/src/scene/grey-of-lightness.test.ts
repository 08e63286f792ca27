/** The grey of a lightness by core, and by d3-color as a second implementation by other authors. */
import { greyOfLightness } from '@wedgebook/core';
import { lab } from 'd3';
import { describe, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';

describe('grey of a lightness', () => {
  it.each([2, 7.18, 20, 49.5, 50, 75, 91.4, 99])('L* %f is what d3-color makes of it', (value) => {
    const { r, g, b } = lab(value, 0, 0).rgb();
    // Its white point has four figures, so that its neutrals differ by a few hundredths.
    for (const channel of [r, g, b]) {
      expectWithin(255 * greyOfLightness(value), channel, 0.1, `L* ${value}`);
    }
  });
});
