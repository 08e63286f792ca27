import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ansiGradeTable,
  processDefaults,
  seleniumDefaults,
} from '../../../../../test/selenium-bath.ts';
import { expectWithin, printedTo } from '../../../../../test/within.ts';
import { InvalidArgumentError, OutOfDomainError } from '../../errors.ts';
import { generatedPaper } from '../../paper/index.ts';
import { defaultTreatment } from '../default-model.ts';
import {
  sortWays,
  WAY_IDS,
  WAY_ORDERS,
  waysOut,
  type WayId,
  type WayOut,
  type WaysInput,
} from './index.ts';

const INPUT: WaysInput = {
  model: defaultTreatment(seleniumDefaults),
  negative: { shadow: 0.15, highlight: 0.89 },
  target: { grade: 3 },
  bath: { partsWater: 1, celsius: 20 },
  options: { gradeTable: ansiGradeTable },
  defaults: processDefaults,
  splitScales: [0.4, 1.8],
};

function way(ways: readonly WayOut[], id: WayId): WayOut {
  const found = ways.find((each) => each.id === id);
  if (found === undefined) throw new Error(`no way ${id}`);
  return found;
}
const range = ({ negative }: WayOut): number => negative.printingRange.value;

describe('the ways out of a flat negative', () => {
  const ways = waysOut(INPUT);

  it('are the six that a printer would weigh, in the order of interference', () => {
    expect(ways.map(({ id }) => id)).toEqual([
      'print-to-fit',
      'split-exposure',
      'selenium',
      'chromium',
      'chromium-then-selenium',
      'next-roll',
    ]);
  });

  it('leave the range alone where nothing is done, and say which paper is meant', () => {
    for (const id of ['print-to-fit', 'split-exposure'] as const) {
      expectWithin(range(way(ways, id)), 0.74, 1e-12, id);
      expect(way(ways, id).gain).toBe(1);
      expectWithin(way(ways, id).exposureStops, 0, 1e-12, 'exposure');
    }
    expect(way(ways, 'print-to-fit').paperGrade).toBe(4);
    // The middle of the ANSI band 0.65 to 0.80 (published limits).
    expectWithin(way(ways, 'print-to-fit').paper.exposureScale, 0.725, 1e-12, 'scale');
    expectWithin(way(ways, 'split-exposure').paper.exposureScale, 0.74, 1e-12, 'split scale');
    expectWithin(way(ways, 'split-exposure').misfit, 0, 1e-12, 'misfit');
  });

  it('bring a grade-4 negative to grade 3 in selenium, as practice has it', () => {
    const selenium = way(ways, 'selenium');
    expect(selenium.negative.paperGrade.band).toBe(3);
    expect(selenium.minutes).toBeGreaterThan(0);
    const [least, most] = selenium.plausibleRange!;
    expect(least).toBeLessThan(range(selenium));
    expect(most).toBeGreaterThan(range(selenium));
  });

  it('multiply silver by the rule of thumb in chromium: 1.2 to 1.5 a pass (memory, low)', () => {
    const chromium = way(ways, 'chromium');
    expectWithin(range(chromium), 1.35 * 0.74, 1e-12, 'range');
    expectWithin(chromium.plausibleRange![0], 1.2 * 0.74, 1e-12, 'least');
    expectWithin(chromium.plausibleRange![1], 1.5 * 0.74, 1e-12, 'most');
    const both = way(ways, 'chromium-then-selenium');
    expectWithin(range(both), both.gain * 0.74, 1e-12, 'both');
    expect(both.gain).toBeGreaterThan(chromium.gain);
    expect(both.limit).toBe('overshoots');
  });

  it('count exposure by the highlight: net 0.89 times 1.35 is 0.3115 denser, 1.035 stops', () => {
    expectWithin(way(ways, 'chromium').exposureStops, 0.3115 / Math.log10(2), 1e-9, 'stops');
  });

  it('turn 7 stops squeezed to 6 into one zone of development (derived, 7/6)', () => {
    const next = way(waysOut({ ...INPUT, target: { printingRange: (0.74 * 7) / 6 } }), 'next-roll');
    expectWithin(next.developmentChange!, 1, 1e-9, 'zones');
    expectWithin(next.graininess.negative, 7 / 6, 1e-9, 'grain');
    expect(next.limit).toBeNull();
  });

  it('[ISO6846] separations on the logistic paper of R 105 are its slopes at both ends', () => {
    // K n (1 - n / Dn) at net 0.04 and 1.80 with K 5.79909, Dn 2.00 (derived).
    const fitting = waysOut({
      ...INPUT,
      negative: { shadow: 0.1, highlight: 1.15 },
      target: { grade: 2 },
    });
    const print = way(fitting, 'print-to-fit');
    expectWithin(print.highlightSeparation, 5.79909 * 0.04 * 0.98, 1e-5, 'highlight');
    expectWithin(print.shadowSeparation, 5.79909 * 1.8 * 0.1, 1e-4, 'shadow');
    expectWithin(print.graininess.print, 1, 1e-12, 'grain');
  });

  it('take the paper of the user wherever a way fits it, and no other', () => {
    const paper = generatedPaper(0.88, 2.1);
    const own = waysOut({ ...INPUT, paper });
    expect(way(own, 'selenium').paper).toBe(paper);
    expect(way(own, 'print-to-fit').paper).not.toBe(paper);
  });

  it('compare separation in the print fairly: what is fitted to its paper parts alike', () => {
    // A proportional change and a paper of just the longer scale give the same print.
    const printed = waysOut({ ...INPUT, target: { printingRange: 0.85 } });
    const paper = generatedPaper(0.85);
    const toned = way(waysOut({ ...INPUT, target: { printingRange: 0.85 }, paper }), 'next-roll');
    const split = way(printed, 'split-exposure');
    expectWithin(toned.shadowSeparation, split.shadowSeparation, 1e-9, 'shadow');
    expectWithin(toned.highlightSeparation, split.highlightSeparation, 1e-9, 'highlight');
  });

  it('say when no split exposure of the paper is hard enough', () => {
    const thin = waysOut({ ...INPUT, negative: { shadow: 0.1, highlight: 0.4 } });
    expect(way(thin, 'split-exposure').limit).toBe('beyond-paper');
    expectWithin(way(thin, 'split-exposure').paper.exposureScale, 0.4, 1e-12, 'scale');
  });
});

