/**
 * The error of a measured Callier factor, wherever the factor counts, against a Monte Carlo: the same
 * figure is computed for thousands of drawn factors, as if each had been measured.
 */
import { describe, expect, it } from 'vitest';
import { deviates } from '../../../../test/deviates.ts';
import { ansiGradeTable, seleniumDefaults } from '../../../../test/selenium-bath.ts';
import { expectWithin } from '../../../../test/within.ts';
import { fitCurve, type CharacteristicCurve } from '../curve/index.ts';
import { InvalidArgumentError } from '../errors.ts';
import {
  fitVariableContrast,
  generatedPaper,
  gradeOf,
  paperMapFromGrades,
  type VariableContrastReading,
} from '../paper/index.ts';
import {
  defaultTreatment,
  planTreatment,
  predictTreatment,
  printingRange,
  treatmentEffect,
} from '../treatment/index.ts';
import {
  matchNegative,
  matchTones,
  placedSubject,
  printLogExposureFor,
  splitForPrint,
  toneErrorsOf,
  tonePrinter,
  type WantedTones,
} from './index.ts';

const gradeTable = ansiGradeTable;
const Q = { callierFactor: 1.25, callierFactorError: 0.04 };
/** Draws; their scatter is known to 0.7 %, so 3 % is four times that. */
const DRAWS = 10_000;
const NEAR = 0.03;

function scatterOf(values: readonly number[]): number {
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  return Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (values.length - 1));
}
function draws<T>(seed: number, count: number, one: (normal: () => number) => T): T[] {
  const normal = deviates(seed);
  return Array.from({ length: count }, () => one(normal));
}
const drawnFactor = (normal: () => number) => Q.callierFactor + Q.callierFactorError * normal();
function expectError(stated: number | null, scatter: number, near = NEAR): void {
  expectWithin((stated ?? 0) / scatter, 1, near, 'stated error over the scatter of draws');
}

describe('a match with a measured Callier factor', () => {
  const negative = { densityRange: 0.9, standardError: 0.03 };
  const paper = { value: 1.02, standardError: 0.02 };
  const options = { gradeTable, ...Q, stain: 0.2, paper };
  const match = matchNegative(negative, options);
  const drawn = draws(3, DRAWS, (normal) => {
    const of = matchNegative(
      { densityRange: negative.densityRange + negative.standardError * normal() },
      {
        ...options,
        callierFactor: drawnFactor(normal),
        callierFactorError: null,
        paper: { value: paper.value + paper.standardError * normal(), standardError: null },
      },
    );
    return { range: of.printingRange.value, difference: of.paper!.difference.value };
  });

  it('has the error of range and factor together', () => {
    expectError(match.printingRange.standardError, scatterOf(drawn.map(({ range }) => range)));
    expect(match.isoRange!.exact.standardError).toBe(100 * match.printingRange.standardError!);
    // Left out, the error would be a quarter too small.
    const without = matchNegative(negative, { ...options, callierFactorError: null });
    expect(without.printingRange.standardError).toBeLessThan(
      0.8 * match.printingRange.standardError!,
    );
  });

  it('counts for spots that are exact: the factor is then all that is not sure', () => {
    const spots = { shadowDensity: 0.3, highlightDensity: 1.2 };
    const of = matchNegative(spots, { gradeTable, ...Q });
    expectWithin(of.printingRange.standardError!, 0.9 * 0.04, 1e-12);
    const turned = { shadowDensity: 1.2, highlightDensity: 0.3 };
    expectWithin(
      matchNegative(turned, { gradeTable, ...Q }).printingRange.standardError!,
      0.036,
      1e-12,
    );
    const unknown = matchNegative(spots, { gradeTable, callierFactor: 1.25 });
    expect(unknown.printingRange.standardError).toBeNull();
    expect(unknown.gradesWithin).toBeNull();
  });

  it('names grades that hold 95 % of the draws', () => {
    const [softest, hardest] = match.gradesWithin!;
    const held = drawn.filter(({ range }) => {
      const { continuous } = gradeOf(range, gradeTable);
      return continuous! >= softest.continuous! && continuous! <= hardest.continuous!;
    });
    // 10,000 draws know a part of 0.95 to 0.002.
    expectWithin(held.length / DRAWS, 0.95, 0.01);
    expect(softest.band).toBe(1);
    expect(hardest.band).toBe(2);
  });

  it('names the verdicts between the 2.5 and 97.5 hundredths of the draws', () => {
    expectError(
      match.paper!.difference.standardError,
      scatterOf(drawn.map(({ difference }) => difference)),
    );
    const sorted = drawn.map(({ difference }) => difference).sort((a, b) => a - b);
    const [low, high] = [sorted[0.025 * DRAWS]!, sorted[0.975 * DRAWS]!];
    expect(low).toBeGreaterThan(-0.05);
    expect(high).toBeGreaterThan(0.05);
    expect(match.paper!.verdict).toBe('overshoots');
    expect(match.paper!.verdictsWithin).toEqual(['fits', 'overshoots']);
    const exact = matchNegative(
      { densityRange: 0.9 },
      { gradeTable, paper: { ...paper, standardError: null } },
    );
    expect(exact.paper!.verdictsWithin).toEqual([exact.paper!.verdict]);
  });

  it('leaves a table of diffuse ranges alone', () => {
    const condenser = { ...gradeTable, light: 'condenser' } as const;
    expect(
      matchNegative({ densityRange: 0.9 }, { gradeTable: condenser, ...Q }).gradesWithin,
    ).toBeNull();
  });

  it.each([NaN, -0.01, Infinity])('refuses an error of %f', (callierFactorError) => {
    expect(() => matchNegative(negative, { ...options, callierFactorError })).toThrow(
      InvalidArgumentError,
    );
    expect(() =>
      printingRange({ value: 1, standardError: null }, { ...Q, callierFactorError, stain: 0 }),
    ).toThrow(InvalidArgumentError);
    expect(() =>
      predictTreatment(
        defaultTreatment(seleniumDefaults),
        negative,
        { partsWater: 1, minutes: 5, celsius: 20 },
        { gradeTable, callierFactorError },
      ),
    ).toThrow(InvalidArgumentError);
  });
});

