import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { ran } from '../memory-io.ts';

/** Generated strips: logistic papers of net 2.00 with their threshold at log exposure -0.40. */
const steps = Array.from({ length: 23 }, (_, i) => 0.05 + 0.1 * i);
const graded = (settings: readonly (readonly [string, number])[]) =>
  [
    'strip,material,tablet_density,density,setting',
    ...settings.flatMap(([setting, scale]) => {
      const foot = Math.log(0.04 / 1.96);
      const k = (Math.log(9) - foot) / scale;
      return steps
        .map((tablet) => {
          const x = -tablet + 1.8;
          const density = 0.06 + 2 / (1 + Math.exp(-(k * x + foot)));
          return `s${setting},paper,${tablet.toFixed(2)},${density.toFixed(4)},${setting}`;
        })
        .concat(`s${setting},paper,,0.0600,${setting}`);
    }),
  ].join('\n');
const GRADES = graded([
  ['1', 1.3],
  ['2', 1.1],
  ['3', 0.9],
  ['4', 0.7],
]);

/** Three layers of contrast 12 under soft light (10 s), hard light (8 s) and both. */
const LAYERS = [0.2, -0.5, -1.1];
const mixed = (soft: number, hard: number) => (tablet: number) =>
  0.06 +
  LAYERS.reduce((sum, speed) => {
    const light = 10 ** -tablet * (hard * 10 ** 0.4 + soft * 10 ** speed);
    return sum + (light > 0 ? 2 / 3 / (1 + Math.exp(-12 * Math.log10(light))) : 0);
  }, 0);
const SPLIT = [
  'strip,material,tablet_density,density,soft_seconds,hard_seconds',
  ...(
    [
      ['soft', 10, 0],
      ['hard', 0, 8],
      ['both', 5, 2],
    ] as const
  ).flatMap(([name, soft, hard]) =>
    Array.from({ length: 25 }, (_, i) => 0.05 + 0.12 * i)
      .map(
        (tablet) =>
          `${name},paper,${tablet.toFixed(2)},${mixed(soft, hard)(tablet).toFixed(4)},${soft},${hard}`,
      )
      .concat(`${name},paper,,0.0600,${soft},${hard}`),
  ),
].join('\n');
const FILES = { 'g.csv': GRADES, 's.csv': SPLIT };

async function json<T>(...words: string[]): Promise<T> {
  const { exitCode, stdout, stderr } = await ran([...words, '--json'], FILES);
  expect({ exitCode, stderr }).toEqual({ exitCode: 0, stderr: '' });
  return JSON.parse(stdout) as T;
}
interface Value {
  readonly value: number;
  readonly interval?: readonly number[];
}
interface Printed {
  readonly match: { readonly status: string; readonly position: Value } | null;
  readonly setting: { readonly setting: string; readonly shadowPrintDensity: number } | null;
  readonly baseSeconds: Value | null;
  readonly split: { readonly softSeconds: Value; readonly hardSeconds: Value } | null;
  readonly three: { readonly rootMeanSquare: number } | null;
  readonly burn: { readonly hardPart: number; readonly tones: readonly unknown[] } | null;
  readonly testPlan: { readonly soft: readonly { readonly totalSeconds: number }[] } | null;
  readonly table: readonly { readonly kind: string; readonly timerSeconds: number }[];
}

