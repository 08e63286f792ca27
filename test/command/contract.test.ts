/** The built command, verb by verb: exit codes, streams, files. */
import { spawnSync } from 'node:child_process';
import {
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ensureBuilt, PROGRAM, ROOT, wedgebook } from './built-command.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'wedgebook-command-'));
const inFolder = (name: string) => path.join(folder, name);
const demo = (name: string) => `data/demo/${name}`;

beforeAll(ensureBuilt, 120_000);
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

/** The examples of every help page, as a shell would split them. */
function examples(): string[][] {
  const verbs = ['film', 'paper', 'match', 'treat', 'fit', 'plot', 'times', 'print', 'convert'];
  return verbs.flatMap((verb) => {
    const { stdout } = wedgebook([verb, '--help']);
    return [...stdout.matchAll(/^Example: wedgebook (.+)$/gm)].map(([, words = '']) =>
      [...words.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain ?? ''),
    );
  });
}

describe('the built command', () => {
  it('tells its version, the one of its package', () => {
    const { version } = JSON.parse(
      readFileSync(path.join(ROOT, 'packages/cli/package.json'), 'utf8'),
    ) as { version: string };
    expect(wedgebook(['--version'])).toEqual({
      exitCode: 0,
      stdout: `wedgebook ${version}\n`,
      stderr: '',
    });
  });

  it('carries out every example of its help, readable and as JSON', () => {
    const all = examples();
    expect(all.length).toBeGreaterThanOrEqual(7);
    for (const words of all) {
      const placed = words.map((word) => (word.endsWith('.svg') ? inFolder(word) : word));
      const { exitCode, stdout, stderr } = wedgebook(placed);
      expect(exitCode, `${words.join(' ')}: ${stderr}`).toBe(0);
      // Only a converted file has its warnings beside it, on standard error.
      expect(stderr, words.join(' ')).toMatch(words[0] === 'convert' ? /^(! .+\n)*$/ : /^$/);
      expect(stdout, words.join(' ')).not.toMatch(/NaN|undefined|\bnull\b/);
      if (words[0] === 'convert') continue;
      const json = wedgebook([...placed, '--json']);
      expect(json.exitCode, words.join(' ')).toBe(0);
      expect(typeof JSON.parse(json.stdout)).toBe('object');
      expect(json.stdout).not.toMatch(/NaN/);
    }
  });

  it('carries out the commands of the README', () => {
    const readme = readFileSync(path.join(ROOT, 'README.md'), 'utf8');
    const commands = [...readme.matchAll(/^ {4}npx wedgebook (.+)$/gm)].map(([, w = '']) => w);
    expect(commands.length).toBeGreaterThan(0);
    for (const words of commands) {
      const { exitCode, stderr } = wedgebook(words.split(' '));
      expect({ exitCode, stderr }, words).toEqual({ exitCode: 0, stderr: '' });
    }
  });

  it('reads a file and standard input alike', () => {
    const text = readFileSync(path.join(ROOT, demo('film-strips.csv')));
    const byFile = wedgebook(['film', demo('film-strips.csv'), '--json']);
    const byStream = wedgebook(['film', '-', '--json'], { input: text });
    expect(byStream.exitCode).toBe(0);
    expect(byStream.stdout).toBe(byFile.stdout);
  });

  it('draws a chart, draws it again over the old one, but replaces no other file', () => {
    const chart = inFolder('chart.svg');
    const draw = () => wedgebook(['plot', demo('film-strips.csv'), '-o', chart]).exitCode;
    expect([draw(), draw()]).toEqual([0, 0]);
    expect(readFileSync(chart, 'utf8')).toMatch(/<\/svg>\s*$/);
    const mine = inFolder('mine.csv');
    writeFileSync(mine, 'strip,density\n');
    const { exitCode, stdout, stderr } = wedgebook(['plot', demo('film-strips.csv'), '-o', mine]);
    expect(stderr).toMatch(/mine\.csv: a file of another kind is there already/);
    expect({ exitCode, stdout }).toEqual({ exitCode: 1, stdout: '' });
    expect(readFileSync(mine, 'utf8')).toBe('strip,density\n');
  });

  it('writes over no input, by whatever name', () => {
    const text = readFileSync(path.join(ROOT, demo('film-strips.csv')), 'utf8');
    writeFileSync(inFolder('own.csv'), text);
    symlinkSync(inFolder('own.csv'), inFolder('link.csv'));
    for (const output of ['./own.csv', inFolder('own.csv'), 'link.csv']) {
      const words = ['convert', 'own.csv', '--to', 'csv', '--separator', 'semicolon', '-o', output];
      const { exitCode, stdout, stderr } = wedgebook(words, { cwd: folder });
      expect(stderr).toMatch(/the output cannot be the input/);
      expect({ exitCode, stdout }).toEqual({ exitCode: 2, stdout: '' });
    }
    expect(readFileSync(inFolder('own.csv'), 'utf8')).toBe(text);
  });

  it.each<[string, string | Uint8Array, RegExp]>([
    ['an empty file', '', /the file is empty/],
    ['bytes of a picture', Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0, 0, 0, 13), /binary data/],
    ['text in another encoding', Uint8Array.of(0x73, 0xe9, 0x0a), /not UTF-8 text/],
    ['UTF-16', Uint8Array.of(0xff, 0xfe, 0x73, 0), /not UTF-8 text/],
    ['no header', '1,2\n3,4\n', /row 1: the first row has no column names/],
    ['text in a number', 'log_exposure,density\n-1,x\n', /row 2, column "density"/],
  ])('refuses %s with exit code 1, one line, and no output', (_what, bytes, message) => {
    const file = inFolder('bad.csv');
    writeFileSync(file, bytes);
    for (const words of [
      ['film', file],
      ['film', file, '--json'],
    ]) {
      const { exitCode, stdout, stderr } = wedgebook(words);
      expect(stderr).toMatch(message);
      expect(stderr).toContain('bad.csv');
      expect(stderr.trimEnd().split('\n')).toHaveLength(1);
      expect({ exitCode, stdout }).toEqual({ exitCode: 1, stdout: '' });
    }
  });

  it('refuses a missing file, a directory and a file of 200 MB at once', () => {
    mkdirSync(inFolder('folder'));
    const large = inFolder('large.csv');
    writeFileSync(large, 'strip,log_exposure,density\n');
    truncateSync(large, 200_000_000);
    for (const [verb, name, message] of [
      ['film', 'none.csv', /there is no such file/],
      ['film', 'folder', /the directory holds no file of readings/],
      // Read step by step, so that its size is no fault; what it holds is.
      ['film', 'large.csv', /binary data, not text/],
      ['paper', 'folder', /this is a directory/],
      ['paper', 'large.csv', /binary data, not text/],
    ] as const) {
      const began = Date.now();
      const { exitCode, stdout, stderr } = wedgebook([verb, inFolder(name)]);
      expect(stderr).toMatch(message);
      expect({ exitCode, stdout }).toEqual({ exitCode: 1, stdout: '' });
      expect(Date.now() - began, 'milliseconds until refused').toBeLessThan(10_000);
    }
  });

  it('ends quietly where the reader of its output has seen enough', () => {
    const rows = Array.from({ length: 400 }, (_, strip) =>
      [0, 1, 2, 3, 4, 5].map((i) => `S${strip},${i / 2 - 3},${0.1 + i * 0.2}`).join('\n'),
    );
    writeFileSync(inFolder('many.csv'), `strip,log_exposure,density\n${rows.join('\n')}\n`);
    const pipe = `"${process.execPath}" "${PROGRAM}" film many.csv --json | head -n 1; exit \${PIPESTATUS[0]}`;
    const { status, stdout, stderr } = spawnSync('bash', ['-c', pipe], {
      cwd: folder,
      encoding: 'utf8',
    });
    expect({ status, stdout, stderr }).toEqual({ status: 0, stdout: '{\n', stderr: '' });
  });

  it.each([[[]], [['nonsense']], [['film']], [['match']], [['print']]])(
    'calls %j wrong usage: exit code 2, standard error only',
    (words) => {
      const { exitCode, stdout, stderr } = wedgebook(words);
      expect(stderr).toMatch(/^wedgebook: .+--help\n$/);
      expect({ exitCode, stdout }).toEqual({ exitCode: 2, stdout: '' });
    },
  );
});
