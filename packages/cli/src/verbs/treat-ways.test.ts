import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { ran } from '../memory-io.ts';
import { PAPER_105, TREATED } from './sample-files.ts';

const demo = (name: string) =>
  readFileSync(new URL(`../../../../data/demo/${name}`, import.meta.url), 'utf8');
const FILES = {
  't.csv': TREATED,
  'p.csv': PAPER_105,
  'd.csv': demo('film-strips.csv'),
  'n.json': demo('notebook.json'),
};

interface Estimate {
  readonly value: number;
  readonly standardError: number | null;
}
interface Way {
  readonly way: string;
  readonly printingRange: Estimate;
  readonly highlightSeparation: Estimate;
  readonly shadowSeparation: Estimate;
  readonly exposureChangeStops: Estimate;
  readonly graininess: { readonly negative: Estimate; readonly print: Estimate };
  readonly nextRoll: {
    readonly basis: string;
    readonly minutes: Estimate | null;
    readonly timeFactor: number | null;
  } | null;
  readonly loses: { readonly reversible: boolean; readonly stain: string };
  readonly hazards: readonly string[];
}
interface Treat {
  readonly untold?: string;
  readonly baseFogChange: Estimate | null;
  readonly doseResponse: {
    readonly maximumGain: Estimate;
    readonly origin: Readonly<Record<string, string>>;
  };
  readonly plan: {
    readonly reachable: boolean;
    readonly minutes: Estimate;
    readonly plausibleMinutes?: readonly [number, number | null];
    readonly stainLoss?: string;
    readonly baseFog?: { readonly before: number; readonly after: number };
    readonly before: { readonly printingRange: Estimate };
    readonly after: { readonly densityRange: Estimate; readonly printingRange: Estimate };
  };
  readonly nextTrial: { readonly errorNow: number; readonly trials: readonly object[] };
  readonly waysOut: { readonly order: string; readonly ways: readonly Way[] };
  readonly baths: readonly { readonly name: string; readonly left: { readonly value: number } }[];
  readonly cautions: readonly {
    readonly id: string;
    readonly text: string;
    readonly source: string;
  }[];
}
async function treat(...words: string[]): Promise<Treat> {
  const { exitCode, stdout, stderr } = await ran(['treat', ...words, '--json'], FILES);
  expect({ exitCode, stderr }).toEqual({ exitCode: 0, stderr: '' });
  return JSON.parse(stdout) as Treat;
}
const PLAN = ['--range', '0.74', '--to-grade', '3', '--dilution', '1+1'] as const;