describe('image stain', () => {
  it('is lost in the bleach: s 0.375 takes 27 % of the range with it (derived)', () => {
    const options = { ...INPUT.options, stain: 0.375, stainKept: 1 };
    const chromium = way(waysOut({ ...INPUT, options }), 'chromium');
    // (1.35 + 0) / 1.375 of the range; silver alone without gain would be 1 / 1.375 = 0.727.
    expectWithin(range(chromium) / 0.74, 1.35 / 1.375, 1e-9, 'effective gain');
    expectWithin(1 - range(chromium) / 1.35 / 0.74, 0.27, printedTo(2), 'lost');
    expect(chromium.limit).toBe('falls-short');
  });
});

describe('the ways out of a hard negative', () => {
  const long = waysOut({ ...INPUT, negative: { shadow: 0.25, highlight: 2.25 } });

  it('are reducers, and no intensifier', () => {
    expect(long.map(({ id }) => id)).toEqual([
      'print-to-fit',
      'split-exposure',
      'reduce-proportional',
      'reduce-superproportional',
      'reduce-surface',
      'next-roll',
    ]);
  });

  it('halve the silver everywhere in a proportional reduction of 50 % (published, 1918)', () => {
    const half = way(
      waysOut({
        ...INPUT,
        negative: { shadow: 0.25, highlight: 2.25 },
        target: { printingRange: 1 },
      }),
      'reduce-proportional',
    );
    expectWithin(half.gain, 0.5, 1e-12, 'gain');
    expectWithin(half.exposureStops, -1.125 / Math.log10(2), 1e-9, 'exposure');
  });

  it('reach the aim by either law, the superproportional one sparing the shadows', () => {
    const plain = way(long, 'reduce-proportional');
    const steep = way(long, 'reduce-superproportional');
    for (const each of [plain, steep]) expectWithin(range(each), 0.875, 1e-9, each.id);
    // Near the shadow more of the silver is left to the steeper law only where its gain is higher;
    // its slope rises towards the highlight.
    expect(steep.highlightSeparation).toBeGreaterThan(plain.highlightSeparation);
  });

  it('take the same everywhere in a surface reducer, which leaves the range as it was', () => {
    const surface = way(long, 'reduce-surface');
    expectWithin(surface.taken!, 0.15, 1e-12, 'taken down to net 0.10');
    expectWithin(range(surface), 2, 1e-12, 'range');
    expectWithin(surface.exposureStops, -0.15 / Math.log10(2), 1e-9, 'exposure');
    expect(surface.limit).toBe('range-unchanged');
    const bare = waysOut({ ...INPUT, negative: { shadow: 0.08, highlight: 2.25 } });
    expect(way(bare, 'reduce-surface').limit).toBe('shadow-lost');
  });
});

