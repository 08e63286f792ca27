import { InvalidArgumentError } from '@wedgebook/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anyCommand } from '../../../../test/any-command.ts';
import { applyCommand, LIST_OF } from '../document/apply-command.ts';
import type { Command, EntryKind } from '../document/command.ts';
import type { NotebookDocument } from '../document/document.ts';
import { emptyDocument } from '../document/empty-document.ts';
import { SAMPLE } from '../document/sample-document.ts';
import { firstDoubleId, mendReferences } from '../saving/mend-references.ts';
import { firstFault } from '../saving/schema.ts';
import { compareDocuments } from './compare-documents.ts';
import { mergeDocuments } from './merge-documents.ts';

const KINDS = Object.keys(LIST_OF) as EntryKind[];
const options = () => {
  let count = 0;
  return {
    makeId: () => `copy-${(count += 1)}`,
    copyName: (name: string) => `${name} (from the file)`,
  };
};
const rename = (document: NotebookDocument, name: string) =>
  applyCommand(document, { type: 'strip/change', id: 's1', changes: { name } });
const after = (document: NotebookDocument, commands: readonly Command[]) =>
  commands.reduce((current, command) => {
    try {
      return applyCommand(current, command);
    } catch (error) {
      if (error instanceof InvalidArgumentError) return current;
      throw error;
    }
  }, document);

describe('compareDocuments', () => {
  it('says what is new, changed, alike and missing, list by list', () => {
    const theirs = after(rename(SAMPLE, 'other'), [
      { type: 'film/add', entry: { id: 'f2', name: '', developerId: null, note: '' } },
      { type: 'print/remove', id: 'q1' },
      { type: 'plan/set', changes: { minutes: 3 } },
    ]);
    const { lists, settings, alike } = compareDocuments(SAMPLE, theirs);
    const of = (kind: EntryKind) => lists.find((list) => list.kind === kind);
    expect(of('strip')).toEqual({
      kind: 'strip',
      added: [],
      changed: ['s1'],
      same: ['s2', 's3', 's4'],
      missing: [],
    });
    expect(of('film')).toMatchObject({ added: ['f2'], same: ['f1'] });
    expect(of('print')).toMatchObject({ missing: ['q1'] });
    expect(settings).toEqual(['plan']);
    expect(alike).toBe(false);
    expect(compareDocuments(SAMPLE, structuredClone(SAMPLE)).alike).toBe(true);
  });
});

describe('mergeDocuments, without the notebook that both came from', () => {
  it('leaves a notebook that is merged with itself as it is', () => {
    const { document, taken } = mergeDocuments(SAMPLE, structuredClone(SAMPLE), options());
    expect(document).toEqual(SAMPLE);
    expect(taken).toEqual([]);
  });

  it('brings the entries of another notebook into an empty one', () => {
    const mine = emptyDocument('Mine');
    const { document } = mergeDocuments(mine, SAMPLE, options());
    for (const kind of KINDS) expect(document[LIST_OF[kind]]).toEqual(SAMPLE[LIST_OF[kind]]);
    expect(document.title).toBe('Mine');
    expect(document.plan).toEqual(mine.plan);
    expect(document.invented).toBe(true);
  });

  it('keeps both of two that differ, and the file’s own entries name the file’s own', () => {
    const theirs = { ...rename(SAMPLE, 'other'), asTyped: { 'strip/s1/0/1': 'oops' } };
    const withNew = applyCommand(theirs, {
      type: 'negative/add',
      entry: { ...SAMPLE.negatives[0]!, id: 'n2', name: 'of the file' },
    });
    const { document, keptBoth } = mergeDocuments(SAMPLE, withNew, options());
    expect(keptBoth).toEqual([{ kind: 'strip', id: 's1', copyId: 'copy-1' }]);
    expect(document.strips.map(({ id, name }) => `${id} ${name}`).slice(0, 3)).toEqual([
      's1 strip 1',
      'copy-1 other (from the file)',
      's2 strip 2, toned',
    ]);
    expect(document.negatives.map(({ id, stripId }) => [id, stripId])).toEqual([
      ['n1', 's1'],
      ['n2', 'copy-1'],
    ]);
    expect(document.asTyped).toEqual({ 'strip/copy-1/0/1': 'oops' });
  });

  it('lets a tablet that differs come with the strips that were read by it', () => {
    const other = applyCommand(SAMPLE, {
      type: 'tablet/change',
      id: 't1',
      changes: { densities: [0.06, 0.21, 0.36] },
    });
    const theirs = rename(other, 'read by the other tablet');
    const { document } = mergeDocuments(SAMPLE, theirs, options());
    const copy = document.strips.find(({ name }) => name.startsWith('read by'));
    const tablet = document.tablets.find(({ id }) => id === copy?.tabletId);
    expect(tablet?.densities).toEqual([0.06, 0.21, 0.36]);
    expect(document.strips[0]?.tabletId).toBe('t1');
  });

  it('loses nothing of either, whatever they hold', () => {
    const commands = fc.array(anyCommand, { maxLength: 12 });
    fc.assert(
      fc.property(commands, commands, (here, there) => {
        const mine = after(SAMPLE, here);
        const theirs = after(SAMPLE, there);
        const { document } = mergeDocuments(mine, theirs, options());
        expect(firstFault(document)).toBeNull();
        expect(firstDoubleId(document)).toBeNull();
        expect(mendReferences(document).mended).toEqual([]);
        for (const kind of KINDS) {
          const list = document[LIST_OF[kind]] as readonly { id: string }[];
          const texts = new Set(list.map((entry) => JSON.stringify(entry)));
          for (const entry of mine[LIST_OF[kind]]) expect(texts).toContain(JSON.stringify(entry));
          const contents = new Set(list.map(contentOf));
          for (const entry of theirs[LIST_OF[kind]]) expect(contents).toContain(contentOf(entry));
        }
      }),
      { numRuns: 100 },
    );
  });
});

