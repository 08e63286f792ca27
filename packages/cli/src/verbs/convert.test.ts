import { readFileSync } from 'node:fs';
import {
  documentFromStrips,
  notebookFromText,
  notebookToText,
  readCgats,
  readReadings,
} from '@wedgebook/notebook';
import { describe, expect, it } from 'vitest';
import { notebookSink } from '../converting/notebook-sink.ts';
import { ran } from '../memory-io.ts';
import { PAPER_105, SOFT_TOE, TREATED } from './sample-files.ts';

const DEMO = readFileSync(new URL('../../../../data/demo/notebook.json', import.meta.url), 'utf8');
const FILES = { 'b.csv': SOFT_TOE, 't.csv': TREATED, 'demo.json': DEMO };
const converted = async (...words: string[]) => {
  const result = await ran(['convert', ...words], FILES);
  expect(result.exitCode, result.stderr).toBe(0);
  return result;
};
const measures = async (verb: string, text: string, ...words: string[]) => {
  const { stdout } = await ran([verb, '-', '--json', ...words], { '-': text });
  return JSON.parse(stdout) as { readonly strips: readonly { readonly warnings: unknown }[] };
};

const [TREATED_HEADER = '', ...TREATED_ROWS] = TREATED.trimEnd().split('\n');
const isUntreated = (row: string) => row.startsWith('test,');
const TREATED_FIRST = [
  TREATED_HEADER,
  ...TREATED_ROWS.filter((row) => !isUntreated(row)),
  ...TREATED_ROWS.filter(isUntreated),
].join('\n');
const SETTINGS = [
  'strip,log_exposure,density,setting',
  ...['0', '2'].flatMap((setting) =>
    [0, 1, 2, 3, 4].map((i) => `S${setting},${i / 4},${0.1 + i / 2},${setting}`),
  ),
].join('\n');

