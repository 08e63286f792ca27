import { InvalidArgumentError } from '@wedgebook/core';
import { describe, expect, it } from 'vitest';
import { applyCommand } from './apply-command.ts';
import type { Command } from './command.ts';
import { emptyDocument } from './empty-document.ts';
import { referencesTo } from './references.ts';
import { SAMPLE } from './sample-document.ts';

const film = { id: 'f9', name: 'another film', developerId: null, note: '' };

function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null) {
    Object.values(value).forEach(frozen);
    Object.freeze(value);
  }
  return value;
}
frozen(SAMPLE);

describe('applyCommand', () => {
  it('adds an entry at the end, or where it is told', () => {
    const added = applyCommand(SAMPLE, { type: 'film/add', entry: film });
    expect(added.films.map(({ id }) => id)).toEqual(['f1', 'f9']);
    const first = applyCommand(SAMPLE, { type: 'film/add', entry: film, index: 0 });
    expect(first.films.map(({ id }) => id)).toEqual(['f9', 'f1']);
  });

  it('renames an entry and leaves every other list as it was', () => {
    const renamed = applyCommand(SAMPLE, {
      type: 'paper/change',
      id: 'p2',
      changes: { name: 'soft paper' },
    });
    expect(renamed.papers[1]).toEqual({ ...SAMPLE.papers[1], name: 'soft paper' });
    expect(renamed.strips).toBe(SAMPLE.strips);
    expect(renamed.papers[0]).toBe(SAMPLE.papers[0]);
  });

  it('returns the same document where a command changes nothing', () => {
    const same: Command[] = [
      { type: 'film/change', id: 'f1', changes: { name: 'sheet film' } },
      { type: 'plan/set', changes: { partsWater: 1, minutes: 6.5 } },
      { type: 'document/describe', changes: { title: 'Sample' } },
      { type: 'strip/move', id: 's4', index: 9 },
      {
        type: 'rows/set-cell',
        stripId: 's1',
        row: 0,
        column: { kind: 'density', replicate: 1 },
        value: 1.52,
      },
      { type: 'rows/set-replicates', stripId: 's1', row: 1, densities: [1.1, null] },
      { type: 'spot/change', negativeId: 'n1', id: 'a', changes: { density: 0.45 } },
      { type: 'rows/remove', stripId: 's1', row: 2, count: 0 },
    ];
    for (const command of same) expect(applyCommand(SAMPLE, command), command.type).toBe(SAMPLE);
  });

  it('sets development, treatment and the plan', () => {
    const developed = applyCommand(SAMPLE, {
      type: 'strip/change',
      id: 's1',
      changes: { development: { minutes: 11, celsius: 21 } },
    });
    expect(developed.strips[0]?.development).toEqual({ minutes: 11, celsius: 21 });
    const planned = applyCommand(SAMPLE, { type: 'plan/set', changes: { celsius: 24 } });
    expect(planned.plan).toEqual({ ...SAMPLE.plan, celsius: 24 });
  });

  it('sets the plan of development and that of the print', () => {
    const planned = applyCommand(SAMPLE, {
      type: 'developmentPlan/set',
      changes: { measure: 'gamma', chosenMinutes: 9 },
    });
    expect(planned.developmentPlan).toEqual({
      ...SAMPLE.developmentPlan,
      measure: 'gamma',
      chosenMinutes: 9,
    });
    const printed = applyCommand(SAMPLE, { type: 'printing/set', changes: { softSeconds: 6 } });
    expect(printed.printing).toEqual({ ...SAMPLE.printing, softSeconds: 6 });
  });

  it('keeps developers, prints and a diary', () => {
    const note = { id: 'm2', day: null, text: 'new lamp' };
    const noted = applyCommand(SAMPLE, { type: 'note/add', entry: note, index: 0 });
    expect(noted.notes).toEqual([note, ...SAMPLE.notes]);
    const changed = applyCommand(noted, { type: 'note/change', id: 'm2', changes: { text: '' } });
    expect(changed.notes[0]).toEqual({ ...note, text: '' });
    const print = { ...SAMPLE.prints[0]!, id: 'q2', seconds: null };
    const printed = applyCommand(SAMPLE, { type: 'print/add', entry: print });
    expect(applyCommand(printed, { type: 'print/remove', id: 'q2' })).toEqual(SAMPLE);
    const developer = { id: 'd2', name: 'glycin', note: '' };
    const added = applyCommand(SAMPLE, { type: 'developer/add', entry: developer });
    expect(added.developers.at(-1)).toEqual(developer);
  });

  it('keeps a log of baths, which no other entry names', () => {
    const bath = { ...SAMPLE.baths[0]!, id: 'b2', films: [] };
    const added = applyCommand(SAMPLE, { type: 'bath/add', entry: bath });
    expect(added.baths.map(({ id }) => id)).toEqual(['b1', 'b2']);
    const film = { ...SAMPLE.baths[0]!.films[0]!, id: 'y' };
    const used = applyCommand(added, { type: 'bath/change', id: 'b2', changes: { films: [film] } });
    expect(used.baths[1]?.films).toEqual([film]);
    expect(used.baths[0]).toBe(SAMPLE.baths[0]);
    const removed = applyCommand(used, { type: 'bath/remove', id: 'b2' });
    expect(removed).toEqual(SAMPLE);
  });

  it('moves an entry', () => {
    const moved = applyCommand(SAMPLE, { type: 'strip/move', id: 's3', index: 0 });
    expect(moved.strips.map(({ id }) => id)).toEqual(['s3', 's1', 's2', 's4']);
  });

  it('adds, changes and removes spots', () => {
    const spot = { id: 'c', name: 'piles', density: 0.6, role: 'other' } as const;
    const added = applyCommand(SAMPLE, { type: 'spot/add', negativeId: 'n1', spot, index: 1 });
    expect(added.negatives[0]?.spots.map(({ id }) => id)).toEqual(['a', 'c', 'b']);
    const changed = applyCommand(added, {
      type: 'spot/change',
      negativeId: 'n1',
      id: 'c',
      changes: { density: 0.7 },
    });
    expect(changed.negatives[0]?.spots[1]?.density).toBe(0.7);
    const removed = applyCommand(changed, { type: 'spot/remove', negativeId: 'n1', id: 'c' });
    expect(removed).toEqual(SAMPLE);
  });

  it('loads a whole document', () => {
    const other = emptyDocument('Other');
    expect(applyCommand(SAMPLE, { type: 'document/load', document: other })).toBe(other);
  });

  it('keeps the id of an entry and the fields that it does not know', () => {
    const odd = { ...SAMPLE, films: [{ ...film, later: 'kept' }] };
    const next = applyCommand(odd, {
      type: 'film/change',
      id: 'f9',
      changes: { id: 'f8', name: 'x' } as { name: string },
    });
    expect(next.films).toEqual([{ ...film, name: 'x', later: 'kept' }]);
  });

  it('gives the same document from a command that went through JSON', () => {
    const commands: Command[] = [
      { type: 'film/add', entry: film, index: 0 },
      { type: 'strip/remove', id: 's1' },
      {
        type: 'rows/paste',
        stripId: 's2',
        row: 1,
        column: { kind: 'step' },
        block: [[2, null, 1]],
      },
      { type: 'plan/set', changes: { partsWater: 3 } },
    ];
    let direct = SAMPLE;
    let replayed = SAMPLE;
    for (const command of commands) {
      direct = applyCommand(direct, command);
      replayed = applyCommand(replayed, JSON.parse(JSON.stringify(command)) as Command);
    }
    expect(replayed).toEqual(direct);
  });

  it.each<Command>([
    { type: 'film/add', entry: { ...film, id: 'f1' } },
    { type: 'film/change', id: 'no such', changes: {} },
    { type: 'film/remove', id: 'no such' },
    { type: 'rows/remove', stripId: 'no such', row: 0, count: 1 },
    { type: 'spot/remove', negativeId: 'n1', id: 'no such' },
    { type: 'strip/move', id: 's1', index: -1 },
    { type: 'strip/move', id: 's1', index: NaN },
    { type: 'constructor/add' } as unknown as Command,
    { type: '__proto__/add', entry: film } as unknown as Command,
  ])('refuses $type that names what is not there', (command) => {
    expect(() => applyCommand(SAMPLE, command)).toThrow(InvalidArgumentError);
  });
});

