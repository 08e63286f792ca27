import { describe, expect, it } from 'vitest';
import { expectWithin, printedTo } from '../../../../test/within.ts';
import { ran } from '../memory-io.ts';

interface Estimate {
  readonly value: number;
  readonly standardError: number | null;
}
interface TimesJson {
  readonly contrastModel: {
    readonly family: string;
    readonly contrastInfinity: Estimate;
    readonly rate: Estimate;
    readonly delayMinutes: Estimate;
  } | null;
  readonly strips: readonly {
    readonly strip: string;
    readonly minutes: number;
    readonly contrast: Estimate;
    readonly exposureIndex: Estimate | null;
  }[];
  readonly plan: readonly {
    readonly development: string;
    readonly contrast: Estimate;
    readonly minutes: Estimate | null;
    readonly exposureIndex: Estimate | null;
    readonly reachable: boolean;
  }[];
  readonly warnings: readonly { readonly code: string }[];
}

/** Strips whose gamma follows c_inf (1 - exp(-k t)) with the constants of one plate of 1920. */
const LIMIT = 1.45;
const RATE = 0.32;
const softplus = (z: number): number => Math.log1p(Math.exp(z));
function strips(times: readonly number[], celsius = 20): string {
  const rows = times.flatMap((minutes) =>
    Array.from({ length: 21 }, (_, index) => {
      const x = -3 + 0.15 * index;
      const gamma = LIMIT * (1 - Math.exp(-RATE * minutes));
      const density = 0.1 + gamma * 0.2 * softplus((x + 2) / 0.2);
      return `${minutes} min,${x.toFixed(2)},${density.toFixed(5)},${minutes},${celsius}`;
    }),
  );
  return `strip,log_exposure,density,minutes,celsius\n${rows.join('\n')}\n`;
}

async function times(text: string, ...words: string[]): Promise<TimesJson> {
  const { exitCode, stdout, stderr } = await ran(['times', '-', '--json', ...words], { '-': text });
  expect({ exitCode, stderr }).toEqual({ exitCode: 0, stderr: '' });
  return JSON.parse(stdout) as TimesJson;
}
const codes = ({ warnings }: TimesJson) => warnings.map(({ code }) => code);

