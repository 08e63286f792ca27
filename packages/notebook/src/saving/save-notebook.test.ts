import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { emptyDocument } from '../document/empty-document.ts';
import { SAMPLE } from '../document/sample-document.ts';
import { InputError } from '../notebook-error.ts';
import { notebookFromText, notebookToText, openNotebook, savedNotebook } from './save-notebook.ts';

const codeOf = (run: () => unknown): string => {
  try {
    run();
  } catch (error) {
    if (error instanceof InputError) return error.code;
    throw error;
  }
  return 'no error';
};
const envelope = (document: unknown) => ({
  format: 'wedgebook-notebook',
  schemaVersion: 3,
  document,
});

describe('a saved notebook', () => {
  it('comes back as it was', () => {
    expect(notebookFromText(notebookToText(SAMPLE))).toEqual({ document: SAMPLE, mended: [] });
    expect(openNotebook(structuredClone(savedNotebook(emptyDocument())))).toEqual({
      document: emptyDocument(),
      mended: [],
    });
  });

  it('comes back as it was with a byte order mark', () => {
    expect(notebookFromText(`\uFEFF${notebookToText(SAMPLE)}`).document).toEqual(SAMPLE);
  });

  it('keeps fields that this version does not know', () => {
    const later = {
      ...SAMPLE,
      constructor: 'kept too',
      films: [{ ...SAMPLE.films[0], isoOnBox: 100 }],
      plan: { ...SAMPLE.plan, agitation: { everySeconds: 30 } },
    };
    const { document } = notebookFromText(JSON.stringify(envelope(later)));
    expect(JSON.parse(notebookToText(document))).toEqual(envelope(later));
  });

  it('tells which references lead nowhere, empties them, and keeps the rest', () => {
    const torn = { ...SAMPLE, films: [], papers: [] };
    const { document, mended } = openNotebook(envelope(torn));
    expect(mended).toEqual([
      { path: 'strips.0.filmId', id: 'f1' },
      { path: 'strips.1.filmId', id: 'f1' },
      { path: 'strips.3.filmId', id: 'f1' },
      { path: 'negatives.0.filmId', id: 'f1' },
      { path: 'prints.0.paperId', id: 'p1' },
      { path: 'plan.paperId', id: 'p1' },
      { path: 'developmentPlan.filmId', id: 'f1' },
    ]);
    expect(document.strips[0]?.rows).toEqual(SAMPLE.strips[0]?.rows);
    expect(openNotebook(envelope(document)).mended).toEqual([]);
  });

  it('mends developers, the strips of a variable-contrast paper, and the negatives of prints', () => {
    const torn = { ...SAMPLE, developers: [], strips: [], negatives: [] };
    const { mended } = openNotebook(envelope(torn));
    expect(mended).toEqual([
      { path: 'films.0.developerId', id: 'd1' },
      { path: 'papers.0.source.stripId', id: 's3' },
      { path: 'papers.2.source.strips.0.stripId', id: 's3' },
      { path: 'prints.0.negativeId', id: 'n1' },
      { path: 'plan.negativeId', id: 'n1' },
    ]);
  });

  it.each([
    ['nothing', '', 'notebook-not-json'],
    ['half a file', notebookToText(SAMPLE).slice(0, 300), 'notebook-not-json'],
    ['binary bytes', '\u0000\u0001\uFFFD', 'notebook-not-json'],
    ['another JSON file', '{"type":"FeatureCollection"}', 'notebook-format'],
    ['a list', '[]', 'notebook-format'],
    ['null', 'null', 'notebook-format'],
    ['no version', '{"format":"wedgebook-notebook"}', 'notebook-version'],
    ['version 0', '{"format":"wedgebook-notebook","schemaVersion":0}', 'notebook-version'],
    ['version 1.5', '{"format":"wedgebook-notebook","schemaVersion":1.5}', 'notebook-version'],
    ['a newer version', '{"format":"wedgebook-notebook","schemaVersion":4}', 'notebook-newer'],
    ['no document', '{"format":"wedgebook-notebook","schemaVersion":1}', 'notebook-field'],
    ['text nested a million deep', '['.repeat(1e6) + ']'.repeat(1e6), 'notebook-too-deep'],
    [
      'a key that reaches the prototype',
      '{"format":"wedgebook-notebook","schemaVersion":1,"document":{"__proto__":{"title":"x"}}}',
      'notebook-unsafe-key',
    ],
  ])('refuses %s', (_what, text, code) => {
    expect(codeOf(() => notebookFromText(text))).toBe(code);
  });

  it('refuses text far larger than any notebook', () => {
    const huge = { length: 50_000_001, replace: () => '' } as unknown as string;
    expect(codeOf(() => notebookFromText(huge))).toBe('notebook-too-large');
  });

  it.each([
    ['a density that is text', { unexposedDensities: ['0.2'] }],
    ['a number too large for a double', { unexposedDensities: [Infinity] }],
    ['an unknown channel', { channel: 'infrared' }],
    ['a missing list', { rows: undefined }],
    ['a step that is no number', { rows: [{ step: null, logExposure: null, densities: [] }] }],
    ['development without minutes', { development: { celsius: 20 } }],
  ])('refuses %s and names the field', (_what, changes) => {
    const document = { ...SAMPLE, strips: [{ ...SAMPLE.strips[0], ...changes }] };
    const [field] = Object.keys(changes);
    expect(() => openNotebook(envelope(document), { file: 'my.json' })).toThrow(
      new RegExp(`^my\\.json, column "strips\\.0\\.${field!}`),
    );
  });

  it('opens a notebook with senseless figures, so that they can be put right', () => {
    const [strip] = SAMPLE.strips;
    const odd = {
      ...SAMPLE,
      strips: [{ ...strip, development: { minutes: -5, celsius: 900 } }, ...SAMPLE.strips.slice(1)],
      plan: { ...SAMPLE.plan, stainKept: 7, callierFactor: 0 },
    };
    expect(openNotebook(envelope(odd)).document).toEqual(odd);
  });

  it('refuses a film that is there twice in one bath', () => {
    const [bath] = SAMPLE.baths;
    const films = [...bath!.films, ...bath!.films];
    const document = { ...SAMPLE, baths: [{ ...bath, films }] };
    expect(codeOf(() => openNotebook(envelope(document)))).toBe('notebook-double-id');
  });

  it('refuses an id that is there twice', () => {
    const document = { ...SAMPLE, films: [SAMPLE.films[0], SAMPLE.films[0]] };
    expect(codeOf(() => openNotebook(envelope(document)))).toBe('notebook-double-id');
  });

  it('never throws anything but its own error, whatever JSON it is given', () => {
    fc.assert(
      fc.property(fc.json({ maxDepth: 6 }), fc.boolean(), (json, wrapped) => {
        const text = wrapped
          ? `{"format":"wedgebook-notebook","schemaVersion":1,"document":${json}}`
          : json;
        expect(codeOf(() => notebookFromText(text))).toMatch(/^notebook-/);
        expect(({} as Record<string, unknown>)['title']).toBeUndefined();
      }),
    );
  });
});
