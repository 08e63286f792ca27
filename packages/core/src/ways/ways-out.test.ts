import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ansiGradeTable, seleniumDefaults } from '../../../../test/selenium-bath.ts';
import { WAYS_INPUT, wayFrom } from '../../../../test/ways-input.ts';
import { expectWithin, printedTo } from '../../../../test/within.ts';
import { InvalidArgumentError, OutOfDomainError } from '../errors.ts';
import { generatedPaper } from '../paper/index.ts';
import { fitTreatment, predictTreatment } from '../treatment/index.ts';
import { sortWays, WAY_IDS, WAY_ORDERS, waysOut, type WayOut } from './index.ts';

const range = ({ negative }: WayOut): number => negative.printingRange.value;

describe('the ways out of a flat negative', () => {
  const ways = waysOut(WAYS_INPUT);

  it('are those that a printer would weigh, in the order of interference', () => {
    expect(ways.map(({ id }) => id)).toEqual([
      'print-to-fit',
      'split-exposure',
      'selenium-and-paper',
      'selenium',
      'chromium-partial',
      'chromium',
      'chromium-twice',
      'chromium-then-selenium',
      'next-roll',
    ]);
  });

  it('leave the range alone where nothing is done, and say which paper is meant', () => {
    for (const id of ['print-to-fit', 'split-exposure'] as const) {
      expectWithin(range(wayFrom(ways, id)), 0.74, 1e-12, id);
      expect(wayFrom(ways, id).gain).toBe(1);
    }
    expectWithin(wayFrom(ways, 'print-to-fit').exposureStops!, 0, 1e-12, 'exposure');
    expect(wayFrom(ways, 'print-to-fit').paperGrade).toBe(4);
    // The middle of the ANSI band 0.65 to 0.80 (published limits).
    expectWithin(wayFrom(ways, 'print-to-fit').paper.exposureScale, 0.725, 1e-12, 'scale');
    expectWithin(wayFrom(ways, 'split-exposure').paper.exposureScale, 0.74, 1e-9, 'split scale');
    expectWithin(wayFrom(ways, 'split-exposure').misfit, 0, 1e-9, 'misfit');
  });

  it('bring a grade-4 negative to grade 3 in selenium, as practice has it', () => {
    const selenium = wayFrom(ways, 'selenium');
    expect(selenium.negative.paperGrade.band).toBe(3);
    expect(selenium.minutes).toBeGreaterThan(0);
    const [least, most] = selenium.plausibleRange!;
    expect(least).toBeLessThan(range(selenium));
    expect(most).toBeGreaterThan(range(selenium));
  });

  it('multiply silver by the rule of thumb in chromium: 1.2 to 1.5 a pass (memory, low)', () => {
    const chromium = wayFrom(ways, 'chromium');
    expectWithin(range(chromium), 1.35 * 0.74, 1e-12, 'range');
    expectWithin(chromium.plausibleRange![0], 1.2 * 0.74, 1e-12, 'least');
    expectWithin(chromium.plausibleRange![1], 1.5 * 0.74, 1e-12, 'most');
    const both = wayFrom(ways, 'chromium-then-selenium');
    expectWithin(range(both), both.gain * 0.74, 1e-12, 'both');
    expect(both.gain).toBeGreaterThan(chromium.gain);
    expect(both.limit).toBe('overshoots');
  });

  it('count exposure by the highlight: net 0.89 times 1.35 is 0.3115 denser, 1.035 stops', () => {
    expectWithin(wayFrom(ways, 'chromium').exposureStops!, 0.3115 / Math.log10(2), 1e-9, 'stops');
  });

  it('turn 7 stops squeezed to 6 into one zone of development (derived, 7/6)', () => {
    const next = wayFrom(
      waysOut({ ...WAYS_INPUT, target: { printingRange: (0.74 * 7) / 6 } }),
      'next-roll',
    );
    expectWithin(next.nextRoll!.developmentChange, 1, 1e-9, 'zones');
    expectWithin(next.graininess.negative, 7 / 6, 1e-9, 'grain');
    expect(next.limit).toBeNull();
  });

  it('[ISO6846] separations on the logistic paper of R 105 are its slopes at both ends', () => {
    // K n (1 - n / Dn) at net 0.04 and 1.80 with K 5.79909, Dn 2.00 (derived).
    const fitting = waysOut({
      ...WAYS_INPUT,
      negative: { shadow: 0.1, highlight: 1.15 },
      target: { grade: 2 },
    });
    const print = wayFrom(fitting, 'print-to-fit');
    expectWithin(print.highlightSeparation, 5.79909 * 0.04 * 0.98, 1e-5, 'highlight');
    expectWithin(print.shadowSeparation, 5.79909 * 1.8 * 0.1, 1e-4, 'shadow');
    expectWithin(print.graininess.print, 1, 1e-12, 'grain');
  });

  it('take the paper of the user wherever a way fits it, and no other', () => {
    const paper = generatedPaper(0.88, 2.1);
    const own = waysOut({ ...WAYS_INPUT, paper });
    expect(wayFrom(own, 'selenium').paper).toBe(paper);
    expect(wayFrom(own, 'print-to-fit').paper).not.toBe(paper);
  });

  it('compare separation in the print fairly: what is fitted to its paper parts alike', () => {
    // A proportional change and a paper of just the longer scale give the same print.
    const target = { printingRange: 0.85 };
    const toned = wayFrom(
      waysOut({ ...WAYS_INPUT, target, paper: generatedPaper(0.85) }),
      'next-roll',
    );
    const plain = wayFrom(
      waysOut({ ...WAYS_INPUT, target, paper: generatedPaper(0.74) }),
      'print-to-fit',
    );
    expectWithin(toned.shadowSeparation, plain.shadowSeparation, 1e-9, 'shadow');
    expectWithin(toned.highlightSeparation, plain.highlightSeparation, 1e-9, 'highlight');
  });

  it('say when no split exposure of the paper is hard enough', () => {
    const thin = waysOut({ ...WAYS_INPUT, negative: { shadow: 0.1, highlight: 0.4 } });
    expect(wayFrom(thin, 'split-exposure').limit).toBe('beyond-paper');
    // Hard light alone on the layer paper is R 40 (derived, as the published sheet ends).
    expectWithin(wayFrom(thin, 'split-exposure').paper.exposureScale, 0.4, 1e-4, 'scale');
  });
});