describe('a bath with a measured Callier factor', () => {
  const model = defaultTreatment(seleniumDefaults);
  const bath = { partsWater: 1, minutes: 6, celsius: 20 };
  const negative = { densityRange: 0.8, shadowNetDensity: 0.2 };
  const options = { gradeTable, stain: 0.3, stainKept: 0.4 };

  it('counts it in the range before and after, the silver alone', () => {
    const { before, after } = predictTreatment(model, negative, bath, { ...options, ...Q });
    const drawn = draws(5, DRAWS, (normal) =>
      predictTreatment(model, negative, bath, { ...options, callierFactor: drawnFactor(normal) }),
    );
    expectError(
      before.printingRange.standardError,
      scatterOf(drawn.map((each) => each.before.printingRange.value)),
    );
    // The built-in gain has a plausible range and no error.
    expectError(
      after.printingRange.standardError,
      scatterOf(drawn.map((each) => each.after.printingRange.value)),
    );
    expect(after.densityRange.standardError).toBeNull();
    expect(after.gradesWithin![0].continuous).toBeLessThan(after.paperGrade.continuous!);
  });

  it('counts it in the minutes for a paper', () => {
    const target = { printingRange: 0.97 };
    const plan = planTreatment(model, negative, target, bath, { ...options, ...Q });
    const small = 0.005;
    const stated = planTreatment(model, negative, target, bath, {
      ...options,
      ...Q,
      callierFactorError: small,
    });
    // A small error, so that minutes that bend are straight over it.
    const minutes = draws(
      7,
      1000,
      (normal) =>
        planTreatment(model, negative, target, bath, {
          ...options,
          callierFactor: Q.callierFactor + small * normal(),
        }).minutes,
    );
    // 300 draws know their scatter to 4 %.
    expectError(stated.minutesError!.standardError, scatterOf(minutes), 0.15);
    expectWithin(
      plan.minutesError!.standardError! / stated.minutesError!.standardError!,
      Q.callierFactorError / small,
      1e-6,
    );
    const diffuse = planTreatment(model, negative, { densityRange: 0.9 }, bath, {
      gradeTable,
      ...Q,
    });
    expect(diffuse.minutesError!.standardError).toBeNull();
  });
});

