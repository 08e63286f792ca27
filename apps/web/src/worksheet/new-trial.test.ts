import * as lastWord from '@wedgebook/core/last-word';
import { describe, expect, it } from 'vitest';
import { emptyDocument } from '@wedgebook/notebook';
import { expectWithin } from '../../../../test/within.ts';
import { DEFAULT_FAMILY, Derive } from '../state/derive.ts';
import { DeriveBath } from '../state/derive-bath.ts';
import { demoDocument } from '../state/demo.ts';
import { applyWork, type WorkDocument } from '../state/work.ts';
import { newTrial, trialsOf } from './new-trial.ts';

/** A trial piece with nets 0.35 and 1.00 before, k times as much after, in 1+1 at 20 °C. */
function withTrial(document: WorkDocument, gain: number, minutes: number): WorkDocument {
  const { before, after } = newTrial(document);
  const read = (k: number) => (row: (typeof before.rows)[number], i: number) => ({
    ...row,
    densities: [0.12 + k * (i === 0 ? 0.35 : 1)],
  });
  const unexposedDensities = [0.12];
  const entries = [
    { ...before, rows: before.rows.map(read(1)), unexposedDensities },
    {
      ...after,
      rows: after.rows.map(read(gain)),
      unexposedDensities,
      treatment: { ...after.treatment!, minutes },
    },
  ];
  return applyWork(document, {
    type: 'several',
    commands: entries.map((entry) => ({ type: 'strip/add', entry }) as const),
  });
}

describe('trial pieces', () => {
  const modelOf = (document: WorkDocument) =>
    new DeriveBath(new Derive(lastWord)).model(document, DEFAULT_FAMILY);

  it('one piece of two spots gives a gain with an honest error, in an empty notebook', () => {
    const model = modelOf(withTrial(emptyDocument(), 1.15, 6.5));
    expect(model.origin).toBe('fitted');
    const [piece] = model.treated;
    expectWithin(piece!.gain.value, 1.15, 1e-6, 'gain');
    // Readings of ±0.01, base + fogs as well: of the order of sqrt(2) 0.01 / 1 (derived).
    expect(piece!.gain.standardError).toBeGreaterThan(0.01);
    expect(piece!.gain.standardError).toBeLessThan(0.04);
    expect(model.doseResponse.origin.halfDose).toBe('default');
  });

  it('a second, shorter one gives the rate', () => {
    const k = (minutes: number) => 1 + 0.2 * (1 - 2 ** (-minutes / 2 / 0.7));
    const two = withTrial(withTrial(emptyDocument(), k(1.5), 1.5), k(8), 8);
    const { doseResponse } = modelOf(two);
    expect(doseResponse.origin.maximumGain).toBe('fitted');
    expect(modelOf(two).treated).toHaveLength(2);
  });

  it('is found again among other strips, named once, and undone in one step', () => {
    const document = withTrial(withTrial(demoDocument, 1.1, 2), 1.2, 8);
    const trials = trialsOf(document.strips);
    expect(trials.map(({ before }) => before.name)).toEqual(['trial 1', 'trial 2']);
    expect(trialsOf(demoDocument.strips)).toEqual([]);
    const [{ after, before }] = trials as [(typeof trials)[number]];
    const without = applyWork(document, {
      type: 'several',
      commands: [
        { type: 'strip/remove', id: after.id },
        { type: 'strip/remove', id: before.id },
      ],
    });
    expect(trialsOf(without.strips)).toHaveLength(1);
  });
});