describe('image stain', () => {
  it('is lost in the bleach: s 0.375 takes 27 % of the range with it (derived)', () => {
    const options = { ...WAYS_INPUT.options, stain: 0.375, stainKept: 1 };
    const chromium = wayFrom(waysOut({ ...WAYS_INPUT, options }), 'chromium');
    // (1.35 + 0) / 1.375 of the range; silver alone without gain would be 1 / 1.375 = 0.727.
    expectWithin(range(chromium) / 0.74, 1.35 / 1.375, 1e-9, 'effective gain');
    expectWithin(1 - range(chromium) / 1.35 / 0.74, 0.27, printedTo(2), 'lost');
    expect(chromium.limit).toBe('falls-short');
  });
});

describe('chromium in part and twice', () => {
  it('stops where the range reaches the aim, when a whole pass goes beyond it', () => {
    const partial = wayFrom(waysOut(WAYS_INPUT), 'chromium-partial');
    expectWithin(range(partial), 0.875, 1e-9, 'the middle of grade 3');
    expect(partial.redevelopedPart).toBeLessThan(1);
    // The highlight comes back in part p, the thinnest densities whole.
    expectWithin(partial.gain, 1.35 * partial.redevelopedPart!, 1e-12, 'gain at the highlight');
    expect(
      partial.shadowSeparation / wayFrom(waysOut(WAYS_INPUT), 'selenium').shadowSeparation,
    ).toBeGreaterThan(1);
    const [least, most] = partial.plausibleRange!;
    expect(least).toBeLessThan(range(partial));
    expect(most).toBeGreaterThan(range(partial));
  });

  it('a second pass multiplies by the first again, its range by the squares', () => {
    const twice = wayFrom(waysOut(WAYS_INPUT), 'chromium-twice');
    expectWithin(range(twice), 1.35 ** 2 * 0.74, 1e-9, 'range');
    expectWithin(twice.plausibleRange![0], 1.44 * 0.74, 1e-9, 'least');
    expectWithin(twice.plausibleRange![1], 2.25 * 0.74, 1e-9, 'most');
  });

  it('mark what is built in', () => {
    for (const id of ['chromium', 'chromium-partial', 'chromium-twice'] as const) {
      const codes = wayFrom(waysOut(WAYS_INPUT), id).warnings.map(({ code }) => code);
      expect(codes, id).toContain('value-unverified');
    }
  });
});

