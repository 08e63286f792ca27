import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { MIGRATIONS, SCHEMA_VERSION } from './migrations.ts';
import { notebookFromText, notebookToText } from './save-notebook.ts';

const FOLDER = new URL('./fixtures/', import.meta.url);
const text = (version: number) => readFileSync(new URL(`notebook-${version}.json`, FOLDER), 'utf8');
const versions = Array.from({ length: SCHEMA_VERSION }, (_, index) => index + 1);

describe('what users have saved', () => {
  it('has a fixture of every version, and a step to the next from all but the present one', () => {
    expect(readdirSync(FOLDER).sort()).toEqual(
      versions.map((version) => `notebook-${version}.json`).sort(),
    );
    expect(Object.keys(MIGRATIONS).map(Number)).toEqual(versions.slice(0, -1));
  });

  it.each(versions)('version %i opens with nothing to mend, and stays as it is when saved', (v) => {
    const { document, mended } = notebookFromText(text(v));
    expect(mended).toEqual([]);
    expect(notebookFromText(notebookToText(document)).document).toEqual(document);
  });

  it('version 1, which knew no baths, opens with none', () => {
    const { document } = notebookFromText(text(1));
    expect(document.baths).toEqual([]);
  });

  it('the present version is saved as it was opened, field by field', () => {
    const saved: unknown = JSON.parse(text(SCHEMA_VERSION));
    expect(JSON.parse(notebookToText(notebookFromText(text(SCHEMA_VERSION)).document))).toEqual(
      saved,
    );
  });
});
