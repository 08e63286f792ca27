/**
 * Pictures are generated with known densities (see test/generated-scan.ts): they test finding,
 * averaging and calibration, and are no measurements of a scanner.
 */
import { describe, expect, it } from 'vitest';
import {
  generatedScan,
  type GeneratedScan,
  type GeneratedScanOptions,
} from '../../../../test/generated-scan.ts';
import { expectWithin } from '../../../../test/within.ts';
import { InvalidArgumentError } from '../errors.ts';
import { nominalTablet } from '../readings/index.ts';
import { findPatches, readScan, robustMean, scannerResponse, stripAxes } from './index.ts';
import type { ReadScanInput, ScanReading, ScanResult, StripPlace } from './index.ts';

const STEPS = 21;
const PITCH = 20;
const tabletDensities = nominalTablet({ steps: STEPS, increment: 0.15 });
/** A film strip: density falls as the tablet over it grows. */
const stripDensities = Array.from(
  { length: STEPS },
  (_, i) => 0.12 + 1.7 / (1 + Math.exp((i - 9) / 2.6)),
);

const made = (options: Partial<GeneratedScanOptions> = {}): GeneratedScan =>
  generatedScan({ tabletDensities, stripDensities, pitch: PITCH, stripWidth: 44, ...options });

/** The ends as a hand marks them: off along the strip and off to the side. */
const byHand = ({ from, to, width }: StripPlace): StripPlace => ({
  from: { x: from.x + 0.25 * PITCH, y: from.y + 2 },
  to: { x: to.x - 0.2 * PITCH, y: to.y - 2 },
  width,
});

const inputOf = (
  { image, tablet, strip }: GeneratedScan,
  changes: Partial<ReadScanInput> = {},
): ReadScanInput => ({
  image,
  tablet: { place: byHand(tablet), count: STEPS },
  strip: { place: byHand(strip), count: STEPS },
  tabletDensities,
  ...changes,
});

const read = (options: Partial<GeneratedScanOptions> = {}): ScanReading =>
  reading(readScan(inputOf(made(options))));

function reading(result: ScanResult): ScanReading {
  if (result.status !== 'ok') throw new Error(result.reason);
  return result;
}

/** Errors against the truth, and against the standard errors given. */
function errorsOf({ patches }: ScanReading): { greatest: number; studentised: number } {
  let greatest = 0;
  let square = 0;
  patches.forEach(({ density }, i) => {
    if (density.status !== 'ok') throw new Error(`step ${i + 1}: ${density.status}`);
    const error = density.value - (stripDensities[i] ?? NaN);
    greatest = Math.max(greatest, Math.abs(error));
    square += (error / density.standardError) ** 2;
  });
  return { greatest, studentised: Math.sqrt(square / patches.length) };
}
const codes = ({ warnings }: ScanReading): string[] => warnings.map(({ code }) => code);

