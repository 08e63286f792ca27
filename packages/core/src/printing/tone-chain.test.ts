import { describe, expect, it } from 'vitest';
import { seleniumDefaults } from '../../../../test/selenium-bath.ts';
import { expectWithin } from '../../../../test/within.ts';
import { fitCurve, type CharacteristicCurve } from '../curve/index.ts';
import { InvalidArgumentError, OutOfDomainError } from '../errors.ts';
import { generatedPaper, lightnessFromDensity } from '../paper/index.ts';
import { defaultTreatment, treatmentEffect } from '../treatment/index.ts';
import {
  followTone,
  indexByCode,
  negativeTable,
  printLogExposureFor,
  printNegative,
  subjectTable,
  tonePrinter,
  zoneTones,
  type NegativePrinting,
  type ToneChain,
} from './index.ts';

const film: CharacteristicCurve = (() => {
  const logExposures = Array.from({ length: 25 }, (_, i) => -3.2 + 0.15 * i);
  const densities = logExposures.map((x) => 0.12 + 0.14 * Math.log1p(Math.exp((x + 2.2) / 0.2)));
  const fit = fitCurve({ logExposures, densities, unexposedDensities: [0.12] });
  if (fit.status !== 'ok') throw new Error(fit.reason);
  return fit.curve;
})();
const bath = treatmentEffect(
  defaultTreatment(seleniumDefaults),
  { partsWater: 3, minutes: 6, celsius: 20 },
  { stain: 0.1, stainKept: 0.4 },
);
const printing: NegativePrinting = {
  baseFog: 0.12,
  effect: bath,
  callierFactor: 1.2,
  enlargerFlare: 0.01,
  paper: generatedPaper(1.05),
  paperWhiteDensity: 0.06,
  printLogExposure: 1.6,
};
const chain: ToneChain = {
  film,
  logExposureAtZero: -1.2,
  cameraFlareExposure: 0.002,
  printing,
};

describe('the tone chain', () => {
  it('[JONES1920] every gradient is the slope of its stage, and they multiply', () => {
    const follow = tonePrinter(chain);
    const h = 1e-5;
    for (const l of [-1.5, -0.8, 0, 0.6, 1.2]) {
      const [a, b] = [follow(l - h), follow(l + h)];
      const at = follow(l);
      const slope = (pick: (tone: typeof at) => number, by: (tone: typeof at) => number) =>
        (pick(b) - pick(a)) / (by(b) - by(a));
      const stages = {
        cameraFlare: slope(
          (t) => t.logExposure,
          (t) => t.logLuminance,
        ),
        film: slope(
          (t) => t.negativeDensity,
          (t) => t.logExposure,
        ),
        treatment: slope(
          (t) => t.treatedDensity,
          (t) => t.negativeDensity,
        ),
        light: slope(
          (t) => t.printingDensity,
          (t) => t.treatedDensity,
        ),
        enlargerFlare: -slope(
          (t) => t.paperLogExposure,
          (t) => t.printingDensity,
        ),
        paper: slope(
          (t) => t.printDensity,
          (t) => t.paperLogExposure,
        ),
        lightness: slope(
          (t) => t.lightness,
          (t) => t.printDensity,
        ),
      };
      for (const [name, expected] of Object.entries(stages)) {
        const stated = at.gradients[name as keyof typeof stages];
        expectWithin(stated, expected, 1e-6 * Math.max(1, Math.abs(expected)), `${name} at ${l}`);
      }
      const whole = (b.printDensity - a.printDensity) / (2 * h);
      expectWithin(at.toneGradient, -whole, 1e-7, `product at ${l}`);
      const light = (b.lightness - a.lightness) / (2 * h);
      expectWithin(at.lightnessGradient, light, 1e-4, `lightness at ${l}`);
    }
  });

  it('is exact on a chain that can be worked by hand', () => {
    // A light of factor 1, no flare, no bath: x = L - D.
    const plain = { ...printing, effect: null, callierFactor: 1, enlargerFlare: 0 };
    const tone = printNegative(plain, 0.9);
    expectWithin(tone.printingDensity, 0.9, 1e-12);
    expectWithin(tone.paperLogExposure, 1.6 - 0.9, 1e-12);
    expect(tone.gradients).toMatchObject({ treatment: 1, light: 1, enlargerFlare: 1 });
    expectWithin(tone.lightness, lightnessFromDensity(tone.printDensity), 1e-12);
    // [derived] additive light: 1 % of the clear film's light where the image has 10 %: log10(0.11).
    const flared = printNegative({ ...plain, enlargerFlare: 0.01 }, 0.12 + 1);
    expectWithin(flared.paperLogExposure, 1.6 - 0.12 + Math.log10(0.11), 1e-12);
    expectWithin(flared.gradients.enlargerFlare, 0.1 / 0.11, 1e-12);
  });

  it('finds the exposure that prints a tone as wanted, flare and bath included', () => {
    const aim = { negativeDensity: 1.1, printDensity: 0.15 };
    const printLogExposure = printLogExposureFor(printing, aim)!;
    const tone = printNegative({ ...printing, printLogExposure }, aim.negativeDensity);
    expectWithin(tone.printDensity, aim.printDensity, 1e-9);
    expect(printLogExposureFor(printing, { ...aim, printDensity: 2.4 })).toBeNull();
    expect(() => printLogExposureFor(printing, { ...aim, printDensity: 0.06 })).toThrow(
      OutOfDomainError,
    );
    expect(() => printLogExposureFor(printing, { ...aim, negativeDensity: NaN })).toThrow(
      InvalidArgumentError,
    );
  });

  it('puts zone V at log luminance 0 and the zones a stop apart', () => {
    const zones = zoneTones(chain);
    expect(zones).toHaveLength(11);
    expectWithin(zones[5]!.logLuminance, 0, 1e-12);
    expectWithin(zones[8]!.logLuminance, 3 * Math.log10(2), 1e-12);
    for (let i = 1; i < zones.length; i++) {
      expect(zones[i]!.lightness).toBeGreaterThanOrEqual(zones[i - 1]!.lightness);
    }
    expect(zones[0]!.extrapolated).toBe(false);
    expect(followTone(chain, 4).extrapolated).toBe(true);
  });

  it('refuses what is no chain', () => {
    expect(() => followTone(chain, NaN)).toThrow(InvalidArgumentError);
    expect(() => printNegative(printing, Infinity)).toThrow(InvalidArgumentError);
    for (const [name, value] of [
      ['enlargerFlare', -0.1],
      ['callierFactor', 0],
      ['paperWhiteDensity', NaN],
      ['printLogExposure', Infinity],
      ['baseFog', 9],
    ] as const) {
      expect(() => printNegative({ ...printing, [name]: value }, 1)).toThrow(InvalidArgumentError);
    }
    expect(() => followTone({ ...chain, cameraFlareExposure: -1 }, 0)).toThrow();
    expect(() => followTone({ ...chain, logExposureAtZero: NaN }, 0)).toThrow();
    expect(() => zoneTones(chain, [99])).toThrow(InvalidArgumentError);
  });
});

