import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { ran } from '../memory-io.ts';
import { PAPER_105, TREATED } from './sample-files.ts';

interface Estimate {
  readonly value: number;
  readonly standardError: number | null;
}
interface Range {
  readonly densityRange: Estimate;
  readonly isoRange: Estimate;
  readonly paperGrade: { readonly band: number | null; readonly continuous: number | null };
}
interface TreatJson {
  readonly law: { readonly family: string; readonly exponent: Estimate };
  readonly doseResponse: {
    readonly family: string;
    readonly maximumGain: Estimate;
    readonly halfDose: Estimate;
    readonly completion95Minutes: Estimate & { readonly partsWater: number };
  };
  readonly treated: readonly {
    readonly strip: string;
    readonly partsWater: number;
    readonly bathMinutes: number;
    readonly gain: Estimate;
  }[];
  readonly plan: {
    readonly reachable: boolean;
    readonly reason?: string;
    readonly gainNeeded: Estimate;
    readonly maximumGain: Estimate;
    readonly minutes: Estimate;
    readonly plausibleMinutes?: readonly [number, number | null];
    readonly sensitivity: { readonly perMinute: number; readonly perDegree: number };
    readonly completion: Estimate;
    readonly before: Range;
    readonly after: Range;
  };
  readonly nextTrial: {
    readonly errorNow: number;
    readonly trials: readonly { readonly minutes: number; readonly errorAfter: number }[];
  };
  readonly cautions: readonly { readonly text: string; readonly source: string }[];
  readonly warnings: readonly { readonly code: string; readonly message: string }[];
}

const FILES = { 't.csv': TREATED, 'p.csv': PAPER_105 };
async function treat(...words: string[]): Promise<TreatJson> {
  const { exitCode, stdout, stderr } = await ran(['treat', ...words, '--json'], FILES);
  expect({ exitCode, stderr }).toEqual({ exitCode: 0, stderr: '' });
  return JSON.parse(stdout) as TreatJson;
}
const codes = ({ warnings }: TreatJson) => warnings.map(({ code }) => code);

