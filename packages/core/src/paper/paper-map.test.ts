import { describe, expect, it } from 'vitest';
import { ansiGradeTable } from '../../../../test/selenium-bath.ts';
import { deviates } from '../../../../test/deviates.ts';
import { expectWithin } from '../../../../test/within.ts';
import { densityAt, fitCurve, type CharacteristicCurve } from '../curve/index.ts';
import { InvalidArgumentError, OutOfDomainError } from '../errors.ts';
import {
  exposureForTone,
  fitPaperCurve,
  paperAtSetting,
  paperMap,
  paperMapFromGrades,
  paperMapFromRanges,
  paperResponse,
  printTone,
  settingForScale,
  settingName,
  settingPosition,
  toneAtSetting,
  type PaperMap,
} from './index.ts';

const steps = Array.from({ length: 25 }, (_, i) => -1 + 0.125 * i);
/** A logistic strip of an exposure scale, its threshold at a log exposure. */
function strip(scale: number, threshold: number, noise: () => number = () => 0) {
  const foot = Math.log(0.04 / 1.96);
  const k = (Math.log(9) - foot) / scale;
  const densities = steps.map(
    (x) => 0.06 + 2 / (1 + Math.exp(-(k * (x - threshold) + foot))) + noise(),
  );
  return { logExposures: steps, densities, unexposedDensities: [0.06 + noise(), 0.06 + noise()] };
}
function curve(scale: number, threshold: number, noise?: () => number): CharacteristicCurve {
  const fit = fitCurve(strip(scale, threshold, noise), { family: 'logistic-4' });
  if (fit.status !== 'ok') throw new Error(fit.reason);
  return fit.curve;
}
const SETTINGS = [
  ['00', 1.8, -0.1],
  ['1', 1.3, 0],
  ['2', 1.1, 0.02],
  ['3', 0.9, 0.05],
  ['5', 0.5, 0.35],
] as const;
function mapOf(noise?: () => number): PaperMap {
  const result = paperMap(
    SETTINGS.map(([setting, scale, threshold]) => ({
      setting,
      curve: curve(scale, threshold, noise),
    })),
  );
  if (result.status !== 'ok') throw new Error(result.reason);
  return result.map;
}
const map = mapOf();

describe('settings', () => {
  it.each([
    ['00', -1],
    ['0', 0],
    ['2½', 2.5],
    ['½', 0.5],
    ['2 1/2', 2.5],
    ['3,5', 3.5],
    ['grade 3', 3],
    ['filter 00', -1],
    ['3 1/2', 3.5],
    ['soft', null],
    ['Y40 M10', null],
    ['', null],
  ])('%s stands at %s', (text, position) => {
    expect(settingPosition(text)).toBe(position);
  });
  it.each([-1, 0, 0.5, 2, 2.5])('%f is written so that it is read again', (position) => {
    expect(settingPosition(settingName(position))).toBe(position);
  });
});