describe('print --paper, strips by setting', () => {
  const tones = ['--paper', 'g.csv', '--shadow', '0.3', '--highlight', '1.4'];

  it('[ISO6846] finds the setting whose scale is the range, and its seconds', async () => {
    const print = await json<Printed>('print', ...tones, '--strip-seconds', '4');
    expect(print.match!.status).toBe('ok');
    expectWithin(print.match!.position.value, 2, 0.05, 'setting');
    expect(print.setting!.setting).toBe('2');
    // Threshold at 1.8 below the open light, highlight of 1.40: 4 s x 10^(1.4 - 1.8).
    expectWithin(print.baseSeconds!.value, 4 * 10 ** -0.4, 0.03, 'seconds');
    expect(print.table).toMatchObject([{ kind: 'whole' }]);
  });

  it('takes size, aperture and dry-down as one factor', async () => {
    const plain = await json<Printed>('print', ...tones, '--strip-seconds', '4');
    const other = await json<Printed>(
      'print',
      ...tones,
      ...['--strip-seconds', '4', '--from-magnification', '2', '--to-magnification', '4'],
      ...['--from-aperture', '8', '--to-aperture', '11', '--dry-down', '10'],
    );
    const factor = (5 / 3) ** 2 * (11 / 8) ** 2 * 0.9;
    expectWithin(other.baseSeconds!.value / plain.baseSeconds!.value, factor, 1e-9, 'factor');
  });

  it('takes a setting that is asked for, and shows what the shadow becomes', async () => {
    const print = await json<Printed>('print', ...tones, '--setting', '2½');
    expect(print.setting!.setting).toBe('2½');
    expect(print.setting!.shadowPrintDensity).toBeGreaterThan(1.86);
    const outside = await ran(['print', ...tones, '--setting', '9'], FILES);
    expect(outside.exitCode).toBe(2);
    expect(outside.stderr).toMatch(/lies outside the strips, which have 1, 2, 3, 4/);
  });

  it('reads as a table', async () => {
    const words = ['print', ...tones, '--strip-seconds', '4', '--areas', 'fog:2:1/2,pier:2:-1/3'];
    const { exitCode, stdout, stderr } = await ran(words, FILES);
    expect({ exitCode, stderr }).toEqual({ exitCode: 0, stderr: '' });
    expect(stdout).toMatch(/setting used +2 +the highlight held, the shadow prints 1\.8/);
    expect(stdout).toMatch(/expose +2 +1\.60/);
    expect(stdout).toMatch(/hold back +2 +pier +-0\.33/);
    expect(stdout).toMatch(/burn in +2 +fog +0\.50/);
    expect(stdout).not.toMatch(/NaN|undefined|null/);
  });

  it.each([
    [['--shadow', '1.4', '--highlight', '0.3'], /highlight is thinner than the shadow/],
    [
      ['--shadow', '0.3', '--highlight', '1.4', '--print-shadow', '2.6'],
      /shadow lies outside this paper.*between these/,
    ],
    [
      ['--shadow', '0.3', '--highlight', '1.4', '--print-highlight', '0.02'],
      /highlight lies outside this paper/,
    ],
    [
      ['--shadow', '0.3', '--highlight', '1.4', '--print-shadow', '0.2', '--print-highlight', '1'],
      /highlight should print darker/,
    ],
    [['--shadow', '0.3', '--highlight', '2.4'], /asks for softer paper.*nearest is setting 1/],
    [['--shadow', '0.3', '--highlight', '0.7'], /asks for harder paper.*nearest is setting 4/],
  ] as const)('refuses %j with the reason and the nearest', async (words, reason) => {
    const { exitCode, stdout, stderr } = await ran(['print', '--paper', 'g.csv', ...words], FILES);
    expect({ exitCode, stdout }).toEqual({ exitCode: 1, stdout: '' });
    expect(stderr).toMatch(reason);
  });

  it('refuses a soft strip harder than the hard one', async () => {
    const files = {
      'x.csv': graded([
        ['1', 0.7],
        ['3', 1.1],
        ['5', 0.6],
      ]),
      'y.csv': SPLIT.replaceAll('soft,paper', 'hold,paper')
        .replaceAll(/,10,0$/gm, ',0,10')
        .replaceAll(/,0,8$/gm, ',8,0'),
    };
    for (const file of ['x.csv', 'y.csv']) {
      const words = ['print', '--paper', file, '--shadow', '0.3', '--highlight', '1.2'];
      const { exitCode, stderr } = await ran(words, files);
      expect(exitCode).toBe(1);
      expect(stderr).toMatch(/should be softer than .*Check that the two are not exchanged/);
    }
  });

  it('wants both spots, and a paper for what needs one', async () => {
    expect((await ran(['print', '--paper', 'g.csv'], FILES)).exitCode).toBe(2);
    const idle = await ran(['print', '--seconds', '5', '--setting', '2'], FILES);
    expect(idle.stderr).toMatch(/--setting needs --paper/);
    const burn = await ran(['print', ...tones, '--burn-hard', '1'], FILES);
    expect(burn.stderr).toMatch(/need strips with soft_seconds and hard_seconds/);
  });
});

