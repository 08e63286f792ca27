import { csvParse } from 'd3-dsv';
import { describe, expect, it } from 'vitest';
import { ran } from '../memory-io.ts';
import { PAPER_105, SOFT_TOE } from './sample-files.ts';

const named = (name: string) => SOFT_TOE.replaceAll(/^B,/gm, `${name},`);
const FILES = {
  'dir/one.csv': named('A') + named('B').replace(/^.*\n/, ''),
  'dir/two.csv': named('C'),
  '-': named('D'),
  'bad.csv': 'strip,log_exposure,density\nA,-1,oops\n',
  'paper.csv': PAPER_105,
};

/** So many that a strip is handed on with one reading, long before its second row is read. */
const SIDE_BY_SIDE = Array.from({ length: 300 }, (_, index) => `S${index + 1}`);

/** A step of each strip, then the next step of each. */
function sideBySide(names: readonly string[]): string {
  const [head = '', ...rows] = SOFT_TOE.trimEnd().split('\n');
  const some = rows.filter((_, index) => index % 3 === 0);
  const each = some.flatMap((row) => names.map((name) => row.replace(/^B,/, `${name},`)));
  return [head, ...each].join('\n');
}

const lines = (stdout: string) =>
  stdout
    .trimEnd()
    .split('\n')
    .map(
      (line) =>
        JSON.parse(line) as {
          file: string;
          strip: string;
          gamma: { value: number };
          speed: { kind: string };
        },
    );

