import { describe, expect, it } from 'vitest';
import { expectWithin, printedTo } from '../../../../test/within.ts';
import { ran } from '../memory-io.ts';

interface PrintJson {
  readonly seconds: number | null;
  readonly stops: number;
  readonly changes: readonly { readonly change: string; readonly seconds: number }[];
  readonly burnSeconds: number;
  readonly dodgeSeconds: number;
  readonly testStrip: readonly { readonly totalSeconds: number }[];
  readonly exposureScaleWithFlash: number;
}
async function print(...words: string[]): Promise<PrintJson> {
  const { exitCode, stdout, stderr } = await ran(['print', ...words, '--json']);
  expect({ exitCode, stderr }).toEqual({ exitCode: 0, stderr: '' });
  return JSON.parse(stdout) as PrintJson;
}

describe('print', () => {
  it('[Clerc, published] 12 s at density 1.5 are 30 s at 1.9', async () => {
    const { seconds } = await print(
      '--seconds',
      '12',
      '--from-density',
      '1.5',
      '--to-density',
      '1.9',
    );
    expectWithin(seconds!, 30.14, printedTo(2), 'seconds');
  });

  it('[published] magnification 2 to 4 takes 2.7778 times as long, 2 to 2.8 1.6044', async () => {
    for (const [to, factor] of [
      ['4', 2.7778],
      ['2.8', 1.6044],
    ] as const) {
      const words = ['--from-magnification', '2', '--to-magnification', to];
      expectWithin((await print('--seconds', '1', ...words)).seconds!, factor, printedTo(4), to);
    }
  });

  it('[published] 25.4 s: a third of a stop held back is 5.2 s, half a stop burnt in 10.5 s', async () => {
    const { dodgeSeconds, burnSeconds } = await print(
      '--seconds',
      '25.4',
      '--dodge',
      '1/3',
      '--burn',
      '1/2',
    );
    expectWithin(dodgeSeconds, 5.2, printedTo(1), 'dodge');
    expectWithin(burnSeconds, 10.5, printedTo(1), 'burn');
  });

  it('[published] a strip from 4 s in thirds of a stop', async () => {
    const { testStrip } = await print('--seconds', '4', '--test-strip', '10');
    const published = [4, 5.04, 6.35, 8, 10.08, 12.7, 16, 20.16, 25.4, 32];
    published.forEach((seconds, i) => {
      expectWithin(testStrip[i]!.totalSeconds, seconds, printedTo(2), `patch ${i + 1}`);
    });
  });

  it('[derived] a flash of half the threshold makes an exposure scale of 1.05 R 133.1', async () => {
    const { exposureScaleWithFlash, seconds } = await print('--flash', '0.5', '--scale', '1.05');
    expectWithin(100 * exposureScaleWithFlash, 133.1, printedTo(1), 'R');
    expect(seconds).toBeNull();
  });

  it('makes several changes in turn and tells the stops in all', async () => {
    const { changes, stops } = await print(
      '--seconds',
      '10',
      '--from-density',
      '1',
      '--to-density',
      '1.3',
      '--from-magnification',
      '2',
      '--to-magnification',
      '4',
      '--stops',
      '-1',
    );
    expect(changes.map(({ change }) => change)).toEqual(['density', 'magnification', 'stops']);
    expectWithin(stops, 0.3 / Math.log10(2) + Math.log2((5 / 3) ** 2) - 1, 1e-9, 'stops');
  });

  it('reads as a table', async () => {
    const { stdout } = await ran([
      'print',
      '--seconds',
      '16',
      '--stops',
      '1/2',
      '--test-strip',
      '3',
    ]);
    // 16 s and half a stop more: 6.6 s on top (published).
    expect(stdout).toMatch(/time now +16\.00 s\n +stops +22\.63 s +0\.50 stops in all\n/);
    expect(stdout).toMatch(/patch +seconds in all +seconds to add\n +1 +22\.63 +22\.63\n/);
  });
});
