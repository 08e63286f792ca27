import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ansiGradeTable, laboratoryGradeTable } from '../../../../test/selenium-bath.ts';
import { deviates } from '../../../../test/deviates.ts';
import { expectWithin } from '../../../../test/within.ts';
import { fitCurve, type CharacteristicCurve, type CurveFamily } from '../curve/index.ts';
import { InvalidArgumentError, OutOfDomainError } from '../errors.ts';
import {
  densityFromLightness,
  fitPaperCurve,
  gradeBand,
  gradeOf,
  isoPaperSpeed,
  isoPaperSpeedRounded,
  isoRange,
  isoRangeRounded,
  lightnessFromDensity,
  paperFromGrade,
  paperFromIsoRange,
  paperMeasures,
  rangeOfGrade,
} from './index.ts';

describe('gradeOf', () => {
  it.each([ansiGradeTable, laboratoryGradeTable])('agrees with its inverse in $id', (table) => {
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 1.6, noNaN: true }), (range) => {
        const { continuous, band } = gradeOf(range, table);
        expect(Math.abs(continuous! - band!)).toBeLessThanOrEqual(0.5 + 1e-9);
        // At a limit the two bands meet, whichever owns it.
        expectWithin(rangeOfGrade(continuous!, table), range, 1e-8);
      }),
    );
  });

  it('puts the middle of a band on its whole number, and harder papers higher', () => {
    expectWithin(gradeOf(1.05, ansiGradeTable).continuous!, 2, 1e-9);
    expect(gradeOf(1.0, ansiGradeTable).continuous).toBeGreaterThan(2);
    for (const { grade, lower, upper } of ansiGradeTable.bands) {
      expectWithin(gradeOf((lower + upper) / 2, ansiGradeTable).continuous!, grade, 1e-9);
    }
  });

  it.each([NaN, Infinity, -Infinity])('refuses %f', (range) => {
    expect(() => gradeOf(range, ansiGradeTable)).toThrow(InvalidArgumentError);
  });

  it('refuses a table without bands and a grade without a band', () => {
    expect(() => gradeOf(1, { ...ansiGradeTable, bands: [] })).toThrow(InvalidArgumentError);
    expect(() => gradeBand(6, ansiGradeTable)).toThrow(OutOfDomainError);
    expect(() => rangeOfGrade(5.6, ansiGradeTable)).toThrow(OutOfDomainError);
    expectWithin(rangeOfGrade(5.5, ansiGradeTable), 0.5, 1e-12);
    expectWithin(rangeOfGrade(-0.5, ansiGradeTable), 1.7, 1e-12);
  });
});

describe('ISO range and speed', () => {
  it.each([NaN, 0, -1, Infinity])('refuse %f', (bad) => {
    expect(() => isoRange(bad)).toThrow(OutOfDomainError);
    expect(() => isoRangeRounded(bad)).toThrow(OutOfDomainError);
    expect(() => isoPaperSpeed(bad)).toThrow(OutOfDomainError);
    expect(() => isoPaperSpeedRounded(bad)).toThrow(InvalidArgumentError);
  });
  it('round a 5 up in spite of binary fractions', () => {
    for (let tens = 4; tens < 20; tens++) {
      expect(isoRangeRounded((10 * tens + 5) / 100)).toBe(10 * (tens + 1));
      expect(isoRangeRounded((10 * tens + 4.99) / 100)).toBe(10 * tens);
    }
  });
});

describe('lightness', () => {
  it.each([NaN, Infinity])('refuses a density of %f', (bad) => {
    expect(() => lightnessFromDensity(bad)).toThrow(InvalidArgumentError);
  });
  it.each([NaN, 0, -1, 101])('refuses a lightness of %f', (bad) => {
    expect(() => densityFromLightness(bad)).toThrow(InvalidArgumentError);
  });
});

describe('a paper of which no strip was read', () => {
  it('by ISO range', () => {
    expect(paperFromIsoRange(110)).toMatchObject({ exposureScale: 1.1, interval: [1.05, 1.15] });
    for (const bad of [NaN, 0, 1000]) {
      expect(() => paperFromIsoRange(bad)).toThrow(InvalidArgumentError);
    }
  });
  it('by grade, with the warning that it is no measurement', () => {
    const paper = paperFromGrade(3, ansiGradeTable);
    expectWithin(paper.exposureScale, 0.875, 1e-12);
    expect(paper.interval).toEqual([0.8, 0.95]);
    expect(paper.warnings.map(({ code }) => code)).toEqual(['grade-from-published-bands']);
    expect(() => paperFromGrade(9, ansiGradeTable)).toThrow(OutOfDomainError);
  });
});