describe('print --paper, soft and hard light', () => {
  const tones = ['--paper', 's.csv', '--shadow', '0.3', '--highlight', '1.4'];
  it('gives seconds of both that print both tones by the true paper', async () => {
    const print = await json<Printed>(
      'print',
      ...tones,
      ...['--print-shadow', '1.8', '--print-highlight', '0.15'],
    );
    const { softSeconds, hardSeconds } = print.split!;
    const truth = mixed(softSeconds.value, hardSeconds.value);
    expectWithin(truth(1.4), 0.15, 0.005, 'highlight');
    expectWithin(truth(0.3), 1.8, 0.005, 'shadow');
    expect(softSeconds.interval![0]).toBeLessThan(softSeconds.value);
  });

  it('plans strips, burns in, takes a third tone and makes the table', async () => {
    const print = await json<Printed>(
      'print',
      ...tones,
      ...['--middle', '0.8:0.7', '--burn-hard', '1', '--test-strip', '5', '--step', '1/4'],
      ...['--areas', 'fog:soft:1/2', '--timer', '0.5'],
    );
    expect(print.three!.rootMeanSquare).toBeGreaterThan(0);
    expect(print.burn!.hardPart).toBe(1);
    expect(print.burn!.tones).toHaveLength(5);
    expectWithin(
      print.testPlan!.soft[2]!.totalSeconds,
      print.split!.softSeconds.value,
      1e-9,
      'mid',
    );
    expect(print.table.map(({ kind }) => kind)).toEqual(['whole', 'whole', 'burn']);
    const { stdout } = await ran(
      ['print', ...tones, '--middle', '0.8:0.7', '--burn-hard', '1', '--test-strip', '5'],
      FILES,
    );
    expect(stdout).toMatch(/What one stop more of each light does/);
    expect(stdout).toMatch(/Second, soft light \S+ s all over, then hard/);
    expect(stdout).not.toMatch(/NaN|undefined|null/);
  });

  it.each([
    ['--middle', '0.8', /is not clear; write the densities/],
    ['--areas', 'fog:blue:1', /is not clear; write area:light:stops/],
    ['--test-strip', '4', /odd number/],
  ])('refuses %s %s', async (name, value, reason) => {
    const { exitCode, stderr } = await ran(['print', ...tones, name, value], FILES);
    expect(exitCode).toBe(2);
    expect(stderr).toMatch(reason);
  });

  it('says when no light is soft enough, and what the nearest prints', async () => {
    const words = ['print', '--paper', 's.csv', '--shadow', '0.1', '--highlight', '2.9'];
    const { exitCode, stderr } = await ran(words, FILES);
    expect(exitCode).toBe(1);
    expect(stderr).toMatch(/softer light than soft light alone.*shadow prints \d\.\d\d/);
  });
});

describe('paper, several strips', () => {
  it('maps settings, and answers for a setting and for a scale between them', async () => {
    const paper = await json<{
      readonly settings: readonly { readonly setting: string; readonly exposureScale: Value }[];
      readonly atSetting: { readonly exposureScale: Value };
      readonly forScale: { readonly status: string; readonly position: Value };
    }>('paper', 'g.csv', '--setting', '2.5', '--scale', '1.0');
    expect(paper.settings.map(({ setting }) => setting)).toEqual(['1', '2', '3', '4']);
    expectWithin(paper.settings[0]!.exposureScale.value, 1.3, 0.03, 'scale of 1');
    expectWithin(paper.atSetting.exposureScale.value, 1, 0.03, 'scale of 2½');
    expectWithin(paper.forScale.position.value, 2.5, 0.15, 'setting of 1.00');
    const far = await ran(['paper', 'g.csv', '--scale', '2'], FILES);
    expect(far.stdout).toMatch(/softer than any strip; the nearest is 1/);
  });

  it('prints the layers with errors, and each strip predicted from the others', async () => {
    const paper = await json<{
      readonly variableContrast: {
        readonly parameters: readonly { readonly name: string; readonly standardError: number }[];
        readonly leftOut: readonly {
          readonly name: string;
          readonly rootMeanSquare: number | null;
        }[];
      };
    }>('paper', 's.csv');
    expect(paper.variableContrast.parameters.map(({ name }) => name)).toContain('hardLogSpeed');
    for (const { standardError } of paper.variableContrast.parameters) {
      expect(standardError).toBeGreaterThan(0);
    }
    const both = paper.variableContrast.leftOut.find(({ name }) => name === 'both');
    expect(both!.rootMeanSquare).toBeLessThan(0.01);
    const { stdout } = await ran(['paper', 's.csv'], FILES);
    expect(stdout).toMatch(/Each strip predicted from the others, print density/);
    expect(stdout).not.toMatch(/NaN|undefined|null/);
  });
});

describe('treat --ways with the paper under both lights', () => {
  const words = ['treat', '--range', '0.74', '--to-grade', '3', '--dilution', '1+1', '--ways'];

  it('reckons the split exposure on it: seconds of its own filters, no stops', async () => {
    interface Ways {
      readonly waysOut: {
        readonly ways: readonly {
          readonly way: string;
          readonly split: { readonly origin: string; readonly softTimeShare: number } | null;
          readonly exposureChangeStops: unknown;
        }[];
      };
    }
    const { waysOut } = await json<Ways>(...words, '--split-paper', 's.csv');
    const split = waysOut.ways.find(({ way }) => way === 'split-exposure')!;
    expect(split).toMatchObject({ split: { origin: 'own' }, exposureChangeStops: null });
    expect(split.split!.softTimeShare).toBeGreaterThan(0);
    expect(split.split!.softTimeShare).toBeLessThan(1);
  });

  it('refuses a paper without lights', async () => {
    const { exitCode, stderr } = await ran([...words, '--split-paper', 'g.csv'], FILES);
    expect(exitCode).toBe(2);
    expect(stderr).toContain('soft_seconds and hard_seconds');
  });
});
