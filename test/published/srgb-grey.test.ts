/**
 * [IEC61966] The screen's grey of a CIE lightness by the published transfer function. A second
 * implementation by other authors, d3-color, is compared in packages/charts.
 */
import { describe, expect, it } from 'vitest';
import { greyOfLightness, InvalidArgumentError } from '@wedgebook/core';
import { expectWithin, printedTo } from '../within.ts';

const lightnessOf = (y: number) => (y > 216 / 24389 ? 116 * Math.cbrt(y) - 16 : (24389 / 27) * y);

describe('[IEC61966] transfer function', () => {
  it('is black at 0 and white at 100', () => {
    expect(greyOfLightness(0)).toBe(0);
    expectWithin(greyOfLightness(100), 1, 1e-12);
  });

  it('joins its two parts at 0.0031308, value 0.04045', () => {
    expectWithin(greyOfLightness(lightnessOf(0.0031308)), 0.04045, printedTo(5));
    expectWithin(greyOfLightness(lightnessOf(0.0031309)), 0.04045, printedTo(5));
  });

  it('[derived] 18 % reflectance is 117.6 of 255', () => {
    expectWithin(255 * greyOfLightness(lightnessOf(0.18)), 117.6, printedTo(1));
  });

  it.each([NaN, -1, 101, Infinity])('refuses %f', (bad) => {
    expect(() => greyOfLightness(bad)).toThrow(InvalidArgumentError);
  });
});
