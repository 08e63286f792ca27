import { describe, expect, it } from 'vitest';
import { worthOf } from './leaving-notes.ts';
import type { Kept } from './storage.ts';

const kept: Kept = { notebook: {}, savedAt: '2026-11-26', revision: 7, writer: 'a', edit: 3 };

describe('worthOf', () => {
  it.each([
    ['the same page, a later change', { ...kept, revision: 6, edit: 4 }, 'newer'],
    ['the same page, all written', { ...kept, revision: 6, edit: 3 }, 'written'],
    ['another page, on what is kept', { ...kept, writer: 'b', edit: 1 }, 'newer'],
    ['another page, overtaken since', { ...kept, writer: 'b', revision: 6, edit: 9 }, 'aside'],
    // The clock of a note plays no part: it may have been set back.
    ['an older clock', { ...kept, savedAt: '1999-01-01', revision: 6, edit: 4 }, 'newer'],
  ] as const)('judges %s', (_what, note, worth) => {
    expect(worthOf(note, kept)).toBe(worth);
  });

  it('takes a note where nothing is kept', () => {
    expect(worthOf(kept, null)).toBe('newer');
  });
});
