import { describe, expect, it } from 'vitest';
import { notebookFromText, notebookToText } from '../saving/save-notebook.ts';
import { stripReadings } from '../document/strip-readings.ts';
import { tabletLookup } from '../document/tablet-lookup.ts';
import { SAMPLE } from '../document/sample-document.ts';
import { readCgats } from './cgats/read-cgats.ts';
import { writeCgats } from './cgats/write-cgats.ts';
import { curveReadingsOf } from './curve-readings-of.ts';
import { documentFromStrips, type DocumentFromStripsOptions } from './document-from-strips.ts';
import { readReadings } from './read-readings.ts';
import type { ReadingsStrip } from './readings-strip.ts';
import { stripsFromDocument } from './strips-from-document.ts';
import { writeReadings } from './write-readings.ts';

let count = 0;
const makeId = () => `id-${(count += 1)}`;
const documentOf = (text: string, options: Partial<DocumentFromStripsOptions> = {}) =>
  documentFromStrips(readReadings(text, { stepsSuffice: true }).strips, { makeId, ...options });
const codes = (warnings: readonly { readonly code: string }[]) => warnings.map(({ code }) => code);

const BY_TABLET = [
  'strip,step,tablet_density,density',
  'A,1,0.05,1.5',
  'A,1,0.05,1.52',
  'A,2,0.21,1.3',
  'A,3,0.33,',
  'A,4,0.5,0.9',
  'A,,,0.12',
].join('\n');

describe('documentFromStrips', () => {
  it('makes a tablet of the strip, one row a step, and a sound notebook', () => {
    const { document, warnings } = documentOf(BY_TABLET);
    expect(warnings).toEqual([]);
    expect(document.tablets).toMatchObject([{ densities: [0.05, 0.21, 0.33, 0.5] }]);
    const [strip] = document.strips;
    expect(strip).toMatchObject({
      name: 'A',
      material: 'film',
      channel: 'visual',
      tabletId: document.tablets[0]?.id,
      exposure: { kind: 'relative' },
      unexposedDensities: [0.12],
      development: null,
      treatment: null,
    });
    expect(strip?.rows.map(({ step, densities }) => [step, densities])).toEqual([
      [1, [1.5, 1.52]],
      [2, [1.3]],
      [3, [null]],
      [4, [0.9]],
    ]);
    expect(notebookFromText(notebookToText(document)).document).toEqual(document);
  });

  it('knows a built-in tablet by its densities, and shares one between strips', () => {
    const builtIn = BY_TABLET.replace('0.21', '0.2').replace('0.33', '0.35');
    expect(documentOf(builtIn).document).toMatchObject({
      tablets: [],
      strips: [{ tabletId: 'nominal-21' }],
    });
    const twice = `${BY_TABLET}\n${BY_TABLET.split('\n').slice(1).join('\n').replaceAll('A,', 'B,')}`;
    const { document } = documentOf(twice);
    expect(document.tablets).toHaveLength(1);
    expect(document.strips[0]?.tabletId).toBe(document.strips[1]?.tabletId);
  });

  it.each([
    ['steps with a gap', BY_TABLET.replace('A,4', 'A,5')],
    ['no step numbers', BY_TABLET.replaceAll(/A,\d,/g, 'A,,')],
    ['one step at two densities', BY_TABLET.replace('A,1,0.05,1.52', 'A,1,0.06,1.52')],
  ])('writes the exposures into the rows with %s', (_what, text) => {
    const { document } = documentOf(text, { sourceLogExposure: 0.5 });
    expect(document.tablets).toEqual([]);
    const [strip] = document.strips;
    expect(strip?.exposure).toEqual({ kind: 'absolute', sourceLogExposure: null });
    const direct = curveReadingsOf(readReadings(text).strips[0]!, { sourceLogExposure: 0.5 }, 0);
    const through = stripReadings(strip!, tabletLookup(document));
    expect(through.logExposures).toEqual(direct.readings.logExposures);
    expect(through.densities).toEqual(direct.readings.densities);
  });

  it('takes written log exposures as absolute or relative, as told', () => {
    const text = 'log_exposure,density\n-1,0.5\n-2,0.4\n';
    expect(documentOf(text).document.strips[0]?.exposure.kind).toBe('absolute');
    const relative = documentOf(text, { logExposure: 'relative' }).document;
    expect(relative.strips[0]?.exposure.kind).toBe('relative');
  });

  it('pairs treated strips with their untreated one', () => {
    const text = [
      'strip,log_exposure,density,treatment,parts_water,bath_minutes,bath_celsius',
      'test,-1,0.5,none,,,',
      'other,-1,0.6,none,,,',
      'test toned,-1,0.6,selenium,3,5,20',
      'gilded,-1,0.6,gold,3,5,20',
    ].join('\n');
    const { document, warnings } = documentOf(text);
    const [test, , toned, gilded] = document.strips;
    expect(toned?.treatment).toEqual({
      process: 'selenium',
      partsWater: 3,
      minutes: 5,
      celsius: 20,
      untreatedStripId: test?.id,
    });
    expect(gilded?.treatment).toMatchObject({ process: 'gold', untreatedStripId: test?.id });
    expect(codes(warnings)).toEqual(['treatment-not-modelled']);
  });

  it('says what temperature it assumed', () => {
    const { warnings } = documentOf('log_exposure,density,minutes\n-1,0.5,8\n');
    expect(codes(warnings)).toEqual(['development-temperature-assumed']);
  });
});