describe('times', () => {
  it('[Ives 1920 constants, published] finds the law that made the strips', async () => {
    const found = await times(strips([2, 3, 5, 8]), '--measure', 'gamma');
    expect(found.contrastModel?.family).toBe('first-order');
    expectWithin(found.contrastModel!.contrastInfinity.value, LIMIT, 0.01, 'limit');
    expectWithin(found.contrastModel!.rate.value, RATE, 0.01, 'rate');
    expectWithin(found.contrastModel!.delayMinutes.value, 0, 0.05, 'delay');
    expect(found.strips.map(({ minutes }) => minutes)).toEqual([2, 3, 5, 8]);
    found.strips.forEach(({ contrast, minutes }) => {
      expectWithin(contrast.value, LIMIT * (1 - Math.exp(-RATE * minutes)), 0.005, 'gamma');
    });
  });

  it('[derived] plans N-2 to N+2 by the ratios of half the limit', async () => {
    const found = await times(
      strips([1.5, 2, 3, 4]),
      '--measure',
      'gamma',
      '--target',
      String(LIMIT / 2),
    );
    const minutes = (development: string) =>
      found.plan.find((row) => row.development === development)!.minutes!.value;
    expect(found.plan.map(({ development }) => development)).toEqual([
      'N-2',
      'N-1',
      'N',
      'N+1',
      'N+2',
    ]);
    expectWithin(minutes('N'), Math.LN2 / RATE, 0.02, 'N');
    // Time ratios for f = 0.5, printed to three decimals; the strips carry rounded densities.
    for (const [development, ratio] of [
      ['N-2', 0.71],
      ['N-1', 0.83],
      ['N+1', 1.263],
      ['N+2', 1.737],
    ] as const) {
      const tolerance = printedTo(3) + 0.01;
      expectWithin(minutes(development) / minutes('N'), ratio, tolerance, development);
    }
  });

  it('[Ferguson & Howard 1905] shortens the time by the coefficient for 10 °C', async () => {
    const text = strips([2, 3, 5, 8]);
    const words = ['--measure', 'gamma', '--target', '0.8', '--temperature-coefficient', '2'];
    const at20 = (await times(text, ...words)).plan[2]!.minutes!.value;
    const at25 = (await times(text, ...words, '--celsius', '25')).plan[2]!.minutes!.value;
    expectWithin(at25, at20 * 2 ** -0.5, 1e-9, 'minutes at 25');
  });

  it('says what is out of reach', async () => {
    const found = await times(strips([2, 3, 5, 8]), '--measure', 'gamma', '--target', '1.2');
    expect(found.plan.at(-1)).toMatchObject({
      development: 'N+2',
      reachable: false,
      minutes: null,
    });
    expect(codes(found)).toContain('contrast-not-reachable');
  });

  it('says that one time is a guess, and two leave the delay open', async () => {
    expect(codes(await times(strips([5]), '--measure', 'gamma'))).toContain(
      'development-scaled-guess',
    );
    expect(codes(await times(strips([3, 6]), '--measure', 'gamma'))).toContain('delay-assumed');
  });

  it('says that contrast falls with time, and plans nothing', async () => {
    const exchanged = strips([2, 8])
      .replaceAll(/,2,20$/gm, ',x,20')
      .replaceAll(/,8,20$/gm, ',2,20')
      .replaceAll(/,x,20$/gm, ',8,20');
    const found = await times(exchanged, '--measure', 'gamma');
    expect(found).toMatchObject({ contrastModel: null, plan: [] });
    expect(codes(found)).toContain('contrast-falls-with-time');
  });

  it('gives no exposure index for relative exposures', async () => {
    const found = await times(
      strips([2, 3, 5]),
      '--measure',
      'gamma',
      '--log-exposure',
      'relative',
    );
    expect(found.strips.every(({ exposureIndex }) => exposureIndex === null)).toBe(true);
    expect(found.plan.every(({ exposureIndex }) => exposureIndex === null)).toBe(true);
  });

  it('leaves out strips without a time and treated strips, and says so', async () => {
    const extra = [-2, -1.5, -1, -0.5, 0]
      .flatMap((x, i) => [
        `loose,${x},${0.1 + 0.2 * i},,,`,
        `toned,${x},${0.1 + 0.2 * i},5,20,selenium`,
      ])
      .join('\n');
    const text = strips([2, 3, 5])
      .replace('celsius\n', 'celsius,treatment\n')
      .replaceAll(/,20$/gm, ',20,none');
    const found = await times(`${text}${extra}\n`, '--measure', 'gamma');
    expect(found.strips).toHaveLength(3);
    expect(codes(found)).toEqual(
      expect.arrayContaining(['development-time-missing', 'treated-left-out']),
    );
  });

  it('refuses a file without any development time', async () => {
    const text = strips([5]).replace(',minutes', ',operator_number');
    const { exitCode, stdout, stderr } = await ran(['times', '-'], { '-': text });
    expect(stderr).toMatch(/no strip gives both a development time and a contrast index/);
    expect({ exitCode, stdout }).toEqual({ exitCode: 1, stdout: '' });
  });

  it('reads as tables', async () => {
    const { stdout } = await ran(['times', '-'], { '-': strips([3, 5, 8, 12]) });
    expect(stdout).toMatch(/^Contrast against development time: contrast index\n/);
    expect(stdout).toMatch(/temperature coefficient +2\.50 +factor of speed for 10 °C; published/);
    expect(stdout).toMatch(/Plan at 20 °C; N is 0\.580: /);
    expect(stdout).not.toMatch(/NaN|undefined|null/);
  });
});