describe('mergeDocuments, with the notebook that both came from', () => {
  it('takes what was changed in one of them alone, and lets go what was removed there', () => {
    const mine = after(rename(SAMPLE, 'renamed here'), [
      { type: 'plan/set', changes: { minutes: 3 } },
      { type: 'bath/remove', id: 'b1' },
    ]);
    const theirs = after(SAMPLE, [
      { type: 'film/change', id: 'f1', changes: { name: 'renamed there' } },
      { type: 'plan/set', changes: { celsius: 24 } },
      { type: 'print/remove', id: 'q1' },
      { type: 'note/add', entry: { id: 'm2', day: null, text: 'written there' } },
    ]);
    const { document, keptBoth } = mergeDocuments(mine, theirs, { ...options(), base: SAMPLE });
    expect(keptBoth).toEqual([]);
    expect(document.strips[0]?.name).toBe('renamed here');
    expect(document.films[0]?.name).toBe('renamed there');
    expect(document.plan).toEqual({ ...SAMPLE.plan, minutes: 3, celsius: 24 });
    expect(document.baths).toEqual([]);
    expect(document.prints).toEqual([]);
    expect(document.notes.map(({ id }) => id)).toEqual(['m1', 'm2']);
  });

  it('keeps what one changed though the other removed it', () => {
    const changed = rename(SAMPLE, 'changed');
    const removed = applyCommand(SAMPLE, { type: 'strip/remove', id: 's1' });
    for (const [mine, theirs] of [
      [changed, removed],
      [removed, changed],
    ] as const) {
      const { document } = mergeDocuments(mine, theirs, { ...options(), base: SAMPLE });
      expect(document.strips.find(({ id }) => id === 's1')?.name).toBe('changed');
    }
  });

  it('keeps both where both changed the same entry', () => {
    const mine = rename(SAMPLE, 'here');
    const theirs = rename(SAMPLE, 'there');
    const { document } = mergeDocuments(mine, theirs, { ...options(), base: SAMPLE });
    expect(document.strips.map(({ name }) => name).slice(0, 2)).toEqual([
      'here',
      'there (from the file)',
    ]);
  });

  it('takes the order of the one in which entries were moved', () => {
    const moved = applyCommand(SAMPLE, { type: 'strip/move', id: 's3', index: 0 });
    const strip = { ...SAMPLE.strips[0]!, id: 'new' };
    const added = applyCommand(SAMPLE, { type: 'strip/add', entry: strip, index: 1 });
    for (const [mine, theirs] of [
      [moved, added],
      [added, moved],
    ] as const) {
      const { document } = mergeDocuments(mine, theirs, { ...options(), base: SAMPLE });
      const ids = document.strips.map(({ id }) => id);
      expect(ids.filter((id) => id !== 'new')).toEqual(['s3', 's1', 's2', 's4']);
      expect(ids).toContain('new');
    }
  });

  it('lets an entry go that was typed wrongly, kept, and put right in one of them', () => {
    const base = { ...SAMPLE, asTyped: { 'strip/s1/0/1': 'oops', 'strip/s2/0/1': 'no' } };
    const theirs = { ...SAMPLE, asTyped: { 'strip/s2/0/1': 'no' } };
    const { document } = mergeDocuments(base, theirs, { ...options(), base });
    expect(document.asTyped).toEqual({ 'strip/s2/0/1': 'no' });
  });

  it('is theirs where only theirs changed, and mine where only mine did', () => {
    fc.assert(
      fc.property(fc.array(anyCommand, { maxLength: 12 }), (commands) => {
        const next = after(SAMPLE, commands);
        const merge = (mine: NotebookDocument, theirs: NotebookDocument) => {
          const { document } = mergeDocuments(mine, theirs, { ...options(), base: SAMPLE });
          return document;
        };
        expect(merge(SAMPLE, next)).toEqual(next);
        expect(merge(next, SAMPLE)).toEqual(next);
      }),
      { numRuns: 100 },
    );
  });
});

/** Content of an entry without its id, the mark of a copy in its name, and whom it names. */
function contentOf(entry: object): string {
  return JSON.stringify({ ...entry, id: '' }, (key, value: unknown) =>
    key === 'name' && typeof value === 'string'
      ? value.replace(' (from the file)', '')
      : /Id$/.test(key)
        ? value === null
        : value,
  );
}