describe('treat --ways', () => {
  it('puts every way beside the others with range, separations, stops, grain, loss and hazards', async () => {
    const { waysOut, cautions } = await treat(...PLAN, '--ways');
    expect(waysOut.ways.map(({ way }) => way)).toEqual([
      'print-to-fit',
      'split-exposure',
      'selenium-and-paper',
      'selenium',
      'chromium-partial',
      'chromium',
      'chromium-twice',
      'chromium-then-selenium',
      'next-roll',
    ]);
    for (const way of waysOut.ways) {
      for (const figure of [
        way.printingRange,
        way.highlightSeparation,
        way.shadowSeparation,
        way.exposureChangeStops,
        way.graininess.negative,
        way.graininess.print,
      ]) {
        expect(Number.isFinite(figure.value), way.way).toBe(true);
      }
      const chemistry = /selenium|chromium/.test(way.way);
      expect(way.loses.reversible, way.way).toBe(!chemistry);
      // Never a way without the cautions of its chemistry.
      for (const hazard of way.hazards) {
        expect(
          cautions.map(({ id }) => id),
          way.way,
        ).toContain(hazard);
      }
      expect(way.hazards.length > 0, way.way).toBe(chemistry);
    }
    expect(cautions.every(({ source }) => source !== '')).toBe(true);
  });

  it('orders by the wish', async () => {
    const { waysOut } = await treat(...PLAN, '--ways', '--order', 'shadow-separation');
    const shadows = waysOut.ways.map(({ shadowSeparation }) => shadowSeparation.value);
    expect(shadows).toEqual([...shadows].sort((a, b) => b - a));
  });

  it("gives the next roll in minutes by the film's own strips, and by a rule without them", async () => {
    const next = async (...words: string[]) =>
      (await treat(...PLAN, '--ways', ...words)).waysOut.ways.at(-1)!.nextRoll!;
    const known = await next('--development', 'd.csv', '--developed-for', '8');
    expect(known.basis).toBe('strips');
    expect(known.minutes!.value).toBeGreaterThan(8);
    expect(known.minutes!.standardError).toBeGreaterThan(0);
    const ruled = await next();
    expect(ruled).toMatchObject({ basis: 'rule', minutes: null });
    expect(ruled.timeFactor).toBeGreaterThan(1);
  });

  it('turns to reducers, with their cautions, for a negative that is too long', async () => {
    const long = await treat('--range', '1.6', '--to-grade', '3', '--dilution', '1+1', '--ways');
    expect(long.waysOut.ways.map(({ way }) => way)).toContain('reduce-superproportional');
    expect(long.cautions.map(({ id }) => id)).toContain('reducer-chemicals');
  });

  it('reads as a table with what is lost and what can hurt, and the cautions below', async () => {
    const { stdout } = await ran(['treat', 't.csv', ...PLAN, '--ways'], FILES);
    expect(stdout).toMatch(/Ways out, ordered by least interference/);
    expect(stdout).toMatch(/Split soft and hard exposure +0\.74 .* \+1\.\d/);
    expect(stdout).toMatch(/Lost: the way\s+back; stain goes/);
    expect(stdout).toMatch(/chromium\(VI\),\s+carcinogen/);
    expect(stdout).toContain('Dichromate is chromium(VI)');
    expect(stdout).not.toMatch(/NaN|undefined|null|Infinity/);
  });

  it.each([
    [
      ['--range', '0.74', '--minutes', '3', '--dilution', '1+1', '--ways'],
      /--ways compares ways to a target/,
    ],
    [[...PLAN, '--order', 'least-grain'], /--order has a meaning with --ways only/],
    [[...PLAN, '--development', 'd.csv'], /--development has a meaning with --ways only/],
    [[...PLAN, '--ways', '--order', 'best'], /--order best is not known/],
    [[...PLAN, '--ways', '--developed-for', '0'], /--developed-for 0 is outside/],
    [['t.csv', '--ways'], /--ways compares ways to a target/],
    [[...PLAN, '--half-dose', '-3'], /--half-dose -3 is outside/],
    [
      [...PLAN, '--clear-base', '0.06'],
      /--clear-base cannot be denser than --base-fog, and needs it/,
    ],
    [[...PLAN, '--stain-kept', '0.5'], /--stain-kept is the share .* of --stain; give both/],
    [['t.csv', '--stain-kept', '0.5'], /--stain-kept is the share .* of --stain; give both/],
    [[...PLAN, '--to-scale', '0.9'], /only one of --to-grade, --to-scale/],
    [['--range', '0.74', '--to-range', '9', '--dilution', '1+1'], /--to-range 9 is outside/],
  ])('refuses %j as wrong usage', async (words, message) => {
    const { exitCode, stdout, stderr } = await ran(['treat', ...words], FILES);
    expect(stderr).toMatch(message);
    expect({ exitCode, stdout }).toEqual({ exitCode: 2, stdout: '' });
  });

  it('refuses a development file that tells no contrast, with the file named', async () => {
    const { exitCode, stdout, stderr } = await ran(
      ['treat', ...PLAN, '--ways', '--development', 'p.csv'],
      FILES,
    );
    expect(stderr).toMatch(/p\.csv/);
    expect({ exitCode, stdout }).toEqual({ exitCode: 1, stdout: '' });
  });
});

