import { describe, expect, it } from 'vitest';
import { expectWithin, printedTo } from '../../../../test/within.ts';
import { ran } from '../memory-io.ts';
import { LIMIT, RATE, softplus, strips, timesOf } from './times-strips.ts';

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
    readonly temperatureCoefficient: Estimate & { readonly origin: string };
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

const times = timesOf<TimesJson>;
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

  it('names where the temperature coefficient is from: built in, given or fitted', async () => {
    const text = strips([2, 3, 5, 8]);
    const originOf = async (from: string, ...words: string[]) =>
      (await times(from, '--measure', 'gamma', ...words)).contrastModel?.temperatureCoefficient;
    const builtIn = await originOf(text);
    expect(builtIn).toMatchObject({ value: 2.5, standardError: null, origin: 'built-in' });
    expect(builtIn).toMatchObject({ known: 'published', verified: true });
    const own = await originOf(text, '--temperature-coefficient', '2');
    expect(own).toEqual({ value: 2, standardError: null, origin: 'given' });
    const warm = strips([2.5, 4], 24).split('\n').slice(1).join('\n');
    const fitted = await originOf(text + warm, '--temperature-coefficient', '2');
    expect(fitted).toMatchObject({ origin: 'fitted' });
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
    expect(stdout).toMatch(
      /temperature coefficient +2\.50 +factor of speed for 10 °C; built-in \(published, verified\)/,
    );
    expect(stdout).toMatch(/Plan at 20 °C; N is 0\.580: /);
    expect(stdout).not.toMatch(/NaN|undefined|null/);
  });
});

/** A strip of one contrast for drift: base + fog, a soft toe and the gamma of a time. */
function controls(days: readonly (readonly [string, number])[], marked = true): string {
  const rows = days.flatMap(([day, gamma], index) =>
    Array.from({ length: 21 }, (_, step) => {
      const x = -3 + 0.15 * step;
      const density = 0.1 + gamma * 0.2 * softplus((x + 2) / 0.2);
      return `control ${index + 1},${x.toFixed(2)},${density.toFixed(4)},8,20,${day},${marked ? 'yes' : ''}`;
    }),
  );
  return `strip,log_exposure,density,minutes,celsius,date,control\n${rows.join('\n')}\n`;
}