describe('a print with a measured Callier factor', () => {
  const FOG = 0.1;
  /** Two spots as a light of the factor sees them; all that is not sure is the factor. */
  const spots = (factor: number, error: number | null): WantedTones => {
    const at = (density: number, printDensity: number) => ({
      negativeDensity: { value: FOG + factor * (density - FOG), standardError: null },
      sharedError: error === null ? null : error * (density - FOG),
      printDensity,
    });
    return { shadow: at(0.3, 1.7), highlight: at(1.05, 0.12) };
  };

  it('counts it in the setting, both tones moving together', () => {
    const map = paperMapFromGrades(gradeTable);
    const stated = matchTones(map, spots(Q.callierFactor, 0.01));
    const exact = matchTones(map, spots(Q.callierFactor, null));
    if (stated.status !== 'ok' || exact.status !== 'ok') throw new Error('no match');
    const ranges = draws(11, 300, (normal) => {
      const match = matchTones(map, spots(Q.callierFactor + 0.01 * normal(), null));
      if (match.status !== 'ok') throw new Error(match.status);
      return { range: match.printingRange.value, position: match.position.value };
    });
    expectError(stated.printingRange.standardError, scatterOf(ranges.map((r) => r.range)), 0.15);
    // The bands of a published table are not sure either.
    const byFactor = Math.sqrt(
      stated.position.standardError! ** 2 - exact.position.standardError! ** 2,
    );
    expectError(byFactor, scatterOf(ranges.map((r) => r.position)), 0.15);
  });

  it('counts it in the light of a split exposure', () => {
    const density = (hard: number, soft: number): number =>
      [0.2, -0.5, -1.1].reduce((sum, speed) => {
        const light = 10 ** (0.4 + hard) + 10 ** (speed + soft);
        return sum + 2 / 3 / (1 + light ** -(12 / Math.LN10));
      }, 0.06);
    const strip = (hard: number, soft: number): VariableContrastReading[] =>
      Array.from({ length: 21 }, (_, i) => {
        const x = -2 + 0.15 * i;
        return {
          hardLogExposure: x + hard,
          softLogExposure: x + soft,
          density: density(x + hard, x + soft),
        };
      });
    const fit = fitVariableContrast([
      ...strip(-Infinity, 0),
      ...strip(-0.6, 0),
      ...strip(0, -Infinity),
    ]);
    const small = 0.004;
    const splitOf = (factor: number, error: number | null) => {
      const split = splitForPrint(fit, spots(factor, error));
      if (split.status !== 'ok') throw new Error(split.status);
      return split;
    };
    const stated = splitOf(Q.callierFactor, small);
    const drawn = draws(13, 150, (normal) => splitOf(Q.callierFactor + small * normal(), null));
    for (const light of ['softSeconds', 'hardSeconds', 'hardOverSoftStops'] as const) {
      const own = splitOf(Q.callierFactor, null)[light].standardError ?? 0;
      const byFactor = Math.sqrt(stated[light].standardError! ** 2 - own ** 2);
      // 150 draws know their scatter to 6 %.
      expectError(byFactor, scatterOf(drawn.map((split) => split[light].value)), 0.2);
    }
  });

  it('counts it in the tones of a chain, but not in the one that was timed', () => {
    const film = drawnFilm();
    const effect = treatmentEffect(
      defaultTreatment(seleniumDefaults),
      { partsWater: 1, minutes: 6, celsius: 20 },
      { stain: 0.2, stainKept: 0.5 },
    );
    const held = { negativeDensity: 0.35, printDensity: 0.15, timedNegativeDensity: 1.05 };
    const placed = placedSubject(film, {
      shadowDensity: held.negativeDensity,
      shadowZone: 3,
      subjectRangeStops: 7,
      flareFactor: 1,
    })!;
    const chainOf = (callierFactor: number) => {
      const printing = {
        baseFog: FOG,
        effect,
        callierFactor,
        enlargerFlare: 0.01,
        paper: generatedPaper(1.05),
        paperWhiteDensity: 0.06,
      };
      const printLogExposure = printLogExposureFor(printing, {
        negativeDensity: held.timedNegativeDensity,
        printDensity: held.printDensity,
      })!;
      return { film, ...placed, printing: { ...printing, printLogExposure } };
    };
    const small = 0.01;
    const errors = toneErrorsOf(chainOf(Q.callierFactor), null, held, small);
    const none = toneErrorsOf(chainOf(Q.callierFactor), null, held);
    const tones = draws(17, 1000, (normal) => {
      const follow = tonePrinter(chainOf(Q.callierFactor + small * normal()));
      return [-0.6, 0, 0.6].map(follow);
    });
    [-0.6, 0, 0.6].forEach((subject, i) => {
      const tone = tonePrinter(chainOf(Q.callierFactor))(subject);
      // The film is as drawn, without an error of its own.
      expect(none(tone).printDensity).toBeNull();
      const { printDensity, lightness } = errors(tone);
      expectError(printDensity, scatterOf(tones.map((run) => run[i]!.printDensity)), 0.1);
      expectError(lightness, scatterOf(tones.map((run) => run[i]!.lightness)), 0.1);
    });
    const timed = tonePrinter(chainOf(Q.callierFactor))(0.9);
    expect(errors({ ...timed, negativeDensity: held.timedNegativeDensity }).printDensity).toBe(0);
  });
});

/** A film without an error of its own. */
function drawnFilm(): CharacteristicCurve {
  const logExposures = Array.from({ length: 25 }, (_, i) => -3.2 + 0.15 * i);
  const densities = logExposures.map((x) => 0.1 + 0.14 * Math.log1p(Math.exp((x + 2.2) / 0.2)));
  const fit = fitCurve({ logExposures, densities }, { family: 'as-drawn' });
  if (fit.status !== 'ok') throw new Error(fit.reason);
  return fit.curve;
}
