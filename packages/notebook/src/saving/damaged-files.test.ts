/**
 * Damaged files are read or refused, and cost the open notebook nothing: a seeded few of the
 * hundred thousand that `npm run bench -- mutations` tries.
 */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jsonTextEdits, mutated, textEdits } from '../../../../test/mutations.ts';
import { survives } from '../../../../test/survives.ts';
import { SAMPLE } from '../document/sample-document.ts';
import { readReadings } from '../exchange/read-readings.ts';
import { writeCgats } from '../exchange/cgats/write-cgats.ts';
import { notebookToText } from './save-notebook.ts';

const CSV = readFileSync(
  new URL('../../../../data/demo/film-strips.csv', import.meta.url),
  'utf8',
).slice(0, 1500);
const CGATS = writeCgats(readReadings(CSV).strips, { created: '2026-11-26' });

describe('damaged files', () => {
  it.each([
    ['notebook', notebookToText(SAMPLE), jsonTextEdits],
    ['CSV file', CSV, textEdits],
    ['CGATS file', CGATS, textEdits],
  ] as const)(
    'a %s is read or refused with a reason, and nothing is lost',
    (_kind, text, edits) => {
      const endings = new Set<string>();
      fc.assert(
        fc.property(edits, (damage) => {
          endings.add(survives(mutated(text, damage), SAMPLE));
        }),
        { numRuns: 600, seed: 1890 },
      );
      // The damage is neither always fatal nor always harmless.
      expect(endings).toContain('read');
      expect(endings.size).toBeGreaterThan(4);
    },
  );
});