describe('times, by the paper', () => {
  const gammas = strips([1.5, 2, 3, 4, 6]);

  it('[derived, Jones 1920] asks for exposure scale over image range: 1.05 / (7 - 1 stops) is 0.581', async () => {
    const found = await times(gammas, '--measure', 'gamma', '--scale', '1.05', '--flare', '1');
    const byName = (name: string) => found.plan.find((row) => row.development === name)!;
    expectWithin(byName('N').contrast.value, 1.05 / (6 * Math.log10(2)), 1e-9, 'N');
    // One stop less of subject on the same paper, flare the same.
    expectWithin(byName('N+1').contrast.value, 1.05 / (5 * Math.log10(2)), 1e-9, 'N+1');
    expectWithin(byName('N-2').contrast.value, 1.05 / (8 * Math.log10(2)), 1e-9, 'N-2');
  });

  it('asks a condenser enlarger for less, and a longer subject too', async () => {
    const words = ['--measure', 'gamma', '--scale', '1.05', '--flare', '0'];
    const contrast = async (...more: string[]) =>
      (await times(gammas, ...words, ...more)).plan[2]!.contrast.value;
    const plain = await contrast();
    expectWithin(await contrast('--callier', '1.25'), plain / 1.25, 1e-9);
    expectWithin(await contrast('--subject-range', '8'), (plain * 7) / 8, 1e-9);
  });

  it('counts the error of a measured Callier factor in the minutes', async () => {
    const words = ['--measure', 'gamma', '--scale', '1.05', '--flare', '0', '--callier', '1.25'];
    const minutes = async (...more: string[]) =>
      (await times(gammas, ...words, ...more)).plan.find(({ development }) => development === 'N')!
        .minutes!;
    const [plain, more] = [await minutes(), await minutes('--callier-error', '0.05')];
    expect(more.value).toBe(plain.value);
    expect(more.standardError ?? 0).toBeGreaterThan((plain.standardError ?? 0) + 0.01);
  });

  it('takes the contrast of a time as N', async () => {
    const found = await times(gammas, '--measure', 'gamma', '--normal', '2.5', '--span', '1');
    expect(found.plan.map(({ development }) => development)).toEqual(['N-1', 'N', 'N+1']);
    expectWithin(found.plan[1]!.minutes!.value, 2.5, 1e-6);
  });

  it('plans N-3 to N+3, and again at other temperatures', async () => {
    const found = (await times(
      gammas,
      ...['--measure', 'gamma', '--span', '3', '--celsius', '20,24'],
      ...['--temperature-coefficient', '2', '--target', '0.7'],
    )) as TimesJson & {
      readonly otherTemperatures: readonly { celsius: number; plan: TimesJson['plan'] }[];
    };
    expect(found.plan.map(({ development }) => development)).toEqual(
      'N-3 N-2 N-1 N N+1 N+2 N+3'.split(' '),
    );
    const [warm] = found.otherTemperatures;
    expect(warm!.celsius).toBe(24);
    expectWithin(warm!.plan[3]!.minutes!.value, found.plan[3]!.minutes!.value * 2 ** -0.4, 1e-9);
  });

  it('gives each time an interval, each index its error, and what to test next', async () => {
    const found = (await times(gammas, '--measure', 'gamma', '--target', '0.7')) as never as {
      readonly plan: readonly {
        readonly minutes: Estimate & { readonly interval: readonly [number, number] };
        readonly exposureIndex: { readonly degrees: number; readonly standardErrorStops: number };
      }[];
      readonly nextTest: { readonly errorNow: number; readonly errorAfter: number };
      readonly surface: { readonly leaveOneOutError: number };
      readonly strips: readonly { readonly leftOutError: number }[];
    };
    const { minutes, exposureIndex } = found.plan[2]!;
    expect(minutes.interval[0]).toBeLessThan(minutes.value);
    expect(minutes.interval[1]).toBeGreaterThan(minutes.value);
    expect(Number.isInteger(exposureIndex.degrees)).toBe(true);
    expect(exposureIndex.standardErrorStops).toBeGreaterThan(0);
    expect(found.nextTest.errorAfter).toBeLessThanOrEqual(found.nextTest.errorNow);
    expect(found.surface.leaveOneOutError).toBeLessThan(0.03);
    expect(found.strips.every(({ leftOutError }) => leftOutError > 0)).toBe(true);
  });

  it('shows zones on the paper: VIII just darker than white at N, VII at N+1', async () => {
    const found = (await times(
      gammas,
      ...['--measure', 'gamma', '--scale', '1.05', '--zones'],
    )) as never as {
      readonly zones: readonly {
        readonly development: string;
        readonly zones: readonly {
          readonly zone: string;
          readonly netDensity: number;
          readonly print: {
            readonly density: Estimate;
            readonly lightness: Estimate;
            readonly grey: number;
          };
        }[];
      }[];
    };
    const rung = (development: string, zone: string) =>
      found.zones
        .find((ladder) => ladder.development === development)!
        .zones.find((one) => one.zone === zone)!;
    // ISO 6846: net 0.04 above paper white, which is taken as 0.06.
    expectWithin(rung('N', 'VIII').print.density.value, 0.1, 1e-6);
    expectWithin(rung('N+1', 'VII').print.density.value, 0.1, 1e-6);
    expectWithin(rung('N', 'I').netDensity, 0.1, 1e-6);
    expect(rung('N', 'V').print.grey).toBeLessThan(rung('N', 'VI').print.grey);
  });

  it('compares N+1 by development with a bath', async () => {
    const found = (await times(
      gammas,
      ...['--measure', 'gamma', '--target', '0.7', '--bath-gain', '1.3'],
    )) as never as {
      readonly developmentOrBath: {
        readonly gainAskedFor: number;
        readonly development: { readonly contrast: Estimate; readonly worksOn: string };
        readonly bath: { readonly contrast: Estimate; readonly worksOn: string };
      };
    };
    const { development, bath, gainAskedFor } = found.developmentOrBath;
    expectWithin(gainAskedFor, 7 / 6, 1e-9);
    expectWithin(bath.contrast.value, development.contrast.value, 1e-9);
    expect([development.worksOn, bath.worksOn]).toEqual(['whole-film', 'single-frame']);
  });

  it('reads as tables, everything asked for', async () => {
    const { stdout } = await ran(
      ['times', '-', '--scale', '1.05', '--zones', '--bath', '--celsius', '20,22'],
      { '-': strips([3, 5, 8, 12]) },
    );
    for (const words of [/min:s +95 %/, /Test next: a strip at /, /Zones at N,/, /N \+ bath/]) {
      expect(stdout).toMatch(words);
    }
    expect(stdout).toMatch(/whole strips scatter by \d/);
    expect(stdout).not.toMatch(/NaN|undefined|null|Infinity/);
  });
});

