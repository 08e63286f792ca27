import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { ran } from '../memory-io.ts';
import { SOFT_TOE, TREATED } from './sample-files.ts';

interface FitJson {
  readonly parameters: readonly {
    readonly name: string;
    readonly value: number;
    readonly standardError: number | null;
  }[];
  readonly residualStandardDeviation: number;
  readonly degreesOfFreedom: number;
  readonly residualSumOfSquares: number;
  readonly covariance: readonly (readonly number[])[];
  readonly predictions: readonly { readonly x: number; readonly value: number }[];
  readonly warnings: readonly { readonly code: string }[];
}

const RYEGRASS = readFileSync(
  new URL('../../../../test/published/tables/ryegrass.csv', import.meta.url),
  'utf8',
);
const LINE = 'time,reading,weight\n0,1,1\n1,3,1\n2,5,2\n3,7,1\n';
const FILES = { 'ryegrass.csv': RYEGRASS, 'line.csv': LINE };

async function fit(...words: string[]): Promise<FitJson> {
  const { exitCode, stdout, stderr } = await ran(['fit', ...words, '--json'], FILES);
  expect({ exitCode, stderr }).toEqual({ exitCode: 0, stderr: '' });
  return JSON.parse(stdout) as FitJson;
}

describe('fit', () => {
  it.each([
    ['a prediction where the model has no value', ['--predict=-1'], '--predict -1 lies outside'],
    ['a prediction at infinity', ['--predict', '1e400'], '--predict'],
    [
      'a start where the model has no value',
      ['--start', '1,0,8,-3'],
      '--start (b, c, d, e) lies outside',
    ],
    ['a start that is no number', ['--start', '1,0,8,x'], '--start takes a number'],
    ['a start too short', ['--start', '1,2'], '--start has 2 values'],
  ])('refuses %s, with the reason', async (_, words, reason) => {
    const { exitCode, stdout, stderr } = await ran(
      [
        ...['fit', 'ryegrass.csv', '--model', 'log-logistic-4', '--x', 'concentration_mmol'],
        ...['--y', 'root_length_cm', ...words],
      ],
      FILES,
    );
    expect({ exitCode, stdout }).toEqual({ exitCode: 2, stdout: '' });
    expect(stderr).toContain(reason);
  });

  it('[Inderjit 2002, published] finds the four-parameter log-logistic of the ryegrass data', async () => {
    const fitted = await fit(
      'ryegrass.csv',
      '--model',
      'log-logistic-4',
      '--x',
      'concentration_mmol',
      '--y',
      'root_length_cm',
    );
    // Published to five decimals; published optima stop at about 1e-5.
    const published = [2.98222, 0.48141, 7.79296, 3.05795];
    expect(fitted.parameters.map(({ name }) => name)).toEqual(['b', 'c', 'd', 'e']);
    published.forEach((value, i) => {
      expectWithin(fitted.parameters[i]!.value, value, 3e-5, fitted.parameters[i]!.name);
    });
    // Gauss-Newton errors, the kind that this project states (derived in the reference).
    [0.458429, 0.209506, 0.189733, 0.185829].forEach((error, i) => {
      expectWithin(fitted.parameters[i]!.standardError!, error, 2e-6, 'standard error');
    });
    expectWithin(fitted.residualStandardDeviation, 0.5196256, 1e-7, 'residual');
    expect(fitted.degreesOfFreedom).toBe(20);
    expectWithin(fitted.covariance[3]![3]!, 0.185829 ** 2, 1e-6, 'variance of e');
  });

  it('fits a straight line exactly, with weights and predictions', async () => {
    const fitted = await fit(
      'line.csv',
      '--model',
      'straight-line',
      '--x',
      'Time',
      '--y',
      'READING',
      '--weights',
      'weight',
      '--predict',
      '4,-1',
    );
    expectWithin(fitted.parameters[0]!.value, 1, 1e-9, 'intercept');
    expectWithin(fitted.parameters[1]!.value, 2, 1e-9, 'slope');
    expect(fitted.predictions.map(({ x }) => x)).toEqual([4, -1]);
    expectWithin(fitted.predictions[0]!.value, 9, 1e-9, 'at 4');
    expectWithin(fitted.predictions[1]!.value, -1, 1e-9, 'at -1');
  });

  it('takes a start, a robust loss, and semicolons with decimal commas', async () => {
    const text = 'x;y\n0;1,0\n1;3,0\n2;5,0\n3;7,0\n4;90,0\n5;11,0\n';
    const { exitCode, stdout } = await ran(
      [
        'fit',
        '-',
        '--model',
        'straight-line',
        '--x',
        'x',
        '--y',
        'y',
        '--robust',
        '--start',
        '0,1',
        '--json',
      ],
      { '-': text },
    );
    expect(exitCode).toBe(0);
    const { parameters } = JSON.parse(stdout) as FitJson;
    // One wild reading: least squares gives a slope near 6, the Huber loss stays near 2.
    expectWithin(parameters[1]!.value, 2, 1, 'slope');
  });

  it('[derived by hand] gives the interval of a straight line by hand', async () => {
    const text = 'x,y\n0,0\n1,1.2\n2,1.8\n3,3.2\n4,3.8\n';
    const { stdout } = await ran(
      [
        'fit',
        '-',
        '--model',
        'straight-line',
        '--x',
        'x',
        '--y',
        'y',
        '--predict',
        '2,6',
        '--json',
      ],
      { '-': text },
    );
    const { predictions } = JSON.parse(stdout) as {
      predictions: { value: number; standardError: number; interval: [number, number] }[];
    };
    // By hand: slope 0.96, intercept 0.08, rss 0.144 on 3, s = 0.219089; t(0.975, 3) = 3.182446;
    // standard error at x: s sqrt(1/5 + (x - 2)^2 / 10).
    const s = Math.sqrt(0.144 / 3);
    for (const [i, x] of [2, 6].entries()) {
      const error = s * Math.sqrt(1 / 5 + (x - 2) ** 2 / 10);
      expectWithin(predictions[i]!.value, 0.08 + 0.96 * x, 1e-9, 'value');
      expectWithin(predictions[i]!.standardError, error, 1e-9, 'standard error');
      expectWithin(predictions[i]!.interval[1], 0.08 + 0.96 * x + 3.182446 * error, 1e-5, 'upper');
    }
  });

  it('leaves out rows with an empty cell, and says so', async () => {
    const text = `${LINE}4,,1\n`;
    const { stdout } = await ran(
      ['fit', '-', '--model', 'straight-line', '--x', 'time', '--y', 'reading', '--json'],
      { '-': text },
    );
    const { warnings } = JSON.parse(stdout) as FitJson;
    expect(warnings.map(({ code }) => code)).toEqual(['rows-incomplete']);
  });

  it('reads as a table, with the covariance when asked', async () => {
    const { stdout } = await ran(
      [
        'fit',
        'ryegrass.csv',
        '--model',
        'log-logistic-4',
        '--x',
        'concentration_mmol',
        '--y',
        'root_length_cm',
        '--covariance',
      ],
      FILES,
    );
    expect(stdout).toMatch(/^log-logistic-4, fitted to 24 rows\n/);
    expect(stdout).toMatch(/ {2}e +3\.05795\d+ +0\.18582\d+\n/);
    expect(stdout).toMatch(/degrees of freedom +20\n/);
    expect(stdout).toMatch(/\ncovariance\n/);
  });

  it.each<[string, string, RegExp]>([
    ['a missing column', 'a,b\n1,2\n', /row 1: there is no column "x"/],
    ['text in a number', 'x,y\n1,2\n2,abc\n', /row 3, column "y": "abc" is not a number/],
    ['a decimal comma', 'x,y\n1,2\n2,3,5\n', /row 3: the row has 3 fields, the header 2.*decimal/],
    ['no rows', 'x,y\n', /no readings below the header/],
    [
      'too few rows',
      'x,y\n1,2\n',
      /column "x": there is 1 different value, the model has 2 parameters/,
    ],
    ['an empty file', '', /standard input: the file is empty/],
  ])('refuses %s', async (_what, text, message) => {
    const words = ['fit', '-', '--model', 'straight-line', '--x', 'x', '--y', 'y'];
    const { exitCode, stdout, stderr } = await ran(words, { '-': text });
    expect(stderr).toMatch(message);
    expect({ exitCode, stdout }).toEqual({ exitCode: 1, stdout: '' });
  });

  it.each([
    ['', 1],
    ['e-100', 1],
    ['e-200', 0],
    ['e-160', 0],
  ])(
    'fits numbers of size 1%s, or refuses them where their squares vanish',
    async (power, fits) => {
      const rows = [2, 3, 5, 6.5, 7].map((y, i) => `${i},${y}${power}`);
      const { exitCode, stdout, stderr } = await ran(
        ['fit', '-', '--model', 'straight-line', '--x', 'x', '--y', 'y', '--json'],
        { '-': `x,y\n${rows.join('\n')}\n` },
      );
      if (fits === 0) {
        expect(stderr).toMatch(/column "y": the numbers are too great or too small/);
        expect({ exitCode, stdout }).toEqual({ exitCode: 1, stdout: '' });
        return;
      }
      // By hand: slope S_xy / S_xx = 13.5 / 10.
      const slope = (JSON.parse(stdout) as FitJson).parameters[1]?.value ?? NaN;
      expectWithin(slope / Number(`1${power}`), 1.35, 1e-9);
    },
  );

  it.each(['log-logistic-3', 'log-logistic-4', 'weibull-4'])(
    'says which row of x lies where %s has no value',
    async (model) => {
      const words = ['fit', 'x.csv', '--model', model, '--x', 'dose', '--y', 'y'];
      const { exitCode, stdout, stderr } = await ran(words, {
        'x.csv': 'dose,y\n0,1\n,2\n1,2\n-2,3\n3,4\n4,5\n5,6\n',
      });
      expect(stderr).toMatch(/^wedgebook: x\.csv, row 5, column "dose": -2 is below 0, where /);
      expect({ exitCode, stdout }).toEqual({ exitCode: 1, stdout: '' });
    },
  );

  it('names the columns that there are beside the one that is missing', async () => {
    const { exitCode, stderr } = await ran(
      ['fit', '-', '--model', 'straight-line', '--x', 'dose', '--y', 'gain'],
      { '-': '# trial\nDose (min),gain\n1,2\n' },
    );
    expect(stderr).toMatch(
      /row 2: there is no column "dose"; the header has "Dose \(min\)", "gain"/,
    );
    expect(exitCode).toBe(1);
  });

  it('refuses a weight that is not above zero', async () => {
    const { exitCode, stderr } = await ran(
      ['fit', '-', '--model', 'straight-line', '--x', 'x', '--y', 'y', '--weights', 'w'],
      { '-': 'x,y,w\n1,2,1\n2,3,0\n3,4,1\n' },
    );
    expect(stderr).toMatch(/column "w": a weight is not above zero/);
    expect(exitCode).toBe(1);
  });
});