describe('convert', () => {
  it('gives the same measures by CSV, CGATS.17 and notebook', async () => {
    const plain = await measures('film', SOFT_TOE, '--log-exposure', 'absolute');
    for (const to of ['csv', 'cgats', 'json']) {
      const { stdout } = await converted('b.csv', '--to', to);
      const [strip] = (await measures('film', stdout, '--log-exposure', 'absolute')).strips;
      expect(strip, to).toMatchObject({
        ...plain.strips[0],
        ...(to === 'json' && { material: 'film', channel: 'visual' }),
      });
    }
  });

  it('keeps relative exposures relative', async () => {
    for (const to of ['csv', 'cgats', 'json']) {
      const { stdout } = await converted('t.csv', '--to', to);
      const { strips } = await measures('film', stdout);
      expect(strips, to).toHaveLength(6);
      expect(strips[0], to).toMatchObject({ exposureKind: 'relative', speed: null });
    }
  });

  it('writes a notebook that opens, with its strips paired', async () => {
    const { stdout } = await converted('t.csv', '--to', 'json', '--title', 'Trial');
    const { document, mended } = notebookFromText(stdout);
    expect(mended).toEqual([]);
    expect(document.title).toBe('Trial');
    const [first, ...others] = document.strips;
    expect(others.every(({ treatment }) => treatment?.untreatedStripId === first?.id)).toBe(true);
  });

  it('writes semicolons and decimal commas when asked', async () => {
    const { stdout } = await converted(
      'b.csv',
      '--to',
      'csv',
      '--separator',
      'semicolon',
      '--decimal-comma',
    );
    expect(stdout).toMatch(/^strip;step;log_exposure;density\r\nB;1;-3;0,1532\r\n/);
    expect(readReadings(stdout).strips[0]?.readings).toHaveLength(21);
  });

  it('passes strips through one by one, those too that go on after many others', async () => {
    const rows = (name: string, from: number) =>
      Array.from({ length: 3 }, (_, i) => `${name},${from + i},${-(from + i) / 10},1.${from + i}`);
    const names = Array.from({ length: 80 }, (_, i) => `strip ${i}`);
    const lines = [
      'strip,step,log_exposure,density',
      ...names.flatMap((name) => rows(name, 1)),
      ...rows('strip 0', 4),
    ];
    const files = { 'many.csv': lines.join('\n'), '-': lines.join('\n') };
    const expected = readReadings(lines.join('\n')).strips.map(({ name, readings }) => ({
      name,
      densities: readings.map(({ density }) => density),
    }));
    for (const file of ['many.csv', '-']) {
      for (const to of ['csv', 'cgats']) {
        const { stdout, exitCode } = await ran(['convert', file, '--to', to], files);
        expect(exitCode).toBe(0);
        const { strips } = to === 'csv' ? readReadings(stdout) : readCgats(stdout);
        const got = strips.map(({ name, readings }) => ({
          name,
          densities: readings.map(({ density }) => density),
        }));
        expect(got, `${file} to ${to}`).toEqual(expected);
      }
    }
  });

  it.each<[string, string, string[]]>([
    ['a paper', PAPER_105, []],
    [
      'treated strips before and after their untreated one',
      TREATED_FIRST,
      ['--title', 'Bath\n"strips": []'],
    ],
    ['one tablet for all', TREATED, ['--source-log-exposure', '0.4']],
    ['strips with their setting', SETTINGS, ['--log-exposure', 'relative']],
  ])('makes of %s the notebook that holds them at once, strip by strip', async (_, text, words) => {
    const { stdout } = await ran(['convert', '-', '--to', 'json', ...words], { '-': text });
    const counts = { strip: 0, tablet: 0, paper: 0 };
    const { strips } = readReadings(text);
    const { document } = documentFromStrips(strips, {
      title: words[1]?.startsWith('Bath') === true ? words[1] : 'Readings of standard input',
      paperName: 'standard input',
      makeId: (kind) => `${kind}-${(counts[kind] += 1)}`,
      ...(words.includes('relative') && { logExposure: 'relative' }),
      ...(words.includes('0.4') && { sourceLogExposure: 0.4 }),
    });
    expect(stdout).toBe(notebookToText(document));
    expect(document.strips).toHaveLength(strips.length);
    const untreated = document.strips.filter(({ treatment }) => treatment === null);
    for (const { treatment } of document.strips) {
      if (treatment === null) continue;
      expect(untreated.map(({ id }) => id)).toContain(treatment.untreatedStripId);
    }
  });

  it('says so where a notebook is too long to be opened again', () => {
    const ended = (most: number) => {
      const held: string[] = [];
      const spool = {
        add: (text: string) => held.push(text),
        pieces: async function* () {
          await Promise.resolve();
          yield* held;
        },
        drop: () => undefined,
      };
      const sink = notebookSink(spool, {}, { makeId: (kind) => kind }, most);
      readReadings(SOFT_TOE).strips.forEach(sink.add);
      return sink.end().warnings.map(({ code }) => code);
    };
    expect(ended(1000)).toContain('notebook-too-long');
    expect(ended(50_000)).not.toContain('notebook-too-long');
  });

  it('writes nothing of a file that is bad at its end', async () => {
    const files = { 'bad.csv': `${SOFT_TOE.trimEnd()}\nB,22,-9,dark\n` };
    const { exitCode, stdout, written } = await ran(
      ['convert', 'bad.csv', '--to', 'cgats', '-o', 'out.txt'],
      files,
    );
    expect({ exitCode, stdout, written }).toEqual({ exitCode: 1, stdout: '', written: {} });
  });

  it('says beside the file what it cannot hold', async () => {
    const { stdout, stderr } = await converted('demo.json', '--to', 'csv');
    expect(stderr).toMatch(/holds strips alone/);
    expect(stdout).toMatch(/^strip,/);
    const { document } = JSON.parse(DEMO) as { document: { strips: unknown[] } };
    expect(readReadings(stdout).strips).toHaveLength(document.strips.length);
  });

  it('writes a file when asked, and a notebook to itself unchanged', async () => {
    const { written, stdout } = await converted('demo.json', '--to', 'json', '-o', 'copy.json');
    expect(stdout).toBe('copy.json written\n');
    expect(notebookFromText(written['copy.json'] ?? '').document).toEqual(
      notebookFromText(DEMO).document,
    );
  });

  it.each<[string, string[], number, RegExp]>([
    ['no format', ['b.csv'], 2, /--to is needed: csv, cgats, json/],
    ['another format', ['b.csv', '--to', 'xml'], 2, /--to xml is not known/],
    ['itself', ['b.csv', '--to', 'csv', '-o', 'b.csv'], 2, /cannot be the input/],
    ['decimal commas between commas', ['b.csv', '--to', 'csv', '--decimal-comma'], 2, /semicolon/],
    ['a missing file', ['none.csv', '--to', 'csv'], 1, /there is no such file/],
    [
      'a torn notebook',
      ['torn.json', '--to', 'csv'],
      1,
      /torn\.json: the text is not complete JSON/,
    ],
    ['another JSON', ['other.json', '--to', 'csv'], 1, /other\.json: this is not a saved notebook/],
    ['a torn exchange file', ['torn.txt', '--to', 'csv'], 1, /section DATA_FORMAT is missing/],
  ])('refuses %s', async (_what, words, code, message) => {
    const files = {
      ...FILES,
      'torn.json': DEMO.slice(0, 500),
      'other.json': '{"a":1}',
      'torn.txt': 'CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID D_VIS\n',
    };
    const { exitCode, stdout, stderr } = await ran(['convert', ...words], files);
    expect(stderr).toMatch(message);
    expect({ exitCode, stdout }).toEqual({ exitCode: code, stdout: '' });
  });
});

describe('a notebook as the file of any verb', () => {
  it.each([
    ['film', [] as string[]],
    ['paper', []],
    ['treat', []],
    ['times', []],
    ['plot', ['-o', '-']],
  ])('%s reads it', async (verb, words) => {
    const { exitCode, stdout, stderr } = await ran([verb, 'demo.json', ...words, '--json'], FILES);
    expect({ exitCode, stderr }).toEqual({ exitCode: 0, stderr: '' });
    // The notebook says what its exposures are: nothing is assumed.
    expect(stdout).not.toContain('exposure-assumed-absolute');
  });
});