describe('bath and paper together', () => {
  it('share the work: the bath goes half of the way on a logarithmic scale', () => {
    const shared = wayFrom(
      waysOut({ ...WAYS_INPUT, target: { printingRange: 0.82 } }),
      'selenium-and-paper',
    );
    expectWithin(range(shared), Math.sqrt(0.74 * 0.82), 1e-6, 'range');
    const whole = wayFrom(waysOut({ ...WAYS_INPUT, target: { printingRange: 0.82 } }), 'selenium');
    expect(shared.minutes!).toBeLessThan(whole.minutes!);
    expect(shared.limit).toBeNull();
  });

  it('leave a negative alone that is there already', () => {
    const there = waysOut({ ...WAYS_INPUT, negative: { shadow: 0.1, highlight: 0.975 } });
    for (const id of ['selenium', 'selenium-and-paper'] as const) {
      expect(wayFrom(there, id).minutes, id).toBe(0);
      expectWithin(range(wayFrom(there, id)), 0.875, 1e-9, id);
    }
  });
});

describe('errors of the selenium ways', () => {
  it('come from the gain of the trials, and there are none for built-in numbers', () => {
    expect(
      wayFrom(waysOut(WAYS_INPUT), 'selenium').negative.printingRange.standardError,
    ).toBeNull();
    const strip = (gain: number) => ({
      logExposures: [0, 1, 2],
      densities: [0.3, 0.7, 1.2].map((u) => 0.1 + gain * u),
      unexposedDensities: [0.1],
    });
    const model = fitTreatment(
      [1, 3, 8].map((minutes) => ({
        strip: `${minutes} min`,
        bath: { partsWater: 1, minutes, celsius: 20 },
        untreated: strip(1),
        treated: strip(1 + 0.2 * (1 - 2 ** (-minutes / 1.4))),
      })),
      seleniumDefaults,
    );
    const toned = wayFrom(waysOut({ ...WAYS_INPUT, model }), 'selenium');
    const { effect } = predictTreatment(
      model,
      { densityRange: 0.74, shadowNetDensity: 0.15 },
      { ...WAYS_INPUT.bath, minutes: toned.minutes! },
      WAYS_INPUT.options,
    );
    // The range is k times 0.74 by the proportional law.
    expectWithin(
      toned.negative.printingRange.standardError!,
      0.74 * effect.gain.standardError!,
      1e-9,
      'error',
    );
  });
});