describe('a generated scan of a strip beside a tablet', () => {
  // 0.005 is half of what a working densitometer is trusted to.
  const cases: [string, Partial<GeneratedScanOptions>, number][] = [
    ['proportional to light', {}, 0.005],
    ['turned by 1.3 degrees', { degrees: 1.3 }, 0.005],
    ['with 15 % less light at the corners', { vignetting: 0.15 }, 0.005],
    ['encoded by a power of 1/2.2', { encoding: 'power' }, 0.005],
    ['encoded for the screen, 8 bits', { encoding: 'screen', bits: 8 }, 0.005],
    ['with dust on every step', { dust: true }, 0.005],
    ['with coarse grain', { grain: 0.1 }, 0.012],
    ['with flare of 0.4 %', { flare: 0.004 }, 0.006],
    [
      'with everything at once',
      { degrees: -0.9, vignetting: 0.1, flare: 0.003, encoding: 'screen', dust: true, grain: 0.04 },
      0.012,
    ],
  ];
  it.each(cases)('%s: densities to within its errors', (_, options, tolerance) => {
    const result = read(options);
    const { greatest, studentised } = errorsOf(result);
    expect(greatest).toBeLessThan(tolerance);
    // 21 errors of their stated size: the root mean square lies within 0.6 and 1.5.
    expect(studentised).toBeGreaterThan(0.5);
    expect(studentised).toBeLessThan(1.6);
  });

  it('covers the truth as often as the standard errors say, over 12 pictures', () => {
    let inside = 0;
    let all = 0;
    for (let seed = 1; seed <= 12; seed++) {
      const result = read({ seed, degrees: 0.1 * seed - 0.6, flare: 0.001 * (seed % 4) });
      result.patches.forEach(({ density }, i) => {
        if (density.status !== 'ok') return;
        all += 1;
        const miss = Math.abs(density.value - (stripDensities[i] ?? NaN));
        if (miss < 2 * density.standardError) inside += 1;
      });
    }
    expect(all).toBe(12 * STEPS);
    // 95.4 % would be expected; errors from 16 blocks are themselves uncertain by 18 %.
    expect(inside / all).toBeGreaterThan(0.88);
  }, 30_000);

  it('tells flare and says how much', () => {
    const result = read({ flare: 0.004 });
    expectWithin(result.response.flare?.value ?? NaN, 0.004, 0.0002);
    expect(codes(result)).toContain('scan-flare');
    expect(codes(read())).not.toContain('scan-flare');
  });

  it('tells the exponent of a file that is not proportional to light', () => {
    const result = read({ encoding: 'power' });
    expectWithin(result.response.exponent?.value ?? NaN, 1 / 2.2, 0.005);
    expect(codes(result)).toContain('scan-response-encoded');
  });

  it('knows a screen picture by its tones', () => {
    expect(read({ encoding: 'screen' }).response.form).toBe('screen');
  });

  it('follows tones that no law describes by a smooth curve, and says so', () => {
    const result = read({ encoding: 'automatic' });
    expect(result.response.form).toBe('smooth');
    expect(codes(result)).toContain('scan-response-irregular');
    expect(errorsOf(result).greatest).toBeLessThan(0.01);
  });

  it('measures how the light falls off, from the bare light round the strips', () => {
    const { light } = read({ vignetting: 0.15 });
    expect(light.measured).toBe(true);
    expect(light.span).toBeGreaterThan(0.03);
  });

  it('gives no density where the strip is denser than the tablet, and names the steps', () => {
    const short = tabletDensities.slice(0, 9); // to 1.25
    const scan = generatedScan({
      tabletDensities: short,
      stripDensities,
      pitch: PITCH,
      stripWidth: 44,
    });
    const result = reading(
      readScan({
        image: scan.image,
        tablet: { place: scan.tablet, count: short.length },
        strip: { place: scan.strip, count: STEPS },
        tabletDensities: short,
      }),
    );
    result.patches.forEach(({ density }, i) => {
      const truth = stripDensities[i] ?? NaN;
      if (truth > 1.29) expect(density.status).toBe('denser');
      if (truth < 1.23) expect(density.status).toBe('ok');
    });
    const beyond = result.warnings.find(({ code }) => code === 'scan-beyond-tablet');
    expect(beyond?.details).toMatchObject({ side: 'denser', limit: 1.25 });
  });

  it('leaves out steps at the white of the file, of tablet and strip alike', () => {
    const result = read({ open: 1.25 });
    expect(result.tablet[0]?.difference).toBeNull();
    expect(codes(result)).toContain('scan-tablet-clipped');
    expect(codes(result)).toContain('scan-light-assumed-even');
    const given = result.patches.filter(({ density }) => density.status === 'ok');
    expect(given.length).toBeGreaterThan(12);
  });

  it('says that 8 bits in proportion to light leave few levels for the dense steps', () => {
    const dense = stripDensities.map((density) => density + 0.8);
    const scan = made({ bits: 8, stripDensities: dense });
    expect(codes(reading(readScan(inputOf(scan))))).toContain('scan-few-levels');
  });

  it('reads a file with light and dark exchanged when told so, and else says what is wrong', () => {
    const scan = made();
    const { greatest, values } = scan.image;
    const turned = { ...scan.image, values: values.map((value) => greatest - value) };
    const wrong = readScan(inputOf({ ...scan, image: turned }));
    expect(wrong).toMatchObject({ status: 'not-determined', reason: 'tablet-turned' });
    const right = reading(readScan(inputOf({ ...scan, image: turned }, { inverted: true })));
    expect(errorsOf(right).greatest).toBeLessThan(0.005);
  });

  it('refuses a tablet marked from its dense end, and densities of another tablet', () => {
    const scan = made();
    const { place } = inputOf(scan).tablet;
    const turned = { place: { ...place, from: place.to, to: place.from }, count: STEPS };
    expect(readScan(inputOf(scan, { tablet: turned }))).toMatchObject({ reason: 'tablet-turned' });
    const mixed = tabletDensities.map((density, i) => (i % 2 === 0 ? density : density / 2));
    expect(readScan(inputOf(scan, { tabletDensities: mixed }))).toMatchObject({
      reason: 'tablet-does-not-fit',
    });
  });

  it('does without tablet steps that are not known', () => {
    const some = tabletDensities.map((density, i) => (i === 4 ? null : density));
    const result = reading(readScan(inputOf(made(), { tabletDensities: some })));
    expect(result.tablet[4]).toMatchObject({ knownDensity: null, difference: null });
    expect(errorsOf(result).greatest).toBeLessThan(0.005);
  });

  it('needs five tablet steps, and steps that have an inside', () => {
    const scan = made();
    const few = tabletDensities.map((density, i) => (i < 4 ? density : null));
    expect(readScan(inputOf(scan, { tabletDensities: few }))).toMatchObject({
      reason: 'too-few-tablet-steps',
    });
    const away = { from: { x: 9000, y: 10 }, to: { x: 9400, y: 10 }, width: 40 };
    expect(readScan(inputOf(scan, { strip: { place: away, count: STEPS } }))).toMatchObject({
      reason: 'strip-not-found',
    });
    const tiny = { from: { x: 10, y: 40 }, to: { x: 60, y: 40 }, width: 40 };
    expect(readScan(inputOf(scan, { strip: { place: tiny, count: STEPS } }))).toMatchObject({
      reason: 'strip-not-found',
    });
  });

  it('leaves the picture as it was', () => {
    const scan = made({ bits: 8 });
    const before = scan.image.values.slice();
    readScan(inputOf(scan));
    expect(scan.image.values).toEqual(before);
  });

  it('refuses what is no picture, place, count or list of densities', () => {
    const scan = made({ bits: 8 });
    const bad: Partial<ReadScanInput>[] = [
      { image: { ...scan.image, width: 3 } },
      { image: { ...scan.image, greatest: NaN } },
      { tabletDensities: [0.05, 0.2] },
      { strip: { place: { ...scan.strip, width: NaN }, count: STEPS } },
      { strip: { place: { ...scan.strip, to: { x: NaN, y: 0 } }, count: STEPS } },
      { strip: { place: scan.strip, count: 1.5 } },
    ];
    for (const changes of bad) {
      expect(() => readScan(inputOf(scan, changes))).toThrow(InvalidArgumentError);
    }
  });
});

