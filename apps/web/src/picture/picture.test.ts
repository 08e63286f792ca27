import {
  generatedPaper,
  LOG_STOP,
  printTone,
  treatmentEffect,
  THRESHOLD_NET_DENSITY,
  fitTreatment,
} from '@wedgebook/core';
import { seleniumDefaults } from '@wedgebook/data';
import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { demoScene } from './demo-scene.ts';
import { fourPrints, type FourPrintsInput, type Print } from './four-prints.ts';
import { negativeTones } from './negative-tones.ts';
import { endsOfPrint, partsByDensity } from './print-shares.ts';
import { differenceTable, screenTable } from './screen-table.ts';
import {
  logOfTone,
  TONE_LEVELS,
  toneAtPart,
  tonesOfImage,
  tonesOfLogs,
  type TonePicture,
} from './tone-picture.ts';
import { heldView, NO_TONE, paint, pixelAt, tonesInView, WHOLE, zoomedView } from './viewport.ts';

const ends = { shadow: 0.25, highlight: 1.15 };
const ramp = (): TonePicture =>
  tonesOfLogs(
    Float32Array.from({ length: 10_000 }, (_, i) => -2 + (2 * i) / 9999),
    100,
    100,
  );

describe('the scene of the demonstration', () => {
  const scene = demoScene(204, 153);
  it('is the same each time, and spans more than two decades of luminance', () => {
    expect(demoScene(204, 153)).toEqual(scene);
    const sorted = Array.from(scene).sort((a, b) => a - b);
    const at = (part: number) => sorted[Math.floor(part * (sorted.length - 1))] ?? NaN;
    expect(at(0.99) - at(0.01)).toBeGreaterThan(2);
    expect(sorted.every(Number.isFinite)).toBe(true);
  });
});

describe('tones of a picture', () => {
  it('keep the light of a linear file within half a tone', () => {
    const values = Uint16Array.from([65535, 32768, 655, 66]);
    const image = { width: 2, height: 2, values, greatest: 65535, bits: 16 };
    const picture = tonesOfImage(image, 'linear');
    const half = (picture.high - picture.low) / (TONE_LEVELS - 1) / 2;
    picture.tones.forEach((tone, i) => {
      expectWithin(logOfTone(picture, tone), Math.log10((values[i] ?? 0) / 65535), half * 1.001);
    });
  });
  it('take middle grey of the screen as 21.4 % of the light (published: IEC 61966-2-1)', () => {
    const image = { width: 2, height: 1, values: Uint8Array.of(255, 128), greatest: 255, bits: 8 };
    // (128/255 + 0.055) / 1.055 to the power of 2.4 is 0.2159
    expectWithin(10 ** tonesOfImage(image, 'screen').low, 0.2159, 0.0001);
  });
  it('are averaged in light, not in values, where the picture is too large', () => {
    const values = Uint8Array.of(255, 0, 255, 255, 255, 0, 255, 255);
    const image = { width: 4, height: 2, values, greatest: 255, bits: 8 };
    const picture = tonesOfImage(image, 'linear', 2);
    expect([picture.width, picture.height]).toEqual([2, 1]);
    // half of the left block is black, so that it passes half of the light
    expectWithin(10 ** (picture.low - picture.high), 0.5, 1e-6);
  });
  it('count every pixel', () => {
    const { counts } = ramp();
    expect(counts.reduce((sum, count) => sum + count, 0)).toBe(10_000);
    expectWithin(toneAtPart(counts, 0.5) / TONE_LEVELS, 0.5, 0.001);
  });
});

describe('the negative of a picture', () => {
  it('lays the dark and the light end on shadow and highlight, either way round', () => {
    const picture = ramp();
    const dark = toneAtPart(picture.counts, 0.02);
    const light = toneAtPart(picture.counts, 0.98);
    const positive = negativeTones({ picture, positive: true, ends, film: null });
    expectWithin(positive[dark] ?? NaN, ends.shadow, 1e-9);
    expectWithin(positive[light] ?? NaN, ends.highlight, 1e-9);
    const scan = negativeTones({ picture, positive: false, ends, film: null });
    expectWithin(scan[dark] ?? NaN, ends.highlight, 1e-9);
    expectWithin(scan[light] ?? NaN, ends.shadow, 1e-9);
    expect(Math.min(...positive)).toBeGreaterThanOrEqual(0);
  });
  it('does not divide by nothing where the picture is one tone', () => {
    const picture = tonesOfLogs(new Float32Array(16).fill(-1), 4, 4);
    const net = negativeTones({ picture, positive: true, ends, film: null });
    expect(net.every(Number.isFinite)).toBe(true);
  });
});

