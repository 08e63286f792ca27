/**
 * How dark a density comes out in a file: two forms, fitted to the known tablet.
 *
 *   power of the light   y = a - q log10(10^-D + f)
 *   screen encoding      y = -log10 enc(10^-a (10^-D + f))
 *                        enc(v) = 12.92 v up to 0.0031308, 1.055 v^(1/2.4) - 0.055 beyond
 *
 * y darkness, -log10 of the value over the greatest; a darkness of the open light; q exponent, 1 in
 * a file proportional to light; f flare, light from elsewhere as a part of the open light.
 *
 * Sources: additive light (derived); [IEC61966] the encoding. Deviations: none.
 */
import type { Model } from '../fitting/index.ts';
import { srgbFromLight } from '../readings/index.ts';

const LN10 = Math.LN10;
const MOST_FLARE = 0.5;

/** Three parameters: darkness of open light, exponent, flare. Rises with density. */
export const powerResponse: Model = {
  name: 'power-response',
  parameterNames: ['openDarkness', 'exponent', 'flare'],
  lower: [-Infinity, 0.05, 0],
  upper: [Infinity, 5, MOST_FLARE],
  value: (density, p) =>
    (p[0] as number) - (p[1] as number) * Math.log10(10 ** -density + (p[2] as number)),
  derivatives(density, p, out) {
    const light = 10 ** -density + (p[2] as number);
    const log = Math.log10(light);
    out[0] = 1;
    out[1] = -log;
    out[2] = -(p[1] as number) / (LN10 * light);
    return (p[0] as number) - (p[1] as number) * log;
  },
  start(x, y) {
    const [open, exponent] = thinHalf(x, y);
    return [open, exponent, 0.3 * 10 ** -Math.max(...x)];
  },
  otherStarts(x, y) {
    const [open, exponent] = thinHalf(x, y);
    return [0.1, 3, 30].map((times) => [
      open,
      exponent,
      Math.min(0.3, times * 10 ** -Math.max(...x)),
    ]);
  },
};

const KNEE = 0.0031308;
const LINEAR = 12.92;

/** Two parameters: darkness of open light before encoding, flare. Rises with density. */
export const screenResponse: Model = {
  name: 'screen-response',
  parameterNames: ['openDarkness', 'flare'],
  lower: [-Infinity, 0],
  upper: [Infinity, MOST_FLARE],
  value: (density, p) =>
    -Math.log10(srgbFromLight(10 ** -(p[0] as number) * (10 ** -density + (p[1] as number)))),
  derivatives(density, p, out) {
    const scale = 10 ** -(p[0] as number);
    const light = 10 ** -density + (p[1] as number);
    const v = scale * light;
    const value = srgbFromLight(v);
    const slope = v <= KNEE ? LINEAR : (1.055 / 2.4) * v ** (1 / 2.4 - 1);
    out[0] = (slope * v) / value;
    out[1] = (-slope * scale) / (value * LN10);
    return -Math.log10(value);
  },
  start(x, y) {
    const [open] = thinHalf(x, y);
    return [2.2 * Math.max(0, open), 0.3 * 10 ** -Math.max(...x)];
  },
  otherStarts(x, y) {
    const [open] = thinHalf(x, y);
    return [[2.2 * Math.max(0, open), Math.min(0.3, 10 * 10 ** -Math.max(...x))]];
  },
};

/** Intercept and slope over the thinner half of the steps, where flare counts least. */
function thinHalf(x: readonly number[], y: readonly number[]): [number, number] {
  const half = Math.max(2, Math.ceil(x.length / 2));
  const first = x[0] ?? 0;
  const last = x[half - 1] ?? first + 1;
  const slope = ((y[half - 1] ?? 0) - (y[0] ?? 0)) / (last - first || 1);
  const exponent = Math.min(3, Math.max(0.1, slope));
  return [(y[0] ?? 0) - exponent * first, exponent];
}
