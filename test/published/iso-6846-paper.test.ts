/**
 * [ISO6846] A paper whose curve is a logistic of net maximum 2.00 and ISO range 105, worked out by
 * hand from the definitions (derived): D = 2 / (1 + exp(-k (x - x0))),
 * k = (ln(0.9/0.1) - ln(0.04/1.96)) / 1.05 = 5.79909.
 */
import { describe, expect, it } from 'vitest';
import { ansiGradeTable, standardSeries } from '@wedgebook/data';
import {
  fitCurve,
  fitPaperCurve,
  ISO_PAPER_SPEEDS,
  isoPaperSpeedRounded,
  isoRangeRounded,
  paperMeasures,
  type CurveFamily,
} from '@wedgebook/core';
import { expectWithin, printedTo } from '../within.ts';

const NET_MAXIMUM = 2;
const K = (Math.log(9) - Math.log(0.04 / 1.96)) / 1.05;
const X0 = 1;
const BASE = 0.06;
const logistic = (x: number) => BASE + NET_MAXIMUM / (1 + Math.exp(-K * (x - X0)));

const logExposures = Array.from({ length: 31 }, (_, i) => -0.5 + 0.1 * i);
const measuresBy = (family: CurveFamily, densities = logExposures.map(logistic)) => {
  const fit = fitCurve({ logExposures, densities, unexposedDensities: [BASE, BASE] }, { family });
  if (fit.status !== 'ok') throw new Error(`no curve: ${fit.reason}`);
  return paperMeasures(fit.curve, { exposureKind: 'absolute', gradeTable: ansiGradeTable });
};

describe('[ISO6846] logistic paper of R 105 (derived)', () => {
  it('has the constants of the worked example', () => {
    expectWithin(K, 5.79909, printedTo(5));
  });

  it('gives the three points, R, P and the gradients from the exact family', () => {
    const m = measuresBy('logistic-4');
    expectWithin(m.threshold!.logExposure.value, X0 - 0.67111, printedTo(5), 'threshold');
    expectWithin(m.speedPoint!.logExposure.value, X0 - 0.14611, printedTo(5), 'speed point');
    expectWithin(m.shadowPoint!.logExposure.value, X0 + 0.37889, printedTo(5), 'shadow point');
    expectWithin(m.isoRange!.exact.value, 105, 1e-4, 'R');
    expectWithin(m.isoSpeed!.exact.value, 139.99, printedTo(2), 'P');
    expectWithin(m.greatestGradient!.value, 2.8995, printedTo(4), 'greatest gradient');
    expectWithin(m.averageGradient!.value, 1.6762, printedTo(4), 'average gradient');
    expect(m.densityMax.basis).toBe('asymptote');
    expect(m.isoSpeed!.rounded).toBe(125);
    expect(m.paperGrade).toMatchObject({ band: 2 });
    expect(m.warnings).toEqual([]);
  });

  it('gives the same from the families that a paper may follow, without being told which', () => {
    const fit = fitPaperCurve({
      logExposures,
      densities: logExposures.map(logistic),
      unexposedDensities: [BASE, BASE],
    });
    if (fit.status !== 'ok') throw new Error(`no curve: ${fit.reason}`);
    const m = paperMeasures(fit.curve, { exposureKind: 'absolute' });
    expectWithin(m.isoRange!.exact.value, 105, 0.01, 'R');
    expectWithin(m.isoSpeed!.exact.value, 139.99, 0.02, 'P');
    expectWithin(m.greatestGradient!.value, 2.8995, 1e-3, 'greatest gradient');
  });

  it('a family of film curves misses it by up to 3, which is why papers have their own choice', () => {
    const m = measuresBy('toe-shoulder');
    expectWithin(m.isoRange!.exact.value, 105, 3, 'R');
    expectWithin(Math.log10(m.isoSpeed!.exact.value / 139.99), 0, 0.02, 'log P');
  });

  it('gives the same within three standard errors from densities read to two decimals', () => {
    const rounded = logExposures.map((x) => Math.round(100 * logistic(x)) / 100);
    const m = measuresBy('logistic-4', rounded);
    const { value, standardError } = m.isoRange!.exact;
    expect(standardError).toBeGreaterThan(0);
    expect(standardError!).toBeLessThan(1);
    expectWithin(value, 105, 3 * standardError!, 'R');
  });

  it('takes 90 % of the gross maximum when asked', () => {
    const fit = fitCurve(
      { logExposures, densities: logExposures.map(logistic), unexposedDensities: [BASE] },
      { family: 'logistic-4' },
    );
    if (fit.status !== 'ok') throw new Error('no curve');
    const m = paperMeasures(fit.curve, { densityBasis: 'gross' });
    // 0.9 (2.06) - 0.06 net over 2.00, solved on the logistic.
    const part = (0.9 * (NET_MAXIMUM + BASE) - BASE) / NET_MAXIMUM;
    expectWithin(
      m.shadowPoint!.logExposure.value,
      X0 + Math.log(part / (1 - part)) / K,
      1e-5,
      'shadow point',
    );
    expect(m.isoSpeed).toBeNull();
  });
});

describe('[ISO6846] rounding (from memory, unverified)', () => {
  it.each([
    [1.05, 110],
    [1.049, 100],
    [1.12, 110],
    [1.15, 120],
    [0.4, 40],
  ])('prints a scale of %f as R %i', (scale, printed) => {
    expect(isoRangeRounded(scale)).toBe(printed);
  });

  it('keeps every member of the series of paper speeds where it is', () => {
    expect(ISO_PAPER_SPEEDS).toEqual(standardSeries.isoPaperSpeed.values);
    for (const speed of standardSeries.isoPaperSpeed.values) {
      expect(isoPaperSpeedRounded(speed)).toBe(speed);
    }
  });

  it.each([0.5, 1500])('gives no rounded speed for %f, beyond the series', (speed) => {
    expect(isoPaperSpeedRounded(speed)).toBeNull();
  });
});