describe('paperMeasures', () => {
  const paperCurve = (
    last: number,
    family: CurveFamily = 'logistic-4',
    noise: () => number = () => 0,
  ): CharacteristicCurve => {
    const logExposures = Array.from(
      { length: Math.round((last + 1) / 0.1) + 1 },
      (_, i) => -1 + 0.1 * i,
    );
    const fit = fitCurve(
      {
        logExposures,
        densities: logExposures.map((x) => 0.06 + 2 / (1 + Math.exp(-5 * (x - 0.5))) + noise()),
        unexposedDensities: [0.06, 0.06],
      },
      { family },
    );
    if (fit.status !== 'ok') throw new Error(fit.reason);
    return fit.curve;
  };
  const codes = (measures: { warnings: readonly { code: string }[] }) =>
    measures.warnings.map(({ code }) => code);

  it('takes the asymptote only where the strip gets near it', () => {
    const whole = paperMeasures(paperCurve(2.2), { exposureKind: 'absolute' });
    expect(whole.densityMax.basis).toBe('asymptote');
    expectWithin(whole.densityMax.value, 2.06, 1e-3);
    expect(codes(whole)).not.toContain('paper-maximum-not-reached');
    const cut = paperMeasures(paperCurve(0.8), { exposureKind: 'absolute' });
    expect(cut.densityMax.basis).toBe('highest-reading');
    expect(codes(cut)).toContain('paper-maximum-not-reached');
    expect(cut.exposureScale!.value).toBeLessThan(whole.exposureScale!.value);
  });

  it('gives no speed where exposures are relative, and no grade without a table', () => {
    const measures = paperMeasures(paperCurve(2.2));
    expect(measures.isoSpeed).toBeNull();
    expect(measures.paperGrade).toBeNull();
    expect(codes(measures)).toContain('exposure-relative');
  });

  it('gives no exposure scale where a point lies outside the strip', () => {
    const logExposures = [0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 1, 1.2, 1.4, 1.6, 2];
    const fit = fitCurve(
      {
        logExposures,
        densities: logExposures.map((x) => 0.06 + 2 / (1 + Math.exp(-5 * (x - 0.5)))),
      },
      { family: 'logistic-4' },
    );
    if (fit.status !== 'ok') throw new Error(fit.reason);
    const measures = paperMeasures(fit.curve);
    expect(measures.exposureScale).toBeNull();
    expect(measures.isoRange).toBeNull();
    expect(codes(measures)).toContain('paper-minimum-not-reached');
  });

  it('has standard errors that agree with the scatter of repeated strips', () => {
    const normal = deviates(6846);
    const all = Array.from({ length: 40 }, () =>
      paperMeasures(paperCurve(2.2, 'logistic-4', () => 0.01 * normal())),
    );
    const scales = all.map((m) => m.exposureScale!.value);
    const mean = scales.reduce((sum, value) => sum + value, 0) / scales.length;
    const scatter = Math.sqrt(
      scales.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (scales.length - 1),
    );
    const stated = all.reduce((sum, m) => sum + m.exposureScale!.standardError!, 0) / all.length;
    // Forty strips know their scatter to 11 %; three times that.
    expect(stated / scatter).toBeGreaterThan(0.67);
    expect(stated / scatter).toBeLessThan(1.33);
  });

  it.each<CurveFamily>(['toe-shoulder', 'logistic-5', 'monotone-smooth', 'as-drawn'])(
    'works on %s',
    (family) => {
      const measures = paperMeasures(paperCurve(2.2, family), { gradeTable: ansiGradeTable });
      // Net 0.04 to 90 % of the logistic: (ln 9 + ln 49) / 5.
      const scale = (Math.log(9) + Math.log(49)) / 5;
      expectWithin(measures.exposureScale!.value, scale, 0.05, family);
      expect(measures.greatestGradient!.value).toBeGreaterThan(2);
      expect(measures.averageGradient!.value).toBeLessThan(measures.greatestGradient!.value);
      expect(measures.paperGrade!.band).toBe(1);
    },
  );
});

describe('fitPaperCurve, generated study: four true papers, readings with errors of 0.01', () => {
  const s = (t: number) => 1 / (1 + Math.exp(-t));
  const soft = (t: number) => Math.log1p(Math.exp(t));
  const truths: [string, (x: number) => number][] = [
    ['a logistic', (x) => 0.06 + 2 * s(5.8 * (x - 1))],
    ['a lopsided one', (x) => 0.06 + 2 * s(7 * (x - 0.9)) ** 0.6],
    [
      'toe and shoulder',
      (x) => 0.06 + 0.312 * soft((x - 0.6) / 0.12) - 0.234 * soft((x - 1.4) / 0.09),
    ],
    [
      'three layers',
      (x) => 0.06 + 0.683 * (s(15.3 * (x - 0.7)) + s(15.3 * (x - 1)) + s(15.3 * (x - 1.35))),
    ],
  ];
  const logExposures = Array.from({ length: 21 }, (_, i) => -0.5 + 0.15 * i);

  it.each(truths)(
    '%s: R within 3 on the average, intervals that cover',
    { timeout: 60_000 },
    (_, truth) => {
      const low = truth(-20);
      const high = truth(20);
      const where = (density: number) => {
        let [a, b] = [-5, 8];
        for (let i = 0; i < 60; i++) {
          const middle = (a + b) / 2;
          if (truth(middle) < density) a = middle;
          else b = middle;
        }
        return a;
      };
      const expected = 100 * (where(low + 0.9 * (high - low)) - where(low + 0.04));
      const normal = deviates(6846);
      const read = (density: number) => Math.round(100 * (density + 0.01 * normal())) / 100;
      const count = 80;
      let held = 0;
      let squares = 0;
      for (let k = 0; k < count; k++) {
        const fit = fitPaperCurve({
          logExposures,
          densities: logExposures.map((x) => read(truth(x))),
          unexposedDensities: [read(low), read(low), read(low)],
        });
        if (fit.status !== 'ok') throw new Error(fit.reason);
        const { value, standardError } = paperMeasures(fit.curve).isoRange!.exact;
        squares += (value - expected) ** 2;
        if (Math.abs(value - expected) <= 1.96 * standardError!) held++;
      }
      expect(Math.sqrt(squares / count)).toBeLessThan(3);
      // Three standard errors of a share of 0.95 among 80 are 0.073.
      expect(held / count).toBeGreaterThan(0.877);
    },
  );

  it('says why there is no curve', () => {
    expect(fitPaperCurve({ logExposures: [0, 1], densities: [0.1, 1] }).status).toBe(
      'not-determined',
    );
    expect(() => fitPaperCurve({ logExposures: [0], densities: [] })).toThrow();
  });
});