describe('orders', () => {
  const ways = waysOut(INPUT);

  it('put first what the user wishes, and mutate nothing', () => {
    const before = ways.map(({ id }) => id);
    expect(sortWays(ways, 'least-interference').map(({ id }) => id)).toEqual(before);
    const figures: Record<(typeof WAY_ORDERS)[number], (each: WayOut) => number> = {
      'least-interference': ({ id }) => WAY_IDS.indexOf(id),
      'nearest-to-aim': ({ fromTarget }) => Math.abs(fromTarget),
      'highlight-separation': ({ highlightSeparation }) => -highlightSeparation,
      'shadow-separation': ({ shadowSeparation }) => -shadowSeparation,
      'least-grain': ({ graininess }) => graininess.print,
      'shortest-exposure': ({ exposureStops }) => exposureStops,
    };
    for (const order of WAY_ORDERS) {
      const sorted = sortWays(ways, order).map(figures[order]);
      sorted.forEach((value, i) => {
        expect(value).toBeGreaterThanOrEqual(sorted[i - 1] ?? -Infinity);
      });
    }
    expect(ways.map(({ id }) => id)).toEqual(before);
  });
});

describe('any negative', () => {
  it('gives finite figures for every way', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 0.5, noNaN: true }),
        fc.double({ min: 0.1, max: 3, noNaN: true }),
        fc.integer({ min: 0, max: 5 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 1, max: 1.4, noNaN: true }),
        (shadow, densityRange, grade, stain, callierFactor) => {
          const ways = waysOut({
            ...INPUT,
            negative: { shadow, highlight: shadow + densityRange },
            target: { grade },
            options: { gradeTable: ansiGradeTable, stain, stainKept: 0.5, callierFactor },
          });
          for (const each of ways) {
            const figures = [
              range(each),
              each.misfit,
              each.shadowSeparation,
              each.highlightSeparation,
              each.exposureStops,
              each.graininess.negative,
              each.graininess.print,
              each.fromTarget,
              ...(each.plausibleRange ?? []),
            ];
            for (const figure of figures) expect(Number.isFinite(figure), each.id).toBe(true);
            expect(each.shadowSeparation).toBeGreaterThanOrEqual(0);
          }
        },
      ),
    );
  });

  it.each([
    { shadow: 0.5, highlight: 0.5 },
    { shadow: -0.1, highlight: 1 },
    { shadow: NaN, highlight: 1 },
    { shadow: 0.1, highlight: Infinity },
  ])('refuses %o', (negative) => {
    expect(() => waysOut({ ...INPUT, negative })).toThrow(InvalidArgumentError);
  });

  it('refuses a grade that the table does not have', () => {
    expect(() => waysOut({ ...INPUT, target: { grade: 9 } })).toThrow(OutOfDomainError);
  });
});
