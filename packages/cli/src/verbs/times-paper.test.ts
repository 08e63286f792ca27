/** `times`: the user's own paper, the bath beside development, and what takes no part. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { ran } from '../memory-io.ts';
import { strips, timesOf } from './times-strips.ts';

interface Estimate {
  readonly value: number;
  readonly standardError: number | null;
}

const gammas = strips([1.5, 2, 3, 4, 6]);

describe('times, with the paper and the bath', () => {
  it('takes the paper strip of a file for the scale, and counts its error', async () => {
    // A logistic paper with an exposure scale that its own measures give back.
    const steps = Array.from({ length: 21 }, (_, i) => 0.1 * i);
    const paper = `strip;material;log_exposure;density\n${steps
      .map(
        (x) => `mine;paper;${x.toFixed(1)};${(0.06 + 2 / (1 + Math.exp(-5 * (x - 1)))).toFixed(2)}`,
      )
      .join('\n')}\n`;
    const words = ['times', 'film.csv', '--json', '--measure', 'gamma', '--zones'];
    const files = { 'film.csv': gammas, 'paper.csv': paper };
    const of = async (...more: string[]) =>
      JSON.parse((await ran([...words, ...more], files)).stdout) as {
        readonly target: Estimate;
        readonly paper: { readonly exposureScale: Estimate; readonly name: string; origin: string };
        readonly plan: readonly { readonly minutes: Estimate | null }[];
        readonly zones: readonly { readonly zones: readonly { readonly print: unknown }[] }[];
      };
    const own = await of('--paper', 'paper.csv');
    expect(own.paper).toMatchObject({ name: 'mine', origin: 'strip' });
    // Net 0.04 and 90 % of net 2: (ln 9 + ln 49) / 5.
    expectWithin(own.paper.exposureScale.value, (Math.log(9) + Math.log(49)) / 5, 0.03);
    expect(own.paper.exposureScale.standardError).toBeGreaterThan(0);
    const given = await of('--scale', String(own.paper.exposureScale.value));
    expectWithin(own.target.value, given.target.value, 1e-9);
    expectWithin(own.plan[2]!.minutes!.value, given.plan[2]!.minutes!.value, 1e-9);
    expect(own.plan[2]!.minutes!.standardError).toBeGreaterThan(
      given.plan[2]!.minutes!.standardError!,
    );
    expect(own.zones[0]!.zones[4]!.print).toMatchObject({
      density: { standardError: expect.any(Number) as number },
      lightness: { standardError: expect.any(Number) as number },
    });
  });

  it.each([
    [['--scale', '1', '--paper', 'paper.csv'], 'either --scale or --paper'],
    [['--paper-strip', 'mine'], '--paper is needed'],
    [['--paper', 'paper.csv', '--paper-strip', 'x'], 'is not there'],
    [['--paper', 'paper.csv'], 'name one with --paper-strip'],
  ])('says what is wrong with %j', async (words, said) => {
    const row = (name: string, x: number) =>
      `${name},paper,${x},${(0.06 + 2 / (1 + Math.exp(-5 * (x - 1)))).toFixed(2)}`;
    const rows = ['a', 'b'].flatMap((name) =>
      Array.from({ length: 15 }, (_, i) => row(name, 0.15 * i)),
    );
    const files = {
      'film.csv': gammas,
      'paper.csv': `strip,material,log_exposure,density\n${rows.join('\n')}\n`,
    };
    const { exitCode, stderr, stdout } = await ran(['times', 'film.csv', ...words], files);
    expect({ exitCode, stdout }).toEqual({ exitCode: 2, stdout: '' });
    expect(stderr).toContain(said);
  });

  it('gives the minutes of the selenium bath, or the most that it gives', async () => {
    interface InBath {
      readonly developmentOrBath: {
        readonly bath: {
          readonly inBath: {
            readonly reachable: boolean;
            readonly gain: number;
            readonly minutes: Estimate;
            readonly plausibleMinutes: readonly [number, number | null] | null;
          } | null;
        };
      };
    }
    const words = ['--measure', 'gamma', '--target', '0.7', '--bath'];
    const of = async (...more: string[]) =>
      (await timesOf<InBath>(gammas, ...words, ...more)).developmentOrBath.bath.inBath;
    const strong = await of();
    const weak = await of('--dilution', '1+9');
    expect(strong).toMatchObject({ reachable: true });
    expect(weak!.minutes.value).toBeGreaterThan(strong!.minutes.value);
    expect(strong!.plausibleMinutes![0]).toBeLessThan(strong!.minutes.value);
    // Six stops of subject: N+1 asks for 6/5 of the contrast, more than the bath gives.
    const short = await of('--subject-range', '6');
    expect(short).toMatchObject({ reachable: false, plausibleMinutes: null });
    expect(short!.gain).toBeLessThan(6 / 5);
    expect(await of('--bath-gain', '1.3')).toBeNull();
  });

  it('never shows the bath without its cautions, and fits it to the strips that went through it', async () => {
    interface Cautious {
      readonly cautions?: readonly { readonly text: string; readonly source: string }[];
      readonly developmentOrBath?: { readonly bath: { readonly inBath: { minutes: Estimate } } };
    }
    const demo = readFileSync(
      new URL('../../../../data/demo/notebook.json', import.meta.url),
      'utf8',
    );
    const own = await timesOf<Cautious>(demo, '--bath', '--subject-range', '8');
    expect(own.cautions!.map(({ text }) => text).join(' ')).toContain('Never let acid');
    expect(own.cautions!.every(({ source }) => source.length > 0)).toBe(true);
    // Six toned strips of the notebook: their fit has an error, built-in numbers have none.
    expect(own.developmentOrBath!.bath.inBath.minutes.standardError).toBeGreaterThan(0);
    expect((await timesOf<Cautious>(demo)).cautions).toBeUndefined();
    const { stdout } = await ran(['times', '-', '--bath'], { '-': gammas });
    expect(stdout).toContain('Never let acid');
  });

  it('leaves control strips out of the law', async () => {
    const rows = gammas.trimEnd().split('\n');
    const marked = `${rows[0] ?? ''},control\n${rows
      .slice(1)
      .map((row) => `${row},${row.startsWith('3 min') ? 'yes' : 'no'}`)
      .join('\n')}\n`;
    const found = await timesOf<{
      readonly controlStrips: number;
      readonly strips: readonly { readonly strip: string }[];
    }>(marked, '--measure', 'gamma');
    expect(found.controlStrips).toBe(1);
    expect(found.strips.map(({ strip }) => strip)).not.toContain('3 min');
  });
});