describe('times --drift', () => {
  const steady = [
    ['2026-01-05', 0.6],
    ['2026-02-02', 0.61],
    ['2026-03-02', 0.6],
    ['2026-04-06', 0.59],
    ['2026-05-04', 0.6],
  ] as const;
  interface DriftJson {
    readonly drift: {
      readonly measures: readonly {
        readonly measure: string;
        readonly strips: readonly { readonly strip: string; readonly signals: readonly string[] }[];
      }[];
    };
  }

  it('tells a strip beyond the limits of the first ones, in the order of days', async () => {
    // The newest stands first in the file.
    const text = controls([['2026-06-01', 0.5], ...steady]);
    const found = await times(text, '--measure', 'gamma', '--drift');
    const { drift } = found as never as DriftJson;
    const contrast = drift.measures.find(({ measure }) => measure === 'contrast')!;
    expect(contrast.strips.map(({ strip }) => strip).at(-1)).toBe('control 1');
    expect(contrast.strips.at(-1)!.signals).toContain('beyond-limits');
    expect(codes(found)).toContain('process-drifts');
  });

  it('takes unmarked strips of one time as control strips', async () => {
    const found = await times(controls(steady, false), '--measure', 'gamma', '--drift');
    const { drift } = found as never as DriftJson;
    expect(drift.measures[1]!.strips).toHaveLength(5);
  });

  it('asks for three strips', async () => {
    const found = await times(controls(steady.slice(0, 2)), '--measure', 'gamma', '--drift');
    expect(codes(found)).toContain('too-few-control-strips');
    const { stdout } = await ran(['times', '-', '--drift', '--measure', 'gamma'], {
      '-': controls(steady.slice(0, 2)),
    });
    expect(stdout).toMatch(/three strips are needed/);
  });

  it('refuses a day that is none', async () => {
    const text = controls([['2026-02-30', 0.6]]);
    const { exitCode, stdout, stderr } = await ran(['times', '-'], { '-': text });
    expect(stderr).toMatch(/row 2.*processed_on.*"2026-02-30" is not a day/);
    expect({ exitCode, stdout }).toEqual({ exitCode: 1, stdout: '' });
  });
});

describe('times, from odd strips', () => {
  it.each([
    [['--measure', 'slope'], /--measure slope is not known/],
    [['--target', '0.5', '--normal', '8'], /either --target C or --normal/],
    [['--celsius', '20,90'], /--celsius 90 is outside 0 to 60/],
    [['--subject-range', '2.2'], /--subject-range 2.2 is outside 3 to 15/],
    [['--scale', '1', '--flare', '3', '--subject-range', '5'], /fewer than three stops/],
    [['--span', '1.5'], /--span takes a whole number/],
    [['--film', 'any'], /does not name its films/],
  ] as const)('%s is wrong usage', async (words, message) => {
    const { exitCode, stdout, stderr } = await ran(['times', '-', ...words], {
      '-': strips([3, 5, 8]),
    });
    expect(stderr).toMatch(message);
    expect({ exitCode, stdout }).toEqual({ exitCode: 2, stdout: '' });
  });

  it('refuses a developer at 70 °C, and says which row', async () => {
    const { exitCode, stderr } = await ran(['times', '-'], { '-': strips([3, 5], 70) });
    expect(stderr).toMatch(/row 2, column "celsius": 70 is outside 0 to 60/);
    expect(exitCode).toBe(1);
  });

  it('says so where the law that was asked for is not possible', async () => {
    // Contrast more than doubles for twice the time.
    const rows = [
      [3, 0.2],
      [6, 0.6],
    ].flatMap(([minutes = 0, gamma = 0]) =>
      Array.from({ length: 21 }, (_, index) => {
        const x = -3 + 0.15 * index;
        return `${minutes},${x.toFixed(2)},${(0.1 + gamma * 0.2 * softplus((x + 2) / 0.2)).toFixed(4)},${minutes}`;
      }),
    );
    const text = `strip,log_exposure,density,minutes\n${rows.join('\n')}\n`;
    const found = await times(text, '--measure', 'gamma', '--family', 'first-order');
    expect(found).toMatchObject({ contrastModel: null, plan: [] });
    expect(codes(found)).toContain('contrast-law-impossible');
  });

  it('says that channels do not compare', async () => {
    const text = strips([2, 3, 5])
      .replace('celsius\n', 'celsius,channel\n')
      .replaceAll(/,(2|3),20$/gm, ',$1,20,visual')
      .replaceAll(/,5,20$/gm, ',5,20,blue');
    expect(codes(await times(text, '--measure', 'gamma'))).toContain('channels-mixed');
  });

  it('warns near the limit and under five minutes', async () => {
    const found = await times(strips([2, 3, 5, 8]), '--measure', 'gamma', '--target', '1.1');
    expect(codes(found)).toEqual(
      expect.arrayContaining(['near-contrast-limit', 'short-development']),
    );
  });

  it('has no zones from one strip, and says why', async () => {
    const found = await times(strips([5]), '--measure', 'gamma', '--zones');
    expect(found).toMatchObject({ zones: [] });
    expect(codes(found)).toContain('surface-not-determined');
  });
});