describe('treat FILE', () => {
  it('finds the gains and the dose-response that made the strips', async () => {
    const fitted = await treat('t.csv');
    expect(fitted.law.family).toBe('proportional');
    expect(fitted.law.exponent.value).toBe(1);
    expectWithin(fitted.doseResponse.maximumGain.value, 1.2, 0.002, 'greatest gain');
    // exp(-E/0.9) is 2^(-E/h) with h = 0.9 ln 2.
    expectWithin(fitted.doseResponse.halfDose.value, 0.9 * Math.LN2, 0.01, 'half dose');
    expect(fitted.treated).toHaveLength(5);
    const [first] = fitted.treated;
    expect(first).toMatchObject({ strip: 'test 1+3 2 min', partsWater: 3, bathMinutes: 2 });
    expectWithin(first!.gain.value, 1 + 0.2 * (1 - Math.exp(-0.5 / 0.9)), 0.001, 'gain');
    expect(first!.gain.standardError).toBeGreaterThan(0);
    expect(fitted.cautions.length).toBeGreaterThan(0);
    expect(fitted.plan).toBeUndefined();
  });

  it('plans with the fit, and the plan keeps its promise', async () => {
    const planned = await treat('t.csv', '--range', '0.74', '--to-grade', '3', '--dilution', '1+3');
    const { plan } = planned;
    expect(plan.reachable).toBe(true);
    expect(plan.before.paperGrade.band).toBe(4);
    expect(plan.after.paperGrade.band).toBe(3);
    const minutes = String(plan.minutes.value);
    const predicted = await treat(
      't.csv',
      '--range',
      '0.74',
      '--dilution',
      '1+3',
      '--minutes',
      minutes,
    );
    expectWithin(
      predicted.plan.after.densityRange.value,
      plan.after.densityRange.value,
      1e-9,
      'range after',
    );
    expectWithin(plan.after.densityRange.value, 0.74 * plan.gainNeeded.value, 1e-6, 'gain');
  });

  it('says how sure the minutes are, what hangs on them and which scrap would tell most', async () => {
    const words = ['--range', '0.74', '--to-grade', '3', '--dilution', '1+3'] as const;
    const fitted = await treat('t.csv', ...words);
    const { value, standardError } = fitted.plan.minutes;
    expect(standardError).toBeGreaterThan(0);
    const [least, most] = fitted.plan.plausibleMinutes!;
    expect(least).toBeLessThan(value);
    expect(most).toBeGreaterThan(value);
    // Nothing fitted, no standard error; the built-in ranges leave far more open.
    const { plan, nextTrial } = await treat(...words);
    expect(plan.minutes.standardError).toBeNull();
    const width = (plan.plausibleMinutes![1] ?? Infinity) / plan.plausibleMinutes![0];
    expect(width).toBeGreaterThan(most! / least);
    expect(plan.sensitivity.perMinute).toBeGreaterThan(0);
    expect(nextTrial.trials).toHaveLength(3);
    for (const { errorAfter } of nextTrial.trials)
      expect(errorAfter).toBeLessThan(nextTrial.errorNow);
    const { stdout } = await ran(['treat', 't.csv', ...words], FILES);
    expect(stdout).toMatch(/time may well lie between .* and/);
    expect(stdout).toMatch(/The scrap that would tell most next\n {2}1\+/);
  });

  it('finds gain and rate from two frames read at two numbered spots, before and after', async () => {
    // Nets 0.35 and 1.00 of frames A and B, made by k = 1 + 0.2 (1 - exp(-E / 0.9)), c = 1/2.
    const gain = (minutes: number) => 1 + 0.2 * (1 - Math.exp(-(minutes / 2) / 0.9));
    const frame = (name: string, minutes: number): string[] => {
      const rows = (treated: boolean) => {
        const k = treated ? gain(minutes) : 1;
        const bath = treated ? `selenium,1,${minutes},20` : 'none,,,';
        return [
          `${name},1,${(0.12 + 0.35 * k).toFixed(3)},${bath}`,
          `${name},2,${(0.12 + 1.0 * k).toFixed(3)},${bath}`,
          `${name},,0.120,${bath}`,
        ];
      };
      return [...rows(false), ...rows(true)];
    };
    const text = [
      'strip,step,density,treatment,parts_water,bath_minutes,bath_celsius',
      ...frame('frame A', 1.5),
      ...frame('frame B', 8),
    ].join('\n');
    const { exitCode, stdout, stderr } = await ran(['treat', 'f.csv', '--json'], { 'f.csv': text });
    expect({ exitCode, stderr }).toEqual({ exitCode: 0, stderr: '' });
    const fitted = JSON.parse(stdout) as TreatJson;
    expect(fitted.treated.map(({ strip }) => strip)).toEqual(['frame A', 'frame B']);
    fitted.treated.forEach(({ gain: found }, i) => {
      expectWithin(found.value, gain(i === 0 ? 1.5 : 8), 0.002, 'gain');
      // Two readings of 0.01 each over nets up to 1: about 0.013 (derived, sqrt(2) 0.01 / |u|).
      expect(found.standardError).toBeGreaterThan(0.005);
      expect(found.standardError).toBeLessThan(0.03);
    });
    expect(codes(fitted)).toContain('reading-error-assumed');
    // Trial B is all but complete: its gain leaves the greatest one within two errors.
    const { maximumGain } = fitted.doseResponse;
    expectWithin(maximumGain.value, 1.2, 2 * maximumGain.standardError!, 'greatest gain');
  });

  it('takes an untreated strip of the same name, before and after one bath', async () => {
    const rows = [0.2, 0.6, 1.0].flatMap((net, i) => [
      `scrap,${-i},${(0.1 + net).toFixed(3)},none,,`,
      `scrap,${-i},${(0.1 + 1.15 * net).toFixed(3)},selenium,3,5`,
    ]);
    const text = [
      'strip,log_exposure,density,treatment,parts_water,bath_minutes',
      ...rows,
      'scrap,,0.100,none,,',
      'scrap,,0.100,selenium,3,5',
    ].join('\n');
    const { exitCode, stdout } = await ran(['treat', '-', '--json'], { '-': text });
    expect(exitCode).toBe(0);
    const fitted = JSON.parse(stdout) as TreatJson;
    expectWithin(fitted.treated[0]!.gain.value, 1.15, 0.002, 'gain');
    expect(codes(fitted)).toContain('bath-temperature-assumed');
  });

  it.each<[string, (text: string) => string, RegExp]>([
    ['nothing treated', (t) => t.replaceAll('selenium', 'none'), /no strip is marked as treated/],
    [
      'a bath without water',
      (t) => t.replace(/selenium,3,2,/g, 'selenium,,2,'),
      /row 24, column "parts_water": the strip is marked as treated/,
    ],
    [
      'a bath without minutes',
      (t) => t.replace(/selenium,3,2,/g, 'selenium,3,,'),
      /row 24, column "bath_minutes"/,
    ],
    [
      'two processes in one file',
      (t) => t.replace(/selenium,9,/g, 'gold,9,'),
      /column "treatment": strips above were treated with "selenium"/,
    ],
    [
      'a dilution that can mean two things',
      (t) => t.replace(/selenium,3,2,/g, 'selenium,1:3,2,'),
      /column "parts_water": "1:3" can mean 1\+n or one part in n/,
    ],
  ])('refuses %s', async (_what, change, message) => {
    const { exitCode, stdout, stderr } = await ran(['treat', '-'], { '-': change(TREATED) });
    expect(stderr).toMatch(message);
    expect({ exitCode, stdout }).toEqual({ exitCode: 1, stdout: '' });
  });

  it('refuses treated strips of which none has an untreated strip: built-in numbers are no fit', async () => {
    const alone = TREATED.split('\n')
      .filter((line) => !line.startsWith('test,'))
      .join('\n');
    for (const words of [[], ['--range', '0.74', '--to-grade', '3', '--dilution', '1+3']]) {
      const { exitCode, stdout, stderr } = await ran(['treat', '-', ...words], { '-': alone });
      expect(stderr).toMatch(
        /^wedgebook: standard input, row 2: no treated strip has an untreated/,
      );
      expect({ exitCode, stdout }).toEqual({ exitCode: 1, stdout: '' });
    }
  });

  it('leaves out a treated strip without an untreated one, and says so', async () => {
    const [header = '', ...lines] = TREATED.trim().split('\n');
    // Beside a full set, one strip at exposures that nothing else has.
    const far = [1, 2, 3, 4].map((i) => `alone,${i},${5 + i / 10},0.5,selenium,3,5,20`);
    const { stdout } = await ran(['treat', '-', '--json'], {
      '-': [header, ...lines, ...far].join('\n'),
    });
    expect(codes(JSON.parse(stdout) as TreatJson)).toContain('strips-unpaired');
  });
});