describe('four prints', () => {
  const model = fitTreatment([], seleniumDefaults);
  const picture = ramp();
  const negative = negativeTones({ picture, positive: true, ends, film: null });
  const make = (changes: Partial<FourPrintsInput> = {}, minutes = 8): readonly Print[] =>
    fourPrints({
      negative,
      ends,
      untreated: treatmentEffect(model, { partsWater: 1, minutes: 0, celsius: 20 }),
      treated: treatmentEffect(model, { partsWater: 1, minutes, celsius: 20 }),
      callierFactor: 1,
      enlargerFlare: 0,
      paper: generatedPaper(1.1),
      stops: 0,
      ...changes,
    });
  const of = (prints: readonly Print[], index: number): Print => {
    const print = prints[index];
    if (print === undefined) throw new Error('no such print');
    return print;
  };
  const light = toneAtPart(picture.counts, 0.98);
  const dark = toneAtPart(picture.counts, 0.02);

  it('print the highlight just darker than white, and matched prints the shadow at 90 %', () => {
    const prints = make();
    for (const print of prints) {
      expectWithin(print.netDensities[light] ?? NaN, THRESHOLD_NET_DENSITY, 0.002);
    }
    // By the definition of the exposure scale (ISO 6846): 90 % of the net maximum, here 2.
    for (const index of [2, 3]) {
      expectWithin(of(prints, index).netDensities[dark] ?? NaN, 1.8, 0.005);
      expectWithin(of(prints, index).surplus, 0, 1e-9);
    }
  });
  it('are alike before and after a bath of no time', () => {
    const prints = make({}, 0);
    expect(of(prints, 1).netDensities).toEqual(of(prints, 0).netDensities);
    expect(of(prints, 3).netDensities).toEqual(of(prints, 2).netDensities);
    expect(of(prints, 1).exposureChange).toBe(0);
  });
  it('need more exposure after the bath, and print deeper shadows on the same paper', () => {
    const prints = make();
    expect(of(prints, 1).exposureChange).toBeGreaterThan(0.1);
    expect(of(prints, 1).netDensities[dark] ?? 0).toBeGreaterThan(
      of(prints, 0).netDensities[dark] ?? 0,
    );
  });
  it('darken by a stop as the paper does', () => {
    const paper = generatedPaper(1.1);
    const darker = make({ stops: 1 });
    expectWithin(
      of(darker, 0).netDensities[light] ?? NaN,
      printTone(paper, LOG_STOP).netDensity,
      0.003,
    );
  });
  it('grow darker with every tone that is darker', () => {
    for (const { netDensities } of make()) {
      for (let tone = 1; tone < netDensities.length; tone++) {
        expect(netDensities[tone] ?? 0).toBeLessThanOrEqual((netDensities[tone - 1] ?? 0) + 1e-6);
      }
    }
  });
  it('tell their histogram and their ends', () => {
    const [print] = make();
    if (print === undefined) throw new Error('no print');
    const parts = partsByDensity(print, picture.counts, 42);
    expectWithin(
      parts.reduce((sum, part) => sum + part, 0),
      1,
      1e-9,
    );
    const { white } = endsOfPrint(print, picture.counts);
    expectWithin(white, 0.02, 0.002);
  });
});

describe('colours of the screen', () => {
  it('show paper white as white and keep other light out of the red theme', () => {
    const table = screenTable(Float32Array.of(0, 0.3, 4), 'grey');
    expect((table[0] ?? 0).toString(16)).toBe('ffffffff');
    // published: half the light is 188 of 255 on the screen (IEC 61966-2-1: 0.7354)
    expect((table[1] ?? 0) & 0xff).toBe(188);
    for (const colour of screenTable(Float32Array.of(0, 0.5, 1, 2), 'red')) {
      expect(colour & 0x00ffff00).toBe(0);
    }
  });
  it('show no difference as middle grey', () => {
    const same = Float32Array.of(0.2, 1);
    expect([...differenceTable(same, same, 'grey')].map((colour) => colour & 0xff)).toEqual([
      128, 128,
    ]);
    const darker = differenceTable(Float32Array.of(0), Float32Array.of(0.5), 'grey');
    expect((darker[0] ?? 1) & 0xff).toBe(0);
  });
});

describe('the view', () => {
  const picture = ramp();
  const pane = { width: 50, height: 50 };
  it('shows the whole picture reduced, with the mean of the pixels under each', () => {
    const seen = tonesInView(picture, WHOLE, pane);
    const [a = 0, b = 0] = picture.tones;
    const [c = 0, d = 0] = picture.tones.slice(100);
    expectWithin(seen[0] ?? NaN, (a + b + c + d) / 4, 0.5);
    expect(seen).not.toContain(NO_TONE);
  });
  it('enlarges about the place pointed at', () => {
    const before = pixelAt(WHOLE, picture, pane, 40, 10);
    const view = zoomedView(WHOLE, 4, 40 / 50 - 0.5, 10 / 50 - 0.5);
    expect(view.zoom).toBe(4);
    const after = pixelAt(view, picture, pane, 40, 10);
    expectWithin(after?.x ?? NaN, before?.x ?? NaN, 1);
    expectWithin(after?.y ?? NaN, before?.y ?? NaN, 1);
  });
  it('never leaves the picture', () => {
    const view = heldView({ zoom: 2, x: -3, y: 9 });
    expect(view).toEqual({ zoom: 2, x: 0.25, y: 0.75 });
    expect(heldView({ zoom: 0.1, x: 0.5, y: 0.5 })).toEqual(WHOLE);
  });
  it('leaves the ground beside a picture of another shape', () => {
    const seen = tonesInView(picture, WHOLE, { width: 80, height: 40 });
    expect(seen[0]).toBe(NO_TONE);
    const into = new Uint32Array(seen.length);
    const colours = new Uint32Array(TONE_LEVELS + 1).fill(7);
    colours[NO_TONE] = 9;
    paint(seen, colours, into);
    expect(into[0]).toBe(9);
    expect(into[40]).toBe(7);
    expect(pixelAt(WHOLE, picture, { width: 80, height: 40 }, 1, 1)).toBeNull();
  });
});