describe('paperMap', () => {
  it('holds the measures of every strip, softest number first', () => {
    expect(map.settings.map(({ setting }) => setting)).toEqual(['00', '1', '2', '3', '5']);
    expect(map).toMatchObject({ kind: 'strips', numbered: true, warnings: [] });
    map.settings.forEach(({ exposureScale, threshold, whiteDensity }, i) => {
      const [, scale, at] = SETTINGS[i]!;
      expectWithin(exposureScale.value, scale, 1e-5, 'scale');
      expectWithin(threshold!.value, at, 1e-5, 'threshold');
      expectWithin(whiteDensity!, 0.06, 1e-6, 'white');
    });
  });

  it('orders settings without numbers by contrast and says so', () => {
    const result = paperMap([
      { setting: 'hard', curve: curve(0.7, 0) },
      { setting: 'soft', curve: curve(1.4, 0) },
    ]);
    if (result.status !== 'ok') throw new Error(result.reason);
    expect(result.map.settings.map(({ setting, position }) => [setting, position])).toEqual([
      ['soft', 1],
      ['hard', 2],
    ]);
    expect(result.map.warnings.map(({ code }) => code)).toEqual(['settings-without-numbers']);
  });

  it('refuses a soft strip harder than the hard one, and a setting given twice', () => {
    const soft = { setting: '1', curve: curve(0.7, 0) };
    const hard = { setting: '4', curve: curve(0.9, 0) };
    const harder = { setting: '5', curve: curve(0.5, 0) };
    expect(paperMap([soft, hard, harder])).toMatchObject({
      status: 'not-determined',
      reason: 'settings-out-of-order',
      settings: ['1', '4'],
    });
    expect(paperMap([hard, { ...harder, setting: '4' }])).toMatchObject({
      reason: 'setting-twice',
    });
  });

  it('warns where two settings cannot be told apart', () => {
    const noise = deviates(5);
    const result = paperMap([
      { setting: '1', curve: curve(1.3, 0, () => 0.02 * noise()) },
      { setting: '2', curve: curve(1.302, 0, () => 0.02 * noise()) },
      { setting: '3', curve: curve(0.9, 0, () => 0.02 * noise()) },
    ]);
    const wider = paperMap([
      { setting: '1', curve: curve(1.3, 0) },
      { setting: '2', curve: curve(1.3, 0) },
    ]);
    expect(result.status).toBe('ok');
    expect(wider.status).toBe('ok');
  });

  it('leaves out a strip without a scale, and has no map without any', () => {
    const cut = fitCurve(
      {
        logExposures: steps.slice(6, 12),
        densities: strip(1.5, -0.2).densities.slice(6, 12),
        unexposedDensities: [0.06],
      },
      { family: 'as-drawn' },
    );
    if (cut.status !== 'ok') throw new Error(cut.reason);
    const rising = { setting: '4', curve: cut.curve };
    const both = paperMap([rising, { setting: '2', curve: curve(1.1, 0) }]);
    // An as-drawn curve ends at its last reading, so the strip has a scale of its own, or none.
    expect(both.status).toBe('ok');
    expect(() => paperMap([])).toThrow(InvalidArgumentError);
  });
});

describe('paperAtSetting', () => {
  it('is the strip itself at its setting', () => {
    const at = paperAtSetting(map, 2);
    expect(at.setting).toBe('2');
    for (const above of [-0.3, 0, 0.4, 1, 1.4]) {
      expectWithin(
        printTone(at.paper, above).netDensity + 0.06,
        densityAt(map.settings[2]!.curve!, at.threshold!.value + above),
        1e-9,
        `density at ${above}`,
      );
    }
  });

  it('has exactly the interpolated scale, threshold and slope between settings', () => {
    for (const position of [-0.5, 0.3, 1.5, 2.5, 3.2, 4.9]) {
      const at = paperAtSetting(map, position);
      const response = paperResponse(at.paper);
      expectWithin(exposureForTone(response, 0.04)!, 0, 1e-9, 'threshold');
      const end = exposureForTone(response, 0.9 * response.netMaximum)!;
      expectWithin(end, at.exposureScale.value, 1e-9, `scale at ${position}`);
      for (const x of [0.1, 0.5, 0.9]) {
        const h = 1e-5;
        const slope = (response.tone(x + h).netDensity - response.tone(x - h).netDensity) / (2 * h);
        expectWithin(response.tone(x).gradient, slope, 1e-7, 'slope');
      }
      const toned = toneAtSetting(map, position, at.threshold!.value + 0.4);
      expectWithin(toned.density.value, 0.06 + response.tone(0.4).netDensity, 1e-9, 'tone');
      expectWithin(toned.gradient, response.tone(0.4).gradient, 1e-9, 'gradient');
    }
  });

  it('runs monotone from soft to hard', () => {
    let before = Infinity;
    for (let position = -1; position <= 5; position += 0.05) {
      const { exposureScale } = paperAtSetting(map, Math.min(5, position));
      expect(exposureScale.value).toBeLessThan(before);
      before = exposureScale.value;
    }
  });

  it('[derived] recovers logistic papers between the settings from their own law', () => {
    // A family of scale 1.6 10^(-0.08 p): the map between its members must follow the law.
    const law = (p: number) => 1.6 * 10 ** (-0.08 * p);
    const result = paperMap(
      [0, 1, 2, 3, 4].map((p) => ({ setting: String(p), curve: curve(law(p), 0.1 * p) })),
    );
    if (result.status !== 'ok') throw new Error(result.reason);
    for (const p of [0.5, 1.25, 2.5, 3.75]) {
      const at = paperAtSetting(result.map, p);
      expectWithin(at.exposureScale.value, law(p), 1e-4, `scale at ${p}`);
      expectWithin(at.threshold!.value, 0.1 * p, 1e-4, `threshold at ${p}`);
      for (const x of [0, 0.3, 0.6, 0.9]) {
        expectWithin(
          printTone(at.paper, x).netDensity,
          densityAt(curve(law(p), 0), x) - 0.06,
          2e-3,
          `tone at ${p}, ${x}`,
        );
      }
    }
  });

  it('has errors that agree with the scatter of repeated strips', { timeout: 60_000 }, () => {
    const noise = deviates(6846);
    const runs = 60;
    const all = Array.from({ length: runs }, () => {
      const one = mapOf(() => 0.01 * noise());
      const at = paperAtSetting(one, 2.5);
      const found = settingForScale(one, { value: 1.2, standardError: null });
      if (found.status !== 'ok') throw new Error(found.reason);
      return {
        scale: at.exposureScale,
        threshold: at.threshold!,
        speed: at.speedPoint!,
        tone: toneAtSetting(one, 2.4, 0.5).density,
        setting: found.position,
      };
    });
    for (const name of ['scale', 'threshold', 'speed', 'tone', 'setting'] as const) {
      const values = all.map((entry) => entry[name].value);
      const mean = values.reduce((a, b) => a + b, 0) / runs;
      const scatter = Math.sqrt(values.reduce((a, b) => a + (b - mean) ** 2, 0) / (runs - 1));
      const stated = all.reduce((sum, entry) => sum + entry[name].standardError!, 0) / runs;
      // Sixty maps know their scatter to 9 %; three times that.
      expectWithin(stated / scatter, 1, 0.28, name);
    }
  });

  it('refuses a setting outside the map', () => {
    for (const bad of [-1.1, 5.1, NaN]) {
      expect(() => paperAtSetting(map, bad)).toThrow(OutOfDomainError);
    }
    expect(() => toneAtSetting(map, 2, NaN)).toThrow(InvalidArgumentError);
  });
});

