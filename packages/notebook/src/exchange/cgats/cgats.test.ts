import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../../notebook-error.ts';
import { readReadings } from '../read-readings.ts';
import type { ReadingsStrip } from '../readings-strip.ts';
import { writeReadings } from '../write-readings.ts';
import { cgatsReader, isCgats, readCgats } from './read-cgats.ts';
import { writeCgats } from './write-cgats.ts';

const CREATED = { created: '2026-11-25' };
const plain = (strips: readonly ReadingsStrip[]) =>
  strips.map((strip) => ({
    ...strip,
    firstRow: 0,
    lastRow: 0,
    warnings: [],
    readings: strip.readings.map((reading) => ({ ...reading, row: 0 })),
  }));

/** As a densitometer program elsewhere might write: other order, comments, several channels. */
const FOREIGN = [
  'ISO28178',
  'ORIGINATOR "somebody"  # a comment',
  'DESCRIPTOR "a wedge"',
  'INSTRUMENTATION "a densitometer"',
  'NUMBER_OF_FIELDS 4',
  'begin_data_format',
  'D_BLUE SAMPLE_ID D_VIS SAMPLE_NAME',
  'end_data_format',
  'NUMBER_OF_SETS 2',
  'BEGIN_DATA',
  '0,31 1 0.25 "step one"',
  '# another comment',
  '0.51 2 0.45 "step # two"',
  'END_DATA',
].join('\r\n');

