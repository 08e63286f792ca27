import { describe, expect, it } from 'vitest';
import { applyCommand } from '../document/apply-command.ts';
import type { Command } from '../document/command.ts';
import type { NotebookDocument } from '../document/document.ts';
import { emptyDocument } from '../document/empty-document.ts';
import { SAMPLE } from '../document/sample-document.ts';
import { DocumentStore } from './document-store.ts';

interface Counter {
  readonly n: number;
}
interface Set {
  readonly value: number;
  readonly mergeKey?: string;
}
const make = (limit = 200) =>
  new DocumentStore<Counter, Set>(
    { n: 0 },
    (document, { value }) => (document.n === value ? document : { n: value }),
    { limit },
  );

describe('DocumentStore', () => {
  it('undoes and redoes whole steps', () => {
    const store = make();
    store.dispatch({ value: 1 });
    store.dispatch({ value: 2 });
    store.undo();
    expect(store.state).toEqual({ document: { n: 1 }, canUndo: true, canRedo: true });
    store.redo();
    expect(store.state).toEqual({ document: { n: 2 }, canUndo: true, canRedo: false });
  });

  it('withdraws the last step, merged or not, as if it had never been', () => {
    const store = make();
    store.dispatch({ value: 1 });
    const before = store.state.document;
    store.dispatch({ value: 2, mergeKey: 'typing' });
    store.dispatch({ value: 3, mergeKey: 'typing' });
    expect(store.withdraw(before)).toBe(true);
    expect(store.state).toEqual({ document: { n: 1 }, canUndo: true, canRedo: false });
    store.undo();
    expect(store.state.document).toEqual({ n: 0 });
  });

  it('withdraws nothing where the last step began elsewhere', () => {
    const store = make();
    const before = store.state.document;
    expect(store.withdraw(before)).toBe(false);
    store.dispatch({ value: 1 });
    store.dispatch({ value: 2 });
    expect(store.withdraw(before)).toBe(false);
    expect(store.state.document).toEqual({ n: 2 });
  });

  it('keeps no history and tells nobody of a command that changes nothing', () => {
    const store = make();
    let calls = 0;
    store.subscribe(() => (calls += 1));
    store.dispatch({ value: 0 });
    expect(calls).toBe(0);
    expect(store.state.canUndo).toBe(false);
  });

  it('makes one step of a gesture with one merge key', () => {
    const store = make();
    store.dispatch({ value: 1, mergeKey: 'drag' });
    store.dispatch({ value: 2, mergeKey: 'drag' });
    store.dispatch({ value: 3, mergeKey: 'drag' });
    store.undo();
    expect(store.state.document.n).toBe(0);
    store.redo();
    expect(store.state.document.n).toBe(3);
  });

  it('separates two gestures that an end, an undo or a redo parts', () => {
    const store = make();
    store.dispatch({ value: 1, mergeKey: 'drag' });
    store.endMerge();
    store.dispatch({ value: 2, mergeKey: 'drag' });
    store.undo();
    expect(store.state.document.n).toBe(1);
    store.dispatch({ value: 5, mergeKey: 'drag' });
    store.undo();
    store.redo();
    store.dispatch({ value: 6, mergeKey: 'drag' });
    store.undo();
    expect(store.state.document.n).toBe(5);
  });

  it('forgets what was undone when something new is done', () => {
    const store = make();
    store.dispatch({ value: 1 });
    store.undo();
    store.dispatch({ value: 2 });
    expect(store.state.canRedo).toBe(false);
    store.redo();
    expect(store.state.document.n).toBe(2);
  });

  it('keeps as many steps as its limit', () => {
    const store = make(3);
    for (let value = 1; value <= 10; value += 1) store.dispatch({ value });
    for (let i = 0; i < 10; i += 1) store.undo();
    expect(store.state.document.n).toBe(7);
  });

  it('ends a subscription, also from within', () => {
    const store = make();
    let calls = 0;
    const off = store.subscribe(() => {
      calls += 1;
      off();
    });
    store.dispatch({ value: 1 });
    store.dispatch({ value: 2 });
    expect(calls).toBe(1);
  });

  it('brings a notebook back, removed references and all', () => {
    const store = new DocumentStore<NotebookDocument, Command>(SAMPLE, applyCommand);
    store.dispatch({ type: 'strip/remove', id: 's1' });
    store.dispatch({ type: 'document/load', document: emptyDocument() });
    store.undo();
    store.undo();
    expect(store.state.document).toBe(SAMPLE);
  });
});
