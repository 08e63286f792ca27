import { InvalidArgumentError } from '@wedgebook/core';
import { describe, expect, it } from 'vitest';
import { applyRowCommand, MOST_ROWS } from './apply-row-command.ts';
import type { StripRow } from './document.ts';

const row = (step: number, ...densities: (number | null)[]): StripRow => ({
  step,
  logExposure: null,
  densities,
});
const rows: readonly StripRow[] = [row(1, 1.5), row(2, 1.1), row(3, 0.7)];
const stripId = 's';

describe('applyRowCommand', () => {
  it('sets one cell and keeps the other rows', () => {
    const next = applyRowCommand(rows, {
      type: 'rows/set-cell',
      stripId,
      row: 1,
      column: { kind: 'density', replicate: 2 },
      value: 1.12,
    });
    expect(next[1]).toEqual(row(2, 1.1, null, 1.12));
    expect(next[0]).toBe(rows[0]);
  });

  it('empties a cell without moving the replicates after it', () => {
    const next = applyRowCommand([row(1, 1, 2, 3)], {
      type: 'rows/set-cell',
      stripId,
      row: 0,
      column: { kind: 'density', replicate: 0 },
      value: null,
    });
    expect(next).toEqual([row(1, null, 2, 3)]);
  });

  it('keeps a step number when its cell is emptied', () => {
    const command = {
      type: 'rows/set-cell',
      stripId,
      row: 0,
      column: { kind: 'step' },
      value: null,
    } as const;
    expect(applyRowCommand(rows, command)).toBe(rows);
  });

  it('grows to a cell below the last row, with the rows between unread', () => {
    const next = applyRowCommand(rows, {
      type: 'rows/set-cell',
      stripId,
      row: 4,
      column: { kind: 'density', replicate: 0 },
      value: 0.3,
    });
    expect(next).toEqual([...rows, row(4), row(5, 0.3)]);
  });

  it('pastes a block of densities at a cell', () => {
    const next = applyRowCommand(rows, {
      type: 'rows/paste',
      stripId,
      row: 1,
      column: { kind: 'density', replicate: 0 },
      block: [
        [1.2, 1.21],
        [0.8, null],
        [0.4, 0.41],
      ],
    });
    expect(next).toEqual([row(1, 1.5), row(2, 1.2, 1.21), row(3, 0.8, null), row(4, 0.4, 0.41)]);
  });

  it('pastes steps, log exposures and densities side by side', () => {
    const next = applyRowCommand([], {
      type: 'rows/paste',
      stripId,
      row: 0,
      column: { kind: 'step' },
      block: [
        [5, -1.2, 0.9],
        [6, -1.35, 0.8],
      ],
    });
    expect(next).toEqual([
      { step: 5, logExposure: -1.2, densities: [0.9] },
      { step: 6, logExposure: -1.35, densities: [0.8] },
    ]);
  });

  it('turns the readings round and turning twice changes nothing', () => {
    const command = { type: 'rows/reverse-readings', stripId } as const;
    const once = applyRowCommand(rows, command);
    expect(once.map(({ step, densities }) => [step, densities[0]])).toEqual([
      [1, 0.7],
      [2, 1.1],
      [3, 1.5],
    ]);
    expect(applyRowCommand(once, command)).toEqual(rows);
  });

  it('inserts and removes rows', () => {
    const inserted = applyRowCommand(rows, {
      type: 'rows/insert',
      stripId,
      row: 1,
      rows: [row(9, 1)],
    });
    expect(inserted.map(({ step }) => step)).toEqual([1, 9, 2, 3]);
    expect(applyRowCommand(inserted, { type: 'rows/remove', stripId, row: 1, count: 1 })).toEqual(
      rows,
    );
  });

  it.each([
    ['a density that is not finite', 0, NaN],
    ['an infinite density', 0, Infinity],
    ['a row that is no whole number', 0.5, 1],
    ['a row below 0', -1, 1],
    ['a row far beyond any strip', MOST_ROWS, 1],
  ])('refuses %s', (_what, at, value) => {
    expect(() =>
      applyRowCommand(rows, {
        type: 'rows/set-cell',
        stripId,
        row: at,
        column: { kind: 'density', replicate: 0 },
        value,
      }),
    ).toThrow(InvalidArgumentError);
  });

  it('refuses a replicate far beyond any strip', () => {
    expect(() =>
      applyRowCommand(rows, {
        type: 'rows/set-cell',
        stripId,
        row: 0,
        column: { kind: 'density', replicate: 1e9 },
        value: 1,
      }),
    ).toThrow(InvalidArgumentError);
  });
});