describe('preview tables', () => {
  it('hold the density and the grey of the chain at every index', () => {
    const { span, printDensity, grey } = subjectTable(chain, { whiteLogLuminance: 0.9 });
    for (const i of [0, 1000, 2047, 3500, 4095]) {
      const z = span.from + (i / (span.size - 1)) * (span.to - span.from);
      const { printDensity: density } = followTone(chain, z + 0.9);
      expectWithin(printDensity[i]!, density, 1e-6, `density ${i}`);
      const light = 10 ** -density;
      const code = light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055;
      expect(grey[i]).toBe(Math.round(255 * code));
    }
  });

  it('read a scan of a negative from clear film down', () => {
    const { span, printDensity } = negativeTable(printing);
    expectWithin(printDensity.at(-1)!, printNegative(printing, 0.12).printDensity, 1e-6);
    const place = Math.round((1 - 1 / 4) * (span.size - 1));
    const z = span.from + (place / (span.size - 1)) * 4;
    expectWithin(printDensity[place]!, printNegative(printing, 0.12 - z).printDensity, 1e-6);
  });

  it('are found from codes by light, not by number', () => {
    const linear = indexByCode(65_536);
    expect(linear[65_535]).toBe(4095);
    expect(linear[0]).toBe(0);
    // A tenth of the light is one log unit below the top: three quarters of the span of four.
    expectWithin(linear[6554]!, 0.75 * 4095, 1);
    const srgb = indexByCode(256, 'srgb');
    // Code 119 is 18.45 % of the light by the sRGB curve.
    expectWithin(srgb[119]!, (1 + Math.log10(0.1845) / 4) * 4095, 1);
    for (let i = 1; i < 256; i++) expect(srgb[i]).toBeGreaterThanOrEqual(srgb[i - 1]!);
  });

  it('refuse spans and levels that are none', () => {
    expect(() => indexByCode(1)).toThrow(InvalidArgumentError);
    expect(() => indexByCode(256, 'linear', { from: 0, to: -4, size: 10 })).toThrow();
    expect(() => subjectTable(chain, { span: { from: -4, to: 0, size: 1 } })).toThrow();
    expect(() => negativeTable(printing, { span: { from: NaN, to: 0, size: 9 } })).toThrow();
  });
});
