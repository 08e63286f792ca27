import {
  DocumentStore,
  emptyDocument,
  notebookFromText,
  notebookToText,
} from '@wedgebook/notebook';
import { describe, expect, it } from 'vitest';
import { newStrip } from '../worksheet/new-entries.ts';
import { applyWork, cellKey, type WorkCommand, type WorkDocument } from './work.ts';

const strip = { ...newStrip(emptyDocument(), null), id: 's' };
const start: WorkDocument = { ...emptyDocument(), strips: [strip] };
const keep = (row: number, text: string | null): WorkCommand => ({
  type: 'typed/keep',
  key: cellKey('s', row, 'd0'),
  text,
});

describe('entries that cannot be read', () => {
  it('are part of the document: kept by undo, by saving and by opening again', () => {
    const store = new DocumentStore<WorkDocument, WorkCommand>(start, applyWork);
    store.dispatch(keep(2, '0.5q'));
    store.dispatch(keep(2, null));
    store.undo();
    const opened: WorkDocument = notebookFromText(notebookToText(store.state.document)).document;
    expect(opened.asTyped).toEqual({ 'strip/s/2/d0': '0.5q' });
  });

  it('move with their rows and go with their strip', () => {
    const kept = applyWork(applyWork(start, keep(2, 'a')), keep(5, 'b'));
    const removed = applyWork(kept, { type: 'rows/remove', stripId: 's', row: 2, count: 2 });
    expect(removed.asTyped).toEqual({ 'strip/s/3/d0': 'b' });
    const inserted = applyWork(kept, {
      type: 'rows/insert',
      stripId: 's',
      row: 3,
      rows: strip.rows.slice(0, 1),
    });
    expect(inserted.asTyped).toEqual({ 'strip/s/2/d0': 'a', 'strip/s/6/d0': 'b' });
    expect(applyWork(kept, { type: 'strip/remove', id: 's' }).asTyped).toEqual({});
  });

  it('change nothing when nothing is to forget', () => {
    expect(applyWork(start, keep(2, null))).toBe(start);
  });
});

describe('several commands', () => {
  it('are one step of undo', () => {
    const store = new DocumentStore<WorkDocument, WorkCommand>(start, applyWork);
    const cell = {
      type: 'rows/set-cell',
      stripId: 's',
      column: { kind: 'density', replicate: 0 },
    } as const;
    store.dispatch({
      type: 'several',
      commands: [
        { ...cell, row: 0, value: 1 },
        { ...cell, row: 1, value: 2 },
      ],
    });
    store.undo();
    expect(store.state.document).toBe(start);
  });
});
