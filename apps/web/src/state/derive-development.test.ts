import * as lastWord from '@wedgebook/core/last-word';
import { emptyDocument, type DevelopmentPlan, type Strip } from '@wedgebook/notebook';
import { describe, expect, it } from 'vitest';
import { demoDocument } from './demo.ts';
import { Derive } from './derive.ts';
import { DeriveBath } from './derive-bath.ts';
import { DeriveDevelopment } from './derive-development.ts';
import { directionOf } from './derive-drift.ts';
import type { WorkDocument } from './work.ts';

function viewer() {
  const derive = new Derive(lastWord);
  return new DeriveDevelopment(derive, new DeriveBath(derive));
}

function demo(
  changes: Partial<DevelopmentPlan> = {},
  keep: (strip: Strip) => boolean = () => true,
): WorkDocument {
  return {
    ...demoDocument,
    strips: demoDocument.strips.filter(keep),
    developmentPlan: { ...demoDocument.developmentPlan, ...changes },
  };
}

/** Only untreated strips of these times, without control strips. */
const timesOf =
  (...minutes: readonly number[]) =>
  ({ development, control, treatment, material }: Strip): boolean =>
    material === 'film' &&
    !control &&
    treatment === null &&
    minutes.includes(development?.minutes ?? 0);

describe('development of the demonstration film', () => {
  it('takes every untreated strip with a time, and leaves control strips and toned ones aside', () => {
    const view = viewer().view(demo());
    expect(view.timed.map(({ development }) => development.minutes)).toEqual([4, 6, 8, 11, 15, 8]);
    expect(view.strips.filter(({ leftOut }) => leftOut === 'control')).toHaveLength(9);
    expect(view.treatedCount).toBe(6);
    expect(view.laws.model?.basis).toBe('fitted');
    expect(view.laws.rival?.family).not.toBe(view.laws.model?.family);
  });

  it('aims at what the paper asks for, and at a figure of the user’s own where there is one', () => {
    const fromPaper = viewer().view(demo()).aim;
    // Exposure scale 0.90 (the paper of the plan, R 90) over 6 stops of image, 0.30103 each.
    expect(Math.abs((fromPaper?.contrast ?? 0) - 0.9 / (6 * Math.log10(2)))).toBeLessThan(1e-12);
    const own = viewer().view(demo({ target: 0.6 })).aim;
    expect(own).toMatchObject({ contrast: 0.6, origin: 'own' });
    expect(own?.scene?.contrast).toBe(fromPaper?.contrast);
  });

  it('plans N-3 to N+3, longer times for more contrast, and says what is out of reach', () => {
    const { plan, next } = viewer().view(demo());
    expect(plan.map(({ development }) => development)).toEqual([
      'N-3',
      'N-2',
      'N-1',
      'N',
      'N+1',
      'N+2',
      'N+3',
    ]);
    const minutes = plan.flatMap((row) => row.minutes?.value ?? []);
    expect(minutes).toEqual([...minutes].sort((a, b) => a - b));
    expect(plan.at(-1)).toMatchObject({ reachable: false, minutes: null });
    expect(next?.trials[0]?.errorAfter).toBeLessThan(next?.errorNow ?? 0);
    // Never a time far from the plan, however much it would tell.
    for (const trial of next?.trials ?? []) {
      expect(trial.minutes).toBeLessThanOrEqual(1.26 * Math.max(...minutes));
    }
  });

  it('shortens every time in a warmer developer, by the one factor', () => {
    const [cold, warm] = [20, 24].map((celsius) => viewer().view(demo({ celsius })));
    const ratio = (warm?.plan[3]?.minutes?.value ?? 0) / (cold?.plan[3]?.minutes?.value ?? 1);
    expect(Math.abs(ratio - 2.5 ** -0.4)).toBeLessThan(1e-9);
  });

  it('answers two times with an assumed delay, and one with a guess that is called one', () => {
    const two = viewer().view(demo({}, timesOf(6, 11)));
    expect(two.laws.model?.basis).toBe('two-times');
    expect(two.laws.fit.warnings.map(({ code }) => code)).toContain('delay-assumed');
    const one = viewer().view(demo({}, timesOf(11)));
    expect(one.laws.model?.basis).toBe('scaled-guess');
    expect(one.laws.rival).toBeNull();
    expect(one.next).toBeNull();
    expect(one.plan[3]?.minutes?.standardError).toBeNull();
  });

  it('keeps what it found while only other parts of the notebook change', () => {
    const derive = viewer();
    const before = derive.view(demo());
    const after = derive.view({ ...demo(), title: 'another' });
    expect(after.laws).toBe(before.laws);
    expect(after.plan).toBe(before.plan);
    expect(after.timed).toBe(before.timed);
  });

  it('replaces settings that cannot be, and names them', () => {
    const view = viewer().view(demo({ celsius: 900, flareFactor: -1, speedNetDensity: 0 }));
    expect(view.replaced).toEqual(['celsius', 'flareFactor', 'speedNetDensity']);
    expect(view.settings).toMatchObject({ celsius: 20, flareFactor: 2, speedNetDensity: 0.1 });
    expect(view.plan).toHaveLength(7);
  });

  it('has no aim from the paper where flare swallows the subject', () => {
    const view = viewer().view(demo({ subjectRangeStops: 3, flareFactor: 8 }));
    expect(view.aim).toBeNull();
    expect(view.plan).toEqual([]);
  });
});

describe('development in an empty notebook', () => {
  it('has no film, no law and no plan, and throws nothing', () => {
    const view = viewer().view(emptyDocument());
    expect(view).toMatchObject({ films: [], strips: [], timed: [], plan: [], next: null });
    expect(view.laws.fit).toMatchObject({ status: 'not-determined', reason: 'no-strips' });
    expect(viewer().drift(emptyDocument()).strips).toEqual([]);
  });
});

describe('control strips of the demonstration notebook', () => {
  it('signal less development in the end, when the invented developer is near its end', () => {
    const drift = viewer().drift(demo());
    expect(drift.strips.map(({ strip }) => strip.processedOn)).toEqual(
      drift.strips.map(({ strip }) => strip.processedOn).toSorted(),
    );
    const contrast = drift.measures.find(({ measure }) => measure === 'contrast');
    expect(contrast?.readings.slice(0, 5).map((reading) => reading?.setsLimits)).toEqual(
      Array.from({ length: 5 }, () => true),
    );
    expect(contrast?.readings.slice(0, 6).flatMap((reading) => reading?.signals ?? [])).toEqual([]);
    expect(contrast?.readings.at(-1)?.signals).toContain('beyond-limits');
    expect(directionOf(drift)).toBe('less');
  });

  it('without a day have no place in the order, and unlike development is noticed', () => {
    const document = demo();
    const strips = document.strips.map((strip) =>
      strip.id === 'control-1'
        ? { ...strip, processedOn: null }
        : strip.id === 'control-2'
          ? { ...strip, development: { minutes: 9, celsius: 20 } }
          : strip,
    );
    const drift = viewer().drift({ ...document, strips });
    expect(drift.undated.map(({ strip }) => strip.id)).toEqual(['control-1']);
    expect(drift.strips).toHaveLength(8);
    expect(drift.unlike).toBe(true);
  });
});