describe('treat with other targets', () => {
  it('reaches the scale of a paper, typed or measured, and a density range', async () => {
    const scale = await treat('--range', '0.95', '--to-scale', '1.05', '--dilution', '1+1');
    expectWithin(scale.plan.after.printingRange.value, 1.05, 1e-6, 'scale');
    expect(scale.plan.minutes.standardError).toBeNull();
    const range = await treat(
      ...['--range', '0.8', '--to-range', '0.9', '--dilution', '1+1', '--callier', '1.3'],
    );
    expectWithin(range.plan.after.densityRange.value, 0.9, 1e-6, 'density range');
    expect(range.plan.plausibleMinutes).toHaveLength(2);
  });

  it('takes the error of a measured Callier factor into ranges and minutes', async () => {
    const words = ['--range', '0.8', '--to-scale', '1.1', '--dilution', '1+1', '--callier', '1.25'];
    const { plan } = await treat(...words, '--callier-error', '0.03');
    // [derived] The range is 0.8 Q before the bath, and k 0.8 Q = 1.1 after it.
    expectWithin(plan.before.printingRange.standardError!, 0.8 * 0.03, 1e-9, 'before');
    expectWithin(plan.after.printingRange.standardError!, (1.1 * 0.03) / 1.25, 1e-6, 'after');
    expect(plan.minutes.standardError).toBeGreaterThan(0);
    const plain = await treat(...words);
    expect(plain.plan.before.printingRange.standardError).toBeNull();
    const { stdout } = await ran(['treat', ...words, '--callier-error', '0.03']);
    expect(stdout).toMatch(/Callier factor 1\.25 ± 0\.03: yours/);
    expect(stdout).toMatch(/within its error \(95 %\)/);
  });

  it('takes the error of a measured scale into the minutes', async () => {
    const noisy = PAPER_105.replaceAll(/(\d\.\d\d)\d*$/gm, '$1');
    const words = ['treat', '--range', '0.95', '--paper', 'p.csv', '--dilution', '1+1', '--json'];
    const { stdout } = await ran(words, { ...FILES, 'p.csv': noisy });
    expect((JSON.parse(stdout) as Treat).plan.minutes.standardError).toBeGreaterThan(0);
  });
});

describe('treat, what is known and what is held', () => {
  it('tells in words what the trials cannot tell, and the next scrap, without any plan', async () => {
    const fitted = await treat('t.csv');
    expect(fitted.untold).toMatch(/hardly tell|do not tell|told by your trials/);
    expect(fitted.nextTrial.trials).toHaveLength(3);
    expectWithin(fitted.baseFogChange!.value, 0, 0.01, 'base + fog');
    const { stdout } = await ran(['treat', 't.csv'], FILES);
    expect(stdout).toMatch(/What your trials tell apart\n/);
    expect(stdout).toMatch(/The scrap that would tell most next/);
  });

  it('holds a parameter and says so', async () => {
    const held = await treat('t.csv', '--maximum-gain', '1.25', '--concentration-exponent', '1.2');
    expect(held.doseResponse.origin).toMatchObject({
      maximumGain: 'held',
      concentrationExponent: 'held',
    });
    expect(held.doseResponse.maximumGain).toEqual({ value: 1.25, standardError: null });
    expect(held.untold).toMatch(/You hold the greatest gain and how the concentration counts/);
  });

  it('warns with numbers before stain is lost: the net gain may be none', async () => {
    const { plan } = await treat(...PLAN, '--stain', '0.375');
    expect(plan.stainLoss).toMatch(/if the stain stays.*if all of it goes/);
    expect(plan.stainLoss).toMatch(/less than nothing/);
    const { stdout } = await ran(['treat', ...PLAN, '--stain', '0.375'], FILES);
    expect(stdout).toMatch(/!! The gain of ×1\.\d\d on silver alone/);
  });

  it('tones base + fog above a clear base', async () => {
    const { plan } = await treat(
      ...['--shadow', '0.3', '--highlight', '1.04', '--base-fog', '0.16', '--clear-base', '0.06'],
      ...['--minutes', '6.5', '--dilution', '1+1'],
    );
    // 0.06 + k 0.10 by the proportional law, k the built-in bath's 1.18.
    expectWithin(plan.baseFog!.after, 0.06 + 0.1 * 1.18, 0.001, 'base + fog after');
  });

  it('tells what is left in the working baths of a notebook', async () => {
    const { baths } = await treat('n.json');
    expect(baths.map(({ name }) => name)).toEqual(['Tray of the test wedges']);
    expect(baths[0]!.left.value).toBeGreaterThan(0.9);
    const { stdout } = await ran(['treat', 'n.json'], FILES);
    expect(stdout).toMatch(
      /Working baths of the notebook\n {2}Tray of the test wedges: .*% is left/,
    );
  });

  it('shows the cautions of the process that the file names', async () => {
    const reduced = TREATED.replaceAll('selenium', 'reducer');
    const { stdout } = await ran(['treat', '-', '--json'], { '-': reduced });
    const ids = (JSON.parse(stdout) as Treat).cautions.map(({ id }) => id);
    expect(ids).toContain('reducer-chemicals');
    expect(ids).not.toContain('selenium-ammonia');
  });
});
