import * as lastWord from '@wedgebook/core/last-word';
import { compareFamilies, PAPER_FAMILIES } from '@wedgebook/core';
import { describe, expect, it } from 'vitest';
import { demoDocument } from './demo.ts';
import { DEFAULT_FAMILY, Derive } from './derive.ts';
import { DeriveBath } from './derive-bath.ts';
import { applyWork, type WorkDocument } from './work.ts';

const derive = new Derive(lastWord);
const family = DEFAULT_FAMILY;

describe('what follows from the notebook', () => {
  it('refits the strip that changed and no other', () => {
    const fits = (document: WorkDocument) =>
      document.strips.map((strip) => derive.fit(document, strip, family));
    const before = fits(demoDocument);
    const [, second] = demoDocument.strips;
    const column = { kind: 'density', replicate: 0 } as const;
    const changed = applyWork(demoDocument, {
      type: 'rows/set-cell',
      stripId: second!.id,
      row: 0,
      column,
      value: 1.11,
    });
    const after = fits(changed);
    expect(after.map((fit, i) => fit === before[i])).toEqual(
      demoDocument.strips.map((strip) => strip !== second),
    );
  });

  it('keeps a curve when only its name changes', () => {
    const strip = demoDocument.strips[0]!;
    const renamed = applyWork(demoDocument, {
      type: 'strip/change',
      id: strip.id,
      changes: { name: 'another name' },
    });
    expect(derive.fit(renamed, renamed.strips[0]!, family)).toBe(
      derive.fit(demoDocument, strip, family),
    );
  });

  it('carries the demonstration from readings to a grade before and after the bath', () => {
    const view = new DeriveBath(derive).view(demoDocument, family, 3);
    expect(view.missing).toBeNull();
    expect(view.model.origin).toBe('fitted');
    // The rule of practice: an intensified grade-4 negative prints one grade softer.
    expect(view.prediction?.before.paperGrade.band).toBe(4);
    expect(view.prediction?.after.paperGrade.band).toBe(3);
    expect(view.plan?.reachable).toBe(true);
  });

  it('lets a paper follow the family that fits it until another is chosen', () => {
    const paper = demoDocument.strips.find(({ material }) => material === 'paper')!;
    const asFitted = derive.fit(demoDocument, paper, family).curve!;
    const best = compareFamilies(derive.fit(demoDocument, paper, family).readings)
      .families.filter(({ family: each }) => PAPER_FAMILIES.includes(each))
      .find(({ difference }) => difference === 0);
    expect(asFitted.family).toBe(best?.family);
    expect(derive.fit(demoDocument, paper, 'logistic-5').curve?.family).toBe('logistic-5');
  });

  it('says what is missing rather than failing on an empty or half-filled notebook', () => {
    const bath = new DeriveBath(derive);
    const bare = { ...demoDocument, strips: [], papers: [], negatives: [] };
    const plan = { ...demoDocument.plan, negativeId: null, paperId: null };
    const view = bath.view({ ...bare, plan }, family, 2);
    expect(view.missing).toMatch(/negative/);
    expect(view.match).toBeNull();
    expect(view.model.origin).toBe('default');
    const unknown = {
      ...demoDocument,
      plan: { ...demoDocument.plan, gradeTableId: 'no such table' },
    };
    expect(bath.view(unknown, family, 2).gradeTable.id).toBe('ansi-1966');
  });
});