describe('findPatches', () => {
  it('finds ends that were marked a third of a step away', () => {
    const { image, strip } = made();
    const moved = {
      ...strip,
      from: { x: strip.from.x + 7, y: strip.from.y },
      to: { x: strip.to.x + 6, y: strip.to.y },
    };
    const row = findPatches(image, moved, STEPS);
    // The blurred tenth of a step at each edge is left out, so that edges are known to 2 pixels.
    expectWithin(row?.start ?? NaN, -7, 2.5);
    expectWithin(
      (row?.start ?? NaN) + STEPS * (row?.pitch ?? NaN),
      stripAxes(moved).length - 6,
      2.5,
    );
  });
});

describe('robustMean', () => {
  it('leaves out a hair, by hand', () => {
    // median 10; deviations 0 1 1 0 190 -> median 1, limit 4.4
    const { mean, rejected } = robustMean([10, 11, 9, 10, 200], 1);
    expectWithin(mean, 10, 1e-12);
    expectWithin(rejected, 0.2, 1e-12);
  });
  it('keeps neighbours of a value that most pixels share', () => {
    expectWithin(robustMean([5, 5, 5, 5, 6], 1).mean, 5.2, 1e-12);
  });
  it('refuses nothing, and what is no number', () => {
    expect(() => robustMean([], 1)).toThrow(InvalidArgumentError);
    expect(() => robustMean([NaN, NaN], 1)).toThrow(InvalidArgumentError);
  });
});

describe('scannerResponse', () => {
  const exact = tabletDensities.map((density) => ({
    darkness: 0.05 - 0.45 * Math.log10(10 ** -density + 0.002),
    standardError: 1e-4,
  }));
  it('inverts an exact response', () => {
    const response = scannerResponse(tabletDensities, exact);
    for (const density of [0.1, 0.77, 1.9, 2.8]) {
      const darkness = 0.05 - 0.45 * Math.log10(10 ** -density + 0.002);
      const found = response.densityOf({ darkness, standardError: 0 });
      expectWithin(found.status === 'ok' ? found.value : NaN, density, 1e-5);
    }
  });
  it('says on which side of the tablet a place lies', () => {
    const response = scannerResponse(tabletDensities, exact);
    expect(response.densityOf({ darkness: 0, standardError: 1e-4 }).status).toBe('thinner');
    expect(response.densityOf({ darkness: 4, standardError: 1e-4 }).status).toBe('denser');
    expect(() => response.densityOf({ darkness: NaN, standardError: 0 })).toThrow(
      InvalidArgumentError,
    );
  });
  it('is not bent by one dirty step', () => {
    const dirty = exact.map((each, i) =>
      i === 8 ? { ...each, darkness: each.darkness + 0.1 } : each,
    );
    const found = scannerResponse(tabletDensities, dirty).densityOf(
      exact[8] ?? { darkness: NaN, standardError: 0 },
    );
    expectWithin(found.status === 'ok' ? found.value : NaN, tabletDensities[8] ?? NaN, 0.01);
  });
  it('refuses fewer than five steps', () => {
    expect(() => scannerResponse([0, 1, 2], exact.slice(0, 3))).toThrow(InvalidArgumentError);
  });
});