describe('film, many files', () => {
  it('takes files, directories and standard input, in the order given', async () => {
    const { exitCode, stdout } = await ran(['film', '-', 'dir', '--jsonl'], FILES);
    expect(exitCode).toBe(0);
    expect(lines(stdout).map(({ file, strip }) => `${file} ${strip}`)).toEqual([
      'standard input D',
      'dir/one.csv A',
      'dir/one.csv B',
      'dir/two.csv C',
    ]);
  });

  it('says the same by line, by document, and of one file alone', async () => {
    const [all, each, alone] = await Promise.all(
      [
        ['dir', '--json'],
        ['dir', '--jsonl'],
        ['dir/two.csv', '--json'],
      ].map((words) => ran(['film', ...words], FILES)),
    );
    const document = JSON.parse(all?.stdout ?? '') as { strips: unknown[] };
    expect(document.strips).toEqual(lines(each?.stdout ?? ''));
    const one = JSON.parse(alone?.stdout ?? '') as { strips: object[] };
    expect(one.strips[0]).not.toHaveProperty('file');
    expect(document.strips[2]).toEqual({ file: 'dir/two.csv', ...one.strips[0] });
    expect(alone?.stdout).toBe(`${JSON.stringify(one, null, 2)}\n`);
  });

  it('writes a table for other tools, numbers in full, errors beside them', async () => {
    const [csv, json] = await Promise.all([
      ran(['film', 'dir', '--csv'], FILES),
      ran(['film', 'dir', '--jsonl'], FILES),
    ]);
    const rows = csvParse(csv.stdout);
    const strips = lines(json.stdout);
    expect(rows.map(({ strip }) => strip)).toEqual(['A', 'B', 'C']);
    rows.forEach((row, index) => {
      expect(Number(row['gamma'])).toBe(strips[index]?.gamma.value);
      expect(Number(row['gamma_standard_error'])).toBeGreaterThan(0);
      expect(row['speed_kind']).toBe(strips[index]?.speed.kind);
    });
    expect(rows.columns).toContain('average_gradient_1_30');
  });

  it('measures strips whose rows lie side by side, though they are more than are held at a time', async () => {
    const names = SIDE_BY_SIDE;
    const [text, one] = [sideBySide(names), sideBySide(['S7'])];
    const files = { 'wide.csv': text, '-': text, 'alone.csv': one };
    const alone = await ran(['film', 'alone.csv', '--json'], files);
    const [expected] = (JSON.parse(alone.stdout) as { strips: object[] }).strips;
    for (const file of ['wide.csv', '-']) {
      const wide = await ran(['film', file, '--json'], files);
      const { strips } = JSON.parse(wide.stdout) as { strips: { strip: string }[] };
      expect(strips.map(({ strip }) => strip)).toEqual(names);
      expect(strips[6]).toEqual(expected);
      // Line by line there is no going back: that the file must be sorted is said, not that a
      // strip has too few steps.
      const lineByLine = await ran(['film', file, '--jsonl'], files);
      expect(lineByLine).toMatchObject({ exitCode: 1, stdout: '' });
      expect(lineByLine.stderr).toMatch(/row \d+: strip "S\d+" goes on after many others/);
    }
  });

  it('tells a strip with too few steps where no row of it follows', async () => {
    const text = `${named('A')}short,1,-1,0.5\n${named('C').replace(/^.*\n/, '')}`;
    const json = await ran(['film', '-', '--json'], { '-': text });
    const lineByLine = await ran(['film', '-', '--jsonl'], { '-': text });
    expect(json.stderr).toMatch(/row 23, column "density": strip "short" has 1 usable step/);
    expect(json).toMatchObject({ exitCode: 1, stdout: '' });
    expect(lineByLine).toMatchObject({ exitCode: 1, stderr: json.stderr });
  });

  it('stops at a bad file, or tells it and goes on where that is asked', async () => {
    const stopped = await ran(['film', 'bad.csv', 'dir', '--jsonl'], FILES);
    expect(stopped).toMatchObject({ exitCode: 1, stdout: '' });
    expect(stopped.stderr).toMatch(/bad\.csv, row 2, column "density"/);
    const whole = await ran(['film', 'dir', 'bad.csv', '--json'], FILES);
    expect(whole).toMatchObject({ exitCode: 1, stdout: '' });
    const words = ['film', 'bad.csv', 'dir', '--jsonl', '--keep-going'];
    const went = await ran(words, FILES);
    expect(went.exitCode).toBe(1);
    expect(lines(went.stdout)).toHaveLength(3);
    expect(went.stderr).toMatch(/^.*bad\.csv.*\n$/);
  });

  it('passes over a file of paper strips among others, and says so for that file', async () => {
    const words = ['film', 'paper.csv', 'dir'];
    const told = /paper\.csv: ! One strip of another material \(paper\) took no part/;
    const text = await ran(words, FILES);
    expect(text).toMatchObject({ exitCode: 0, stderr: '' });
    expect(text.stdout).toMatch(told);
    expect(text.stdout).toMatch(/Strip C/);
    const json = await ran([...words, '--json'], FILES);
    const document = JSON.parse(json.stdout) as { strips: object[]; warnings: object[] };
    expect(json.exitCode).toBe(0);
    expect(document.strips).toHaveLength(3);
    expect(document.warnings).toEqual([
      expect.objectContaining({ file: 'paper.csv', code: 'strips-left-out' }),
    ]);
    const byLine = await ran([...words, '--jsonl'], FILES);
    expect(byLine).toMatchObject({ exitCode: 0 });
    expect(lines(byLine.stdout)).toHaveLength(3);
    expect(byLine.stderr).toMatch(told);
    // A strip that goes on after many others makes the whole file be read again.
    const scattered = await ran(['film', 'paper.csv', 'wide.csv', '--json'], {
      ...FILES,
      'wide.csv': sideBySide(SIDE_BY_SIDE),
    });
    expect(scattered.exitCode).toBe(0);
    expect(scattered.stdout).toContain('"strips-left-out"');
  });

  it('fails where no file holds film, however many there are', async () => {
    for (const words of [
      ['paper.csv'],
      ['paper.csv', 'more.csv'],
      ['paper.csv', 'more.csv', '--json'],
      ['paper.csv', 'more.csv', '--jsonl'],
      ['paper.csv', 'more.csv', '--csv'],
    ]) {
      const files = { ...FILES, 'more.csv': PAPER_105 };
      const { exitCode, stdout, stderr } = await ran(['film', ...words], files);
      expect({ exitCode, stdout }).toEqual({ exitCode: 1, stdout: '' });
      expect(stderr).toMatch(/there is no film strip .*; all .* are paper\. Measure them with/);
    }
  });

  it.each([
    ['two outputs', ['film', 'dir', '--json', '--csv'], /only one of/],
    ['a comparison without columns', ['film', 'dir', '--csv', '--compare'], /no columns/],
    ['standard input twice', ['film', '-', '-'], /only once/],
    ['going on without lines', ['film', 'dir', '--keep-going'], /needs --jsonl or --csv/],
  ])('refuses %s', async (_what, words, fault) => {
    const { exitCode, stdout, stderr } = await ran(words, FILES);
    expect({ exitCode, stdout }).toEqual({ exitCode: 2, stdout: '' });
    expect(stderr).toMatch(fault);
  });

  it('reads notebooks and CGATS.17 among the files', async () => {
    const { written } = await ran(
      ['convert', 'dir/one.csv', '--to', 'cgats', '-o', 'one.txt'],
      FILES,
    );
    const files = { ...FILES, 'one.txt': written['one.txt'] ?? '' };
    const { stdout } = await ran(['film', 'one.txt', 'dir/one.csv', '--jsonl'], files);
    const [a, b, c, d] = lines(stdout);
    expect([a?.gamma, b?.gamma]).toEqual([c?.gamma, d?.gamma]);
  });
});
