import * as lastWord from '@wedgebook/core/last-word';
import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { demoDocument } from './demo.ts';
import { DEFAULT_FAMILY, Derive } from './derive.ts';
import { DeriveBath } from './derive-bath.ts';
import { waysView } from './derive-ways.ts';

const derive = new Derive(lastWord);
const bath = new DeriveBath(derive);
const NOTHING = { model: null, minutes: null, celsius: 20 };
const viewOf = (grade: number, document = demoDocument) =>
  bath.view(document, DEFAULT_FAMILY, grade);

describe('the ways out of the demonstration negative', () => {
  it('agree with the plan of the bath for the same grade', () => {
    const view = viewOf(3);
    const ways = waysView(view, demoDocument.plan, null, null, NOTHING)!.ways;
    const selenium = ways.find(({ id }) => id === 'selenium')!;
    expect(selenium.minutes).toBe(view.plan!.minutes);
    const after = view.plan!.prediction.after.printingRange.value;
    expectWithin(selenium.negative.printingRange.value, after, 1e-9, 'range after');
    expect(ways[0]?.negative.paperGrade.band).toBe(view.match!.paperGrade.band);
  });

  it('are reckoned on the strip of the user where it fits', () => {
    const document = {
      ...demoDocument,
      plan: { ...demoDocument.plan, paperId: 'paper-own' },
    };
    const strip = document.strips.find(({ material }) => material === 'paper')!;
    const { curve } = derive.fit(document, strip, DEFAULT_FAMILY);
    const view = viewOf(2, document);
    const { ways } = waysView(view, document.plan, curve, null, NOTHING)!;
    const own = ways.filter(({ paper }) => paper.kind === 'strip');
    for (const { misfit } of own) expect(Math.abs(misfit)).toBeLessThanOrEqual(0.05);
    expect(own.map(({ id }) => id)).toContain('next-roll');
  });

  it('part tones at the densities asked for', () => {
    const plain = waysView(viewOf(3), demoDocument.plan, null, null, NOTHING)!;
    const asked = { shadow: 0.3, highlight: 0.6 };
    const other = waysView(viewOf(3), demoDocument.plan, null, asked, NOTHING)!;
    expect(other.separationAt).toBe(asked);
    expect(other.ways[0]!.highlightSeparation).toBeGreaterThan(plain.ways[0]!.highlightSeparation);
  });

  it('are none without a negative or with a grade that the table lacks', () => {
    const bare = {
      ...demoDocument,
      negatives: [],
      plan: { ...demoDocument.plan, negativeId: null },
    };
    expect(waysView(viewOf(3, bare), bare.plan, null, null, NOTHING)).toBeNull();
    expect(waysView(viewOf(9), demoDocument.plan, null, null, NOTHING)).toBeNull();
  });
});