describe('the ways out of a hard negative', () => {
  const long = waysOut({ ...WAYS_INPUT, negative: { shadow: 0.25, highlight: 2.25 } });

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
    const half = wayFrom(
      waysOut({
        ...WAYS_INPUT,
        negative: { shadow: 0.25, highlight: 2.25 },
        target: { printingRange: 1 },
      }),
      'reduce-proportional',
    );
    expectWithin(half.gain, 0.5, 1e-12, 'gain');
    expectWithin(half.exposureStops!, -1.125 / Math.log10(2), 1e-9, 'exposure');
  });

  it('reach the aim by either law, the superproportional one sparing the shadows', () => {
    const plain = wayFrom(long, 'reduce-proportional');
    const steep = wayFrom(long, 'reduce-superproportional');
    for (const each of [plain, steep]) expectWithin(range(each), 0.875, 1e-9, each.id);
    // It takes most where there is most: the dense part lies closer together, the thin one wider.
    expect(steep.highlightSeparation).toBeLessThan(plain.highlightSeparation);
    expect(steep.shadowSeparation).toBeGreaterThan(plain.shadowSeparation);
    // The shadow keeps more of its silver: net 0.25 less a share that falls faster than itself.
    const { shadow, highlight } = { shadow: 0.25, highlight: 2.25 };
    const kept = shadow - (1 - steep.gain) * highlight * (shadow / highlight) ** 1.5;
    expect(kept).toBeGreaterThan(plain.gain * shadow);
  });

  it('take the same everywhere in a surface reducer, which leaves the range as it was', () => {
    const surface = wayFrom(long, 'reduce-surface');
    expectWithin(surface.taken!, 0.15, 1e-12, 'taken down to net 0.10');
    expectWithin(range(surface), 2, 1e-12, 'range');
    expectWithin(surface.exposureStops!, -0.15 / Math.log10(2), 1e-9, 'exposure');
    expect(surface.limit).toBe('range-unchanged');
    const bare = waysOut({ ...WAYS_INPUT, negative: { shadow: 0.08, highlight: 2.25 } });
    expect(wayFrom(bare, 'reduce-surface').limit).toBe('shadow-lost');
  });
});

describe('orders', () => {
  const ways = waysOut(WAYS_INPUT);

  it('put first what the user wishes, and mutate nothing', () => {
    const before = ways.map(({ id }) => id);
    expect(sortWays(ways, 'least-interference').map(({ id }) => id)).toEqual(before);
    const figures: Record<(typeof WAY_ORDERS)[number], (each: WayOut) => number> = {
      'least-interference': ({ id }) => WAY_IDS.indexOf(id),
      'nearest-to-aim': ({ fromTarget }) => Math.abs(fromTarget),
      'highlight-separation': ({ highlightSeparation }) => -highlightSeparation,
      'shadow-separation': ({ shadowSeparation }) => -shadowSeparation,
      'least-grain': ({ graininess }) => graininess.print,
      'shortest-exposure': ({ exposureStops }) => exposureStops!,
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

describe('a measured Callier factor', () => {
  const options = { gradeTable: ansiGradeTable, stain: 0.3, stainKept: 0.5, callierFactor: 1.3 };
  const ways = waysOut({ ...WAYS_INPUT, options: { ...options, callierFactorError: 0.05 } });

  it.each(WAY_IDS.filter((id) => ways.some((way) => way.id === id)))(
    'widens the range of %s by what it does to the silver',
    (id) => {
      const { densityRange, printingRange, gradesWithin } = wayFrom(ways, id).negative;
      // [derived] Q acts on silver alone, so that printing less diffuse range is (Q - 1) silver.
      const silver = (printingRange.value - densityRange.value) / 0.3;
      expectWithin(printingRange.standardError!, 0.05 * silver, 1e-9);
      expect(densityRange.standardError).toBeNull();
      expect(gradesWithin).not.toBeNull();
    },
  );

  it('leaves ranges exact where no error is known', () => {
    const plain = waysOut({ ...WAYS_INPUT, options });
    expect(wayFrom(plain, 'print-to-fit').negative.printingRange.standardError).toBeNull();
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
            ...WAYS_INPUT,
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
    expect(() => waysOut({ ...WAYS_INPUT, negative })).toThrow(InvalidArgumentError);
  });

  it('refuses a grade that the table does not have', () => {
    expect(() => waysOut({ ...WAYS_INPUT, target: { grade: 9 } })).toThrow(OutOfDomainError);
  });
});