describe('stripsFromDocument', () => {
  it('writes what a notebook was read from, by way of CSV', () => {
    const { document } = documentOf(BY_TABLET);
    const { strips, warnings } = stripsFromDocument(document);
    expect(warnings).toEqual([]);
    const again = documentOf(writeReadings(strips)).document;
    expect(again.strips.map(({ rows }) => rows)).toEqual(document.strips.map(({ rows }) => rows));
    expect(again.strips[0]?.exposure).toEqual(document.strips[0]?.exposure);
    expect(again.tablets.map(({ densities }) => densities)).toEqual([[0.05, 0.21, 0.33, 0.5]]);
  });

  it('says what a file of readings cannot hold', () => {
    const doubled = {
      ...SAMPLE,
      tablets: [],
      strips: SAMPLE.strips.map((strip) => ({ ...strip, name: 'same' })),
    };
    const { strips, warnings } = stripsFromDocument(doubled);
    expect(strips.map(({ name }) => name)).toEqual(['same', 'same (2)', 'same (3)', 'same (4)']);
    expect(new Set(codes(warnings))).toEqual(
      new Set(['strips-alone-exchanged', 'strip-renamed', 'steps-without-exposure']),
    );
  });
});

describe('strips of a paper at several settings', () => {
  const LIT = [
    'strip,material,step,tablet_density,density,setting,soft_seconds,hard_seconds',
    'two,paper,1,0.05,1.9,2½,,',
    'two,paper,2,0.2,1.2,2½,,',
    'soft,paper,1,0.05,1.8,,10,0',
    'soft,paper,2,0.2,1.1,,10,0',
    'film,film,1,0.05,1.1,,,',
    'film,film,2,0.2,1,,,',
  ].join('\n');
  const lightsOf = (strips: readonly ReadingsStrip[]) =>
    strips.map(({ name, setting, softSeconds, hardSeconds }) => ({
      name,
      setting: setting ?? null,
      softSeconds: softSeconds ?? null,
      hardSeconds: hardSeconds ?? null,
    }));
  const EXPECTED = [
    { name: 'two', setting: '2½', softSeconds: null, hardSeconds: null },
    { name: 'soft', setting: null, softSeconds: 10, hardSeconds: 0 },
    { name: 'film', setting: null, softSeconds: null, hardSeconds: null },
  ];

  it('make one paper, with the setting and the seconds of each', () => {
    const { document } = documentOf(LIT, { paperName: 'ferry paper' });
    const [two, soft] = document.strips;
    expect(document.papers).toMatchObject([
      {
        name: 'ferry paper',
        source: {
          kind: 'strips',
          strips: [
            { stripId: two?.id, setting: '2½', softSeconds: null, hardSeconds: null },
            { stripId: soft?.id, setting: '', softSeconds: 10, hardSeconds: 0 },
          ],
        },
      },
    ]);
    expect(notebookFromText(notebookToText(document)).document).toEqual(document);
  });

  it('keep them through notebook, CSV and CGATS.17 and back', () => {
    const { document } = documentOf(LIT);
    const { strips } = stripsFromDocument(document);
    expect(lightsOf(strips)).toEqual(EXPECTED);
    expect(lightsOf(readReadings(writeReadings(strips)).strips)).toEqual(EXPECTED);
    const cgats = readCgats(writeCgats(strips, { created: '2026-11-26' }));
    expect(lightsOf(cgats.strips)).toEqual(EXPECTED);
    const again = documentFromStrips(cgats.strips, { makeId });
    expect(lightsOf(stripsFromDocument(again.document).strips)).toEqual(EXPECTED);
  });

  it('make no paper where none tells its light, and are paper where one does', () => {
    expect(documentOf(BY_TABLET).document.papers).toEqual([]);
    const unsaid = 'strip,tablet_density,density,setting\nA,0.05,1.5,3\nA,0.2,1.3,3';
    expect(documentOf(unsaid).document.strips).toMatchObject([{ material: 'paper' }]);
  });
});