describe('what would not open again', () => {
  const [strip] = SAMPLE.strips;
  it.each<[string, Command]>([
    ['NaN minutes', { type: 'plan/set', changes: { minutes: NaN } }],
    [
      'an infinite density',
      { type: 'spot/change', negativeId: 'n1', id: 'a', changes: { density: Infinity } },
    ],
    [
      'a measure that is none',
      { type: 'developmentPlan/set', changes: { measure: 'steepness' as 'gamma' } },
    ],
    ['infinite seconds', { type: 'printing/set', changes: { baseSeconds: Infinity } }],
    ['an unknown channel', { type: 'strip/change', id: 's1', changes: { channel: 'x' as 'blue' } }],
    [
      'a strip without rows',
      { type: 'strip/add', entry: { ...strip!, id: 'x', rows: undefined as never } },
    ],
    [
      'rows without densities',
      { type: 'rows/insert', stripId: 's1', row: 0, rows: [{ step: 1 } as never] },
    ],
    ['a document that is none', { type: 'document/load', document: {} as never }],
  ])('refuses %s', (_what, command) => {
    expect(() => applyCommand(SAMPLE, command)).toThrow(InvalidArgumentError);
  });
});

describe('removing what others name', () => {
  it('tells who names an entry before it goes', () => {
    expect(referencesTo(SAMPLE, 'strip', 's1')).toEqual([
      { kind: 'strip', id: 's2', field: 'treatment.untreatedStripId' },
      { kind: 'strip', id: 's4', field: 'treatment.untreatedStripId' },
      { kind: 'negative', id: 'n1', field: 'stripId' },
    ]);
    expect(referencesTo(SAMPLE, 'paper', 'p1')).toEqual([
      { kind: 'print', id: 'q1', field: 'paperId' },
      { kind: 'plan', field: 'paperId' },
    ]);
    expect(referencesTo(SAMPLE, 'strip', 's3')).toEqual([
      { kind: 'paper', id: 'p1', field: 'source.stripId' },
      { kind: 'paper', id: 'p3', field: 'source.strips' },
    ]);
    expect(referencesTo(SAMPLE, 'developer', 'd1')).toEqual([
      { kind: 'film', id: 'f1', field: 'developerId' },
    ]);
    expect(referencesTo(SAMPLE, 'paper', 'p2')).toEqual([]);
  });

  it('empties the film of strips and negatives', () => {
    const next = applyCommand(SAMPLE, { type: 'film/remove', id: 'f1' });
    expect(next.films).toEqual([]);
    expect(next.strips.map(({ filmId }) => filmId)).toEqual([null, null, null, null]);
    expect(next.developmentPlan.filmId).toBeNull();
    expect(next.negatives[0]?.filmId).toBeNull();
    expect(next.strips[0]?.rows).toBe(SAMPLE.strips[0]?.rows);
  });

  it('keeps a treated strip whose untreated strip goes, unpaired', () => {
    const next = applyCommand(SAMPLE, { type: 'strip/remove', id: 's1' });
    expect(next.strips[0]?.treatment).toEqual({
      ...SAMPLE.strips[1]?.treatment,
      untreatedStripId: null,
    });
    expect(next.negatives[0]?.stripId).toBeNull();
  });

  it('empties the strip of a paper', () => {
    const next = applyCommand(SAMPLE, { type: 'strip/remove', id: 's3' });
    expect(next.papers[0]?.source).toEqual({ kind: 'strip', stripId: null });
    expect(next.papers[1]).toBe(SAMPLE.papers[1]);
    // The other settings of a variable-contrast paper stay, that of the removed strip too.
    expect(next.papers[2]?.source).toEqual({
      kind: 'strips',
      strips: [
        { stripId: null, setting: 'soft', softSeconds: null, hardSeconds: null },
        { stripId: null, setting: '', softSeconds: 6, hardSeconds: 3.5 },
      ],
    });
  });

  it('empties the developer of films, and the negative and paper of prints', () => {
    const film = applyCommand(SAMPLE, { type: 'developer/remove', id: 'd1' }).films[0];
    expect(film).toEqual({ ...SAMPLE.films[0], developerId: null });
    const noNegative = applyCommand(SAMPLE, { type: 'negative/remove', id: 'n1' });
    expect(noNegative.prints).toEqual([{ ...SAMPLE.prints[0], negativeId: null }]);
    const noPaper = applyCommand(SAMPLE, { type: 'paper/remove', id: 'p1' });
    expect(noPaper.prints).toEqual([{ ...SAMPLE.prints[0], paperId: null }]);
  });

  it('writes the exposures of a tablet into the rows before the tablet goes', () => {
    const next = applyCommand(SAMPLE, { type: 'tablet/remove', id: 't1' });
    const [strip] = next.strips;
    expect(strip?.tabletId).toBeNull();
    // 0.5 - (0.05, 0.20, 0.35), by the definition of a contact wedge.
    expect(strip?.rows.map(({ logExposure }) => Number(logExposure?.toFixed(6)))).toEqual([
      0.45, 0.3, 0.15,
    ]);
    expect(strip?.rows.map(({ densities }) => densities)).toEqual([[1.5, 1.52], [1.1, null], []]);
  });

  it('empties the plan', () => {
    expect(applyCommand(SAMPLE, { type: 'negative/remove', id: 'n1' }).plan.negativeId).toBeNull();
    expect(applyCommand(SAMPLE, { type: 'paper/remove', id: 'p1' }).plan.paperId).toBeNull();
  });

  it('leaves no reference to anything removed, whatever the order', () => {
    const kinds = [
      ['tablet', 't1'],
      ['film', 'f1'],
      ['strip', 's1'],
      ['strip', 's3'],
      ['paper', 'p1'],
      ['negative', 'n1'],
    ] as const;
    for (const order of [kinds, kinds.toReversed()]) {
      let document = SAMPLE;
      for (const [kind, id] of order) {
        document = applyCommand(document, { type: `${kind}/remove`, id });
        expect(referencesTo(document, kind, id)).toEqual([]);
      }
      for (const [kind, id] of kinds) expect(referencesTo(document, kind, id)).toEqual([]);
    }
  });
});