describe('plot', () => {
  it('writes one SVG with every strip named, and nothing on standard output but the note', async () => {
    const { exitCode, stdout, written } = await ran(['plot', 't.csv', '-o', 'chart.svg'], {
      't.csv': TREATED,
    });
    expect(exitCode).toBe(0);
    expect(stdout).toMatch(/^chart\.svg: 6 curves drawn\n/);
    const svg = written['chart.svg'] ?? '';
    expect(svg).toMatch(/^<\?xml version="1\.0" encoding="UTF-8"\?>\n<svg /);
    expect(svg.trimEnd()).toMatch(/<\/svg>$/);
    expect(svg).toContain('<title');
    expect(svg).not.toMatch(/NaN|Infinity|undefined|<script|<style/);
  });

  it('names the speed point of a single strip and takes a title', async () => {
    const { written } = await ran(
      ['plot', 'b.csv', '-o', 'b.svg', '--title', 'Fog & <river>', '--width', '640'],
      { 'b.csv': SOFT_TOE },
    );
    // Named for those who do not see it, and written for those who do.
    expect(written['b.svg']?.match(/Fog &amp; &lt;river&gt;/g)?.length).toBeGreaterThanOrEqual(2);
    expect(written['b.svg']).toContain('speed point');
    expect(written['b.svg']).toContain('width="640"');
  });

  it('says that the chart is SVG where its name promises another format', async () => {
    const files = { 'f.csv': SOFT_TOE };
    const told = await ran(['plot', 'f.csv', '-o', 'family.v2.png'], files);
    expect(told.exitCode).toBe(0);
    expect(told.stdout).toMatch(/^! family\.v2\.png holds SVG.* Name it family\.v2\.svg/m);
    for (const name of ['family.svg', 'family', '-']) {
      const { stdout, stderr } = await ran(['plot', 'f.csv', '-o', name], files);
      expect(stdout + stderr).not.toContain('holds SVG');
    }
  });

  it('writes the chart to standard output when asked', async () => {
    const { stdout, stderr, written } = await ran(['plot', '-', '-o', '-'], { '-': SOFT_TOE });
    expect(stdout).toMatch(/^<\?xml/);
    expect(stdout.trimEnd()).toMatch(/<\/svg>$/);
    expect(stderr).toMatch(/^! The log exposures were taken as absolute/);
    expect(written).toEqual({});
    const json = await ran(['plot', '-', '-o', '-', '--json'], { '-': SOFT_TOE });
    expect(json.stderr).toBe('');
    expect((JSON.parse(json.stdout) as { svg: string }).svg).toBe(stdout);
  });

  it('draws nothing where the file is at fault', async () => {
    const { exitCode, stdout, written } = await ran(['plot', 'x.csv', '-o', 'x.svg'], {
      'x.csv': 'strip,density\nA,1\n',
    });
    expect({ exitCode, stdout, written }).toEqual({ exitCode: 1, stdout: '', written: {} });
  });
});