describe('an option that nothing is made of', () => {
  const unused = async (...words: string[]) => {
    const { exitCode, stdout } = await ran(['treat', ...words, '--json'], FILES);
    expect(exitCode).toBe(0);
    const { warnings } = JSON.parse(stdout) as { warnings: { code: string; message: string }[] };
    return warnings.filter(({ code }) => code === 'option-unused').map(({ message }) => message);
  };

  it('is named, and changes nothing', async () => {
    const [told, ...more] = await unused('t.csv', '--dilution', '1+3', '--stain', '0.3');
    expect(told).toMatch(/^--dilution, --stain were not used, for no bath is planned/);
    expect(more).toEqual([]);
    const plan = ['--range', '0.74', '--to-grade', '3', '--dilution', '1+1'];
    expect(await unused(...plan, '--law', 'power')).toEqual([
      '--law was not used: the built-in bath is not fitted. Give FILE with treated strips.',
    ]);
    expect(await unused('t.csv', '--law', 'power')).toEqual([]);
    expect(await unused('t.csv', ...plan, '--celsius', '20')).toEqual([]);
    const { stdout } = await ran(['treat', 't.csv', '--celsius', '20'], FILES);
    expect(stdout).toMatch(/^! --celsius was not used/m);
  });
});

describe('treat with the built-in bath', () => {
  it('[practice] 1+1, 20 °C, 6.5 min is at least 95 % complete', async () => {
    const { plan } = await treat('--range', '0.74', '--dilution', '1+1', '--minutes', '6.5');
    expect(plan.completion.value).toBeGreaterThanOrEqual(0.95);
  });

  it.each([
    [0.7, 4, 3],
    [0.725, 4, 3],
    [0.875, 3, 2],
  ])(
    '[practice] a range of %f needs grade %i, and grade %i after the bath',
    async (range, before, after) => {
      const { plan } = await treat(
        '--range',
        String(range),
        '--dilution',
        '1+1',
        '--minutes',
        '6.5',
      );
      expect(plan.before.paperGrade.band).toBe(before);
      expect(plan.after.paperGrade.band).toBe(after);
    },
  );

  it('says that a target is out of reach, why, and what is', async () => {
    const planned = await treat('--range', '0.55', '--to-grade', '2', '--dilution', '1+3');
    expect(planned.plan).toMatchObject({ reachable: false, reason: 'needs-more-gain' });
    expect(planned.plan.gainNeeded.value).toBeGreaterThan(planned.plan.maximumGain.value);
    expect(codes(planned)).toContain('target-not-reachable');
    expect(planned.plan.after.densityRange.value).toBeGreaterThan(0.55);
  });

  it('marks the built-in figures and shows the cautions with their sources', async () => {
    const planned = await treat('--range', '0.74', '--to-grade', '3', '--dilution', '1+1');
    expect(codes(planned)).toContain('dose-response-default');
    expect(planned.cautions.every(({ text, source }) => text !== '' && source !== '')).toBe(true);
    expect(planned.cautions.some(({ text }) => text.includes('acid'))).toBe(true);
  });

  it('says where the shadow is thinner than the base + fog under it', async () => {
    const bath = ['--dilution', '1+1', '--minutes', '6', '--base-fog'];
    const spots = ['--shadow', '0.3', '--highlight', '1.0'];
    const wrong = await treat(...spots, ...bath, '0.5');
    expect(codes(wrong)).toContain('shadow-below-base-fog');
    expect(codes(await treat(...spots, ...bath, '0.2'))).not.toContain('shadow-below-base-fog');
  });

  it('aims at the exposure scale of a paper', async () => {
    const planned = await treat(
      '--range',
      '0.95',
      '--paper',
      'p.csv',
      '--dilution',
      '1+1',
      '--model',
      'logistic-4',
    );
    expect(planned.plan.reachable).toBe(true);
    expectWithin(planned.plan.after.densityRange.value, 1.05, 0.002, 'range after');
  });

  it('lets stain go with the bath, and warns', async () => {
    const kept = await treat(
      '--range',
      '0.8',
      '--dilution',
      '1+1',
      '--minutes',
      '6.5',
      '--stain',
      '0.375',
    );
    const lost = await treat(
      '--range',
      '0.8',
      '--dilution',
      '1+1',
      '--minutes',
      '6.5',
      '--stain',
      '0.375',
      '--stain-kept',
      '0',
    );
    expect(codes(lost)).toContain('stain-may-be-lost');
    // Silver alone is intensified: k_eff = (k + s rho)/(1 + s).
    const k = kept.plan.gainNeeded.value;
    expectWithin(kept.plan.after.densityRange.value, (0.8 * (k + 0.375)) / 1.375, 1e-9, 'kept');
    expectWithin(lost.plan.after.densityRange.value, (0.8 * k) / 1.375, 1e-9, 'lost');
  });

  it('reads as tables with the cautions below', async () => {
    const { exitCode, stdout } = await ran(
      [
        'treat',
        't.csv',
        '--shadow',
        '0.3',
        '--highlight',
        '1.04',
        '--to-grade',
        '3',
        '--dilution',
        '1+3',
      ],
      FILES,
    );
    expect(exitCode).toBe(0);
    expect(stdout).toMatch(/Treatment \(fitted to your strips\)/);
    expect(stdout).toMatch(/test 1\+3 2 min +1\+3 +2\.00 +20\.0 +21 +1\.08\d ± /);
    expect(stdout).toMatch(/Plan: can be reached/);
    expect(stdout).toMatch(/time +\d+\.\d\d min \(\d+:\d\d\)/);
    expect(stdout).toMatch(/paper grade +4 .*3 /);
    expect(stdout).toMatch(/!! Never let acid into a selenium bath/);
    expect(stdout).toMatch(/source: NIOSH/);
    expect(stdout).not.toMatch(/NaN|undefined|null/);
  });

  it('always shows the cautions, whatever is asked', async () => {
    for (const words of [['t.csv'], ['--range', '1', '--dilution', '1+1', '--minutes', '3']]) {
      const { stdout } = await ran(['treat', ...words], FILES);
      expect(stdout).toContain('hydrogen selenide');
    }
  });
});
