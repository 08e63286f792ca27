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

  it('version 2, where a film named its developer in words, opens with developers of their own', () => {
    const { document } = notebookFromText(text(2));
    expect(document.developers).toEqual([{ id: 'developer-1', name: 'metol', note: '' }]);
    expect(document.films.map(({ developerId }) => developerId)).toEqual(['developer-1']);
    expect(document.films[0]).not.toHaveProperty('developer');
    expect(document.plan).toMatchObject({ targetGrade: 2, curveFamily: 'toe-shoulder' });
  });

  it('version 2 shares a developer between films of the same words, and makes none of blanks', () => {
    const films = ['metol', ' metol ', '', 'glycin'].map((developer, index) => ({
      id: `f${index}`,
      name: '',
      developer,
      note: '',
    }));
    const saved = JSON.parse(text(2)) as { document: object };
    const old = { ...saved, document: { ...saved.document, films } };
    const { document } = notebookFromText(JSON.stringify(old));
    expect(document.developers.map(({ name }) => name)).toEqual(['metol', 'glycin']);
    expect(document.films.map(({ developerId }) => developerId)).toEqual([
      'developer-1',
      'developer-1',
      null,
      'developer-2',
    ]);
  });

  it('the present version is saved as it was opened, field by field', () => {
    const saved: unknown = JSON.parse(text(SCHEMA_VERSION));
    expect(JSON.parse(notebookToText(notebookFromText(text(SCHEMA_VERSION)).document))).toEqual(
      saved,
    );
  });
});