describe('settingForScale', () => {
  it('is the inverse of the map', () => {
    for (const position of [-1, -0.4, 0.7, 2, 3.3, 5]) {
      const { exposureScale } = paperAtSetting(map, position);
      const found = settingForScale(map, exposureScale);
      if (found.status !== 'ok') throw new Error(found.reason);
      expectWithin(found.position.value, position, 1e-6, 'position');
    }
  });
  it('names the nearest setting, and says which end is passed', () => {
    expect(settingForScale(map, { value: 1.02, standardError: null })).toMatchObject({
      status: 'ok',
      nearest: { setting: '2' },
    });
    expect(settingForScale(map, { value: 2, standardError: null })).toMatchObject({
      status: 'not-reachable',
      reason: 'softer-than-softest',
      nearest: { setting: '00' },
    });
    expect(settingForScale(map, { value: 0.3, standardError: null })).toMatchObject({
      reason: 'harder-than-hardest',
      nearest: { setting: '5' },
    });
    expect(() => settingForScale(map, { value: NaN, standardError: null })).toThrow();
  });
});

describe('a published map', () => {
  it('[ANSI1966] has the middles of the bands, marked as no measurement', () => {
    const grades = paperMapFromGrades(ansiGradeTable);
    expect(grades.kind).toBe('published');
    expect(grades.warnings.map(({ code }) => code)).toEqual(['paper-from-published-table']);
    const two = paperAtSetting(grades, 2);
    expectWithin(two.exposureScale.value, 1.05, 1e-12);
    // An even spread over 0.95 to 1.15.
    expectWithin(two.exposureScale.standardError!, 0.2 / Math.sqrt(12), 1e-12);
    expect(two).toMatchObject({ threshold: null, paper: { kind: 'generated' } });
    expect(() => toneAtSetting(grades, 2, 0)).toThrow(InvalidArgumentError);
  });
  it('refuses filter settings without a number', () => {
    const { provenance } = ansiGradeTable;
    const settings = [{ setting: 'soft', isoRange: 130 }];
    expect(() => paperMapFromRanges({ name: 'x', settings, provenance })).toThrow();
  });
});

describe('every paper to print on', () => {
  it('fits by the paper families too', () => {
    const fit = fitPaperCurve(strip(1.1, 0));
    if (fit.status !== 'ok') throw new Error(fit.reason);
    const result = paperMap([{ setting: '2', curve: fit.curve }]);
    if (result.status !== 'ok') throw new Error(result.reason);
    expectWithin(paperAtSetting(result.map, 2).exposureScale.value, 1.1, 0.01);
    expect(settingForScale(result.map, { value: 1.2, standardError: null }).status).toBe(
      'not-reachable',
    );
  });
});