describe('CGATS.17', () => {
  it('writes the sections of the standard, private names declared before use', () => {
    const { strips } = readReadings(
      'strip,channel,step,tablet_density,density,minutes\nA,blue,1,0.05,1.5,8\nA,blue,,,0.2,8\n',
    );
    expect(writeCgats(strips, CREATED).split('\r\n')).toEqual([
      'CGATS.17',
      '',
      'ORIGINATOR\t"Wedgebook"',
      'FILE_DESCRIPTOR\t"Step wedge readings, strip A"',
      'CREATED\t"2026-11-25"',
      'KEYWORD\t"STRIP"',
      'STRIP\t"A"',
      'KEYWORD\t"DEVELOPMENT_MINUTES"',
      'DEVELOPMENT_MINUTES\t"8"',
      'KEYWORD\t"UNEXPOSED_DENSITIES"',
      'UNEXPOSED_DENSITIES\t"0.2"',
      'DATA_FORMAT_IDENTIFIER\t"TABLET_DENSITY"',
      'NUMBER_OF_FIELDS\t3',
      'BEGIN_DATA_FORMAT',
      'SAMPLE_ID\tTABLET_DENSITY\tD_BLUE',
      'END_DATA_FORMAT',
      'NUMBER_OF_SETS\t1',
      'BEGIN_DATA',
      '1\t0.05\t1.5',
      'END_DATA',
      '',
    ]);
  });

  it('reads a file from elsewhere: one strip for each channel', () => {
    expect(isCgats(FOREIGN)).toBe(true);
    const { strips, warnings } = readCgats(FOREIGN);
    expect(warnings).toEqual([]);
    expect(
      strips.map(({ channel, readings }) => [channel, readings.map((r) => r.density)]),
    ).toEqual([
      ['visual', [0.25, 0.45]],
      ['blue', [0.31, 0.51]],
    ]);
    expect(strips[0]?.readings.map(({ step }) => step)).toEqual([1, 2]);
  });

  it('is read alike whole and in pieces, cut anywhere, strip by strip', () => {
    const text = `${FOREIGN}\r\n${FOREIGN}`;
    const strips: ReadingsStrip[] = [];
    const reader = cgatsReader(undefined, (strip) => strips.push(strip));
    for (const character of text) reader.push(character);
    expect(reader.end()).toEqual({ ...readCgats(text), strips: [] });
    expect(strips).toEqual(readCgats(text).strips);
    expect(strips).toHaveLength(4);
  });

  it.each(['1A 1B', '0 1', 'dark light'])(
    'takes rows as steps in their order where they are named %s and have no exposures',
    (names) => {
      const [first = '', second = ''] = names.split(' ');
      const text = FOREIGN.replace('0,31 1 ', `0,31 ${first} `).replace(
        '0.51 2 ',
        `0.51 ${second} `,
      );
      const { strips } = readCgats(text);
      expect(strips[0]?.readings.map(({ step }) => step)).toEqual([1, 2]);
      // As a file of readings they are steps too, not base + fog.
      const [again] = readReadings(writeReadings(strips), { stepsSuffice: true }).strips;
      expect(again?.unexposedDensities).toEqual([]);
    },
  );

  it('refuses a line without an end before it is held in memory', () => {
    const reader = cgatsReader('w.txt');
    expect(() => {
      for (let i = 0; i < 20; i += 1) reader.push(' 0.5'.repeat(20_000));
    }).toThrow(/^w\.txt, row 1: the row does not end within 1000000 characters/);
  });

  it('comes back as it was', () => {
    const number = fc.double({ min: -0.5, max: 6, noNaN: true }).map((value) => value || 0);
    const strip = fc.record({
      channel: fc.constantFrom('visual', 'blue', 'green', 'red', 'ultraviolet', null),
      minutes: fc.option(fc.double({ min: 0.5, max: 60, noNaN: true })),
      absolute: fc.boolean(),
      rows: fc.array(fc.tuple(number, number), { minLength: 1, maxLength: 8 }),
      unexposed: fc.array(number, { maxLength: 3 }),
    });
    fc.assert(
      fc.property(fc.array(strip, { minLength: 1, maxLength: 4 }), (made) => {
        const strips = made.map((s, index): ReadingsStrip => ({
          name: `strip ${index}`,
          material: index % 2 === 0 ? 'film' : 'paper',
          channel: s.channel,
          minutes: s.minutes,
          celsius: null,
          treatment: index === 1 ? 'selenium' : null,
          partsWater: index === 1 ? 3 : null,
          bathMinutes: index === 1 ? 5.25 : null,
          bathCelsius: null,
          ...(index === 0 && { processedOn: '2026-02-28', control: true }),
          readings: s.rows.map(([exposure, density], step) => ({
            step: step + 1,
            tabletDensity: s.absolute ? null : exposure,
            logExposure: s.absolute ? exposure : null,
            density,
            row: 0,
          })),
          unexposedDensities: s.unexposed,
          unread: 0,
          firstRow: 0,
          lastRow: 0,
          warnings: [],
        }));
        expect(plain(readCgats(writeCgats(strips, CREATED)).strips)).toEqual(plain(strips));
      }),
    );
  });

  it('keeps the setting and the seconds of soft and hard light of paper strips', () => {
    const { strips } = readReadings(
      [
        'strip,material,log_exposure,density,setting,soft_seconds,hard_seconds',
        'filter,paper,-1,0.5,2½,,',
        'split,paper,-1,0.6,,12.5,0',
        'soft alone,paper,-1,0.7,,8,',
        'film,film,-1,0.8,,,',
      ].join('\n'),
    );
    const text = writeCgats(strips, CREATED);
    // The standard has no such keywords: each stands declared on the line before.
    for (const keyword of ['SETTING', 'SOFT_SECONDS', 'HARD_SECONDS']) {
      expect(text).toContain(`KEYWORD\t"${keyword}"\r\n${keyword}\t`);
    }
    const lights = (all: readonly ReadingsStrip[]) =>
      all.map(({ name, setting = null, softSeconds = null, hardSeconds = null }) => ({
        name,
        setting,
        softSeconds,
        hardSeconds,
      }));
    expect(lights(readCgats(text).strips)).toEqual([
      { name: 'filter', setting: '2½', softSeconds: null, hardSeconds: null },
      { name: 'split', setting: null, softSeconds: 12.5, hardSeconds: 0 },
      { name: 'soft alone', setting: null, softSeconds: 8, hardSeconds: null },
      { name: 'film', setting: null, softSeconds: null, hardSeconds: null },
    ]);
  });

  it('splits a strip that gives its exposures in two ways, and leaves unread steps out', () => {
    const { strips } = readReadings(
      'log_exposure,tablet_density,density\n-1,,0.5\n,1.5,0.4\n-2,,\n',
    );
    const back = readCgats(writeCgats(strips, CREATED)).strips;
    expect(back.map(({ readings }) => readings.length)).toEqual([1, 1]);
    expect(back.map(({ name }) => name)).toEqual(['1', '1']);
  });

  it('cannot be broken by a name', () => {
    const { strips } = readReadings('strip,log_exposure,density\n"a ""b"" # c",-1,0.5\n');
    const [back] = readCgats(writeCgats(strips, CREATED)).strips;
    expect(back?.name).toBe("a 'b' # c");
  });

  it('notices a wrong count of rows and reads all that are there', () => {
    const { strips, warnings } = readCgats(FOREIGN.replace('SETS 2', 'SETS 3'));
    expect(strips[0]?.readings).toHaveLength(2);
    expect(warnings).toEqual([{ code: 'rows-miscounted', details: { declared: 3, found: 2 } }]);
  });

  it.each([
    ['no data', FOREIGN.replace(/BEGIN_DATA\r[^]*/, ''), 'cgats-incomplete'],
    [
      'data without an end',
      FOREIGN.replace('END_DATA', '').replace(/\r\nEND_DATA$/, ''),
      'cgats-incomplete',
    ],
    ['data before its format', 'BEGIN_DATA\n1 2\nEND_DATA\nBEGIN_DATA_FORMAT', 'cgats-incomplete'],
    ['a row that is too short', FOREIGN.replace('"step # two"', ''), 'cgats-row'],
    [
      'no density column',
      FOREIGN.replace('D_BLUE', 'LAB_L').replace('D_VIS', 'LAB_A'),
      'missing-column',
    ],
    ['text in a number', FOREIGN.replace('0.45', 'dark'), 'not-a-number'],
    ['a density of 45', FOREIGN.replace('0.45', '45'), 'out-of-range'],
  ])('refuses %s', (_what, text, code) => {
    let found = 'nothing';
    try {
      readCgats(text, 'w.txt');
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      found = error.code;
      expect(error.message).toMatch(/^w\.txt/);
    }
    expect(found).toBe(code);
  });
});
