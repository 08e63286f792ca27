import { emptyDocument } from '@wedgebook/notebook';
import { describe, expect, it } from 'vitest';
import { cellAfter, firstOpenCell, nextCell, viewCell } from './cells.ts';
import { newStrip } from './new-entries.ts';

const blank = { ...newStrip(emptyDocument(), null), id: 's' };
const strip = {
  ...blank,
  rows: [{ step: 1, logExposure: null, densities: [0.5] }, ...blank.rows.slice(1)],
};
const cell = { row: 0, column: { kind: 'density', replicate: 0 } } as const;
const key = 'strip/s/0/d0';

describe('viewCell', () => {
  it('shows the value, and what is being typed while it means the same', () => {
    expect(viewCell(strip, cell, 'density', undefined, null).shown).toBe('0.50');
    expect(viewCell(strip, cell, 'density', undefined, { key, text: '0,5' }).shown).toBe('0,5');
    // After undo the value differs from what was typed: the value shows.
    expect(viewCell(strip, cell, 'density', undefined, { key, text: '0.7' }).shown).toBe('0.50');
  });
  it('shows an unreadable entry as typed, with why', () => {
    const view = viewCell(strip, cell, 'density', { [key]: '0.5q' }, null);
    expect(view.shown).toBe('0.5q');
    expect(view.fault).toContain('0.5q');
  });
});

describe('nextCell', () => {
  const size = { rows: 21, columns: 3 };
  const inside = { atStart: false, atEnd: false };
  const go = (key_: string, caret = inside, from = { row: 4, column: 1 }) =>
    nextCell(from, key_, caret, size);
  it('goes to the next step with Enter, and up and down with arrows', () => {
    expect(go('Enter')).toEqual({ row: 5, column: 1 });
    expect(go('Enter', inside, { row: 20, column: 1 })).toEqual({ row: 0, column: 2 });
    expect(go('Enter', inside, { row: 20, column: 2 })).toBeNull();
    expect(go('ArrowUp')).toEqual({ row: 3, column: 1 });
    expect(go('ArrowDown', inside, { row: 20, column: 1 })).toBeNull();
    expect(go('ArrowUp', inside, { row: 0, column: 1 })).toEqual({ row: -1, column: 1 });
  });
  it('leaves the caret its own moves inside a cell', () => {
    expect(go('ArrowLeft')).toBeNull();
    expect(go('ArrowLeft', { atStart: true, atEnd: false })).toEqual({ row: 4, column: 0 });
    expect(go('ArrowRight', { atStart: false, atEnd: true })).toEqual({ row: 4, column: 2 });
    expect(go('Tab')).toBeNull();
  });
});

describe('cellAfter and firstOpenCell', () => {
  it('go down the steps, then to the next column, then nowhere', () => {
    const size = { rows: 2, columns: 3 };
    expect(cellAfter({ row: -1, column: 1 }, size)).toEqual({ row: 0, column: 1 });
    expect(cellAfter({ row: 0, column: 1 }, size)).toEqual({ row: 1, column: 1 });
    expect(cellAfter({ row: 1, column: 1 }, size)).toEqual({ row: 0, column: 2 });
    expect(cellAfter({ row: 1, column: 2 }, size)).toBeNull();
  });
  it('find the first step without a reading', () => {
    expect(firstOpenCell(strip)).toEqual({ row: 1, column: 1 });
    const rows = [
      { step: 1, logExposure: null, densities: [0.5, 0.5] },
      { step: 2, logExposure: null, densities: [0.6] },
    ];
    expect(firstOpenCell({ ...strip, rows })).toEqual({ row: 1, column: 2 });
    const full = rows.map((row) => ({ ...row, densities: [0.5, 0.6] }));
    expect(firstOpenCell({ ...strip, rows: full })).toBeNull();
  });
});
