import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { ran } from '../memory-io.ts';
import { PAPER_105, SOFT_TOE } from './sample-files.ts';

interface Estimate {
  readonly value: number;
  readonly standardError: number | null;
}
interface Grade {
  readonly band: number | null;
  readonly continuous: number | null;
}
interface PaperJson {
  readonly strips: readonly {
    readonly strip: string;
    readonly densityMin: Estimate;
    readonly densityMax: Estimate;
    readonly isoRange: { readonly exact: Estimate; readonly rounded: number };
    readonly isoSpeed: { readonly exact: Estimate; readonly rounded: number } | null;
    readonly paperGrade: Grade;
    readonly exposureScale: Estimate;
    readonly warnings: readonly { readonly code: string }[];
  }[];
}
interface MatchJson {
  readonly densityRange: Estimate;
  readonly printingRange: Estimate;
  readonly exposureScale: Estimate;
  readonly isoRange: Estimate & { readonly rounded: number };
  readonly paperGrade: Grade;
  readonly gradesWithin: readonly Grade[] | null;
  readonly papers: readonly {
    readonly strip: string;
    readonly verdict: string;
    readonly verdictsWithin: readonly string[];
  }[];
  readonly warnings: readonly { readonly code: string; readonly message: string }[];
}

const FILES = { 'p.csv': PAPER_105, 'b.csv': SOFT_TOE };
async function json(...words: string[]): Promise<unknown> {
  const { exitCode, stdout, stderr } = await ran([...words, '--json'], FILES);
  expect({ exitCode, stderr }).toEqual({ exitCode: 0, stderr: '' });
  return JSON.parse(stdout);
}
const match = async (...words: string[]) => (await json('match', ...words)) as MatchJson;

describe('paper', () => {
  it('[ISO6846, derived] finds the logistic paper of ISO range 105', async () => {
    const { strips } = (await json(
      'paper',
      'p.csv',
      '--log-exposure',
      'absolute',
      '--model',
      'logistic-4',
    )) as PaperJson;
    const [strip] = strips;
    // Derived: R 105, P 139.99 (1000 / 10^(1 - 0.14611)); densities to four decimals.
    expectWithin(strip!.isoRange.exact.value, 105, 0.1, 'R');
    // 105 lies between two tens: rounding may go either way.
    expect([100, 110]).toContain(strip!.isoRange.rounded);
    expectWithin(strip!.isoSpeed!.exact.value, 139.99, 0.2, 'P');
    expect(strip!.isoSpeed!.rounded).toBe(125);
    expectWithin(strip!.densityMax.value, 2, 0.002, 'greatest density');
    expectWithin(strip!.densityMin.value, 0, 0.002, 'paper white');
    expect(strip!.paperGrade).toMatchObject({ band: 2 });
  });

  it('gives no speed for relative exposures', async () => {
    const { strips } = (await json('paper', 'p.csv', '--log-exposure', 'relative')) as PaperJson;
    expect(strips[0]!.isoSpeed).toBeNull();
    expect(strips[0]!.warnings.map(({ code }) => code)).toContain('exposure-relative');
    // The default family on a logistic truth: the range to a step of ISO rounding.
    expectWithin(strips[0]!.isoRange.exact.value, 105, 3, 'R');
  });

  it('shows definitions, units and the source of the grade table', async () => {
    const { stdout } = await ran(['paper', 'p.csv'], FILES);
    expect(stdout).toMatch(/^Strip P \(paper\)\n/);
    expect(stdout).toMatch(/ISO range +R 1[01]0 \(exact 10\d\.\d ± \S+\) +R = 100 times/);
    expect(stdout).toMatch(/paper grade +2 \(\S+ on a continuous scale\) .*ANSI PH2\.2-1966/);
    expect(stdout).toMatch(/published, verified/);
  });

  it('says of every exposure scale that it is log10, in facts, tables and phrases', async () => {
    const soft = PAPER_105.replace('strip,', 'setting,strip,').replaceAll('\nP,', '\n2,P,');
    const hard = PAPER_105.replace(/^.*\n/, '')
      .replaceAll(/^P,paper,(\d*),([\d.]*),/gm, (_all, step: string, x: string) =>
        ['4', 'H', 'paper', step, x === '' ? '' : (Number(x) / 2).toFixed(3), ''].join(','),
      )
      .replaceAll('P,paper', '4,H,paper');
    const files = { 'm.csv': soft + hard };
    const told = await ran(['paper', 'm.csv', '--scale', '3'], files);
    expect(told).toMatchObject({ exitCode: 0, stderr: '' });
    expect(told.stdout).toMatch(/exposure scale +1\.0\d+ ± \S+ +log10, from threshold/);
    expect(told.stdout).toMatch(
      /setting +exposure scale, log10 +threshold, log10 +speed point, log/,
    );
    expect(told.stdout).toMatch(/the nearest is 2 with 1\.0\d log10$/m);
    const matched = await ran(['match', '--range', '1.05', '--paper', 'm.csv'], files);
    expect(matched.stdout).toMatch(/fits this paper \(within 0\.05 log10\)/);
  });

  it('refuses a file of film strips', async () => {
    const text = SOFT_TOE.replace('strip,', 'material,').replaceAll('B,', 'film,');
    const { exitCode, stdout, stderr } = await ran(['paper', '-'], { '-': text });
    expect(stderr).toMatch(
      /standard input: there is no paper strip in the file; all its strips are film\. Measure them with the verb film, or write "paper"/,
    );
    expect({ exitCode, stdout }).toEqual({ exitCode: 1, stdout: '' });
  });
});

describe('match', () => {
  it('[ISO6846 introduction] asks for the exposure scale that equals the printing range', async () => {
    const matched = await match('--range', '1.05');
    expect(matched.densityRange).toEqual({ value: 1.05, standardError: null });
    expect(matched.printingRange.value).toBe(1.05);
    expect(matched.exposureScale.value).toBe(1.05);
    expectWithin(matched.isoRange.value, 105, 1e-9, 'R');
    expect(matched.isoRange.rounded).toBe(110);
    // The middle of the band 0.95 to 1.15 is grade 2.
    expect(matched.paperGrade.band).toBe(2);
    expectWithin(matched.paperGrade.continuous!, 2, 1e-9, 'grade');
  });

  it.each([
    [1.3, 1],
    [0.87, 3],
    [0.74, 4],
    [0.55, 5],
  ])('[ANSI1966] a density range of %f asks for grade %i', async (range, grade) => {
    expect((await match('--range', String(range))).paperGrade.band).toBe(grade);
  });

  it('[LABSHEET] 1.30 - 0.20 is a density range of 1.10, grade 2', async () => {
    const matched = await match(
      '--shadow',
      '0.20',
      '--highlight',
      '1.30',
      '--grade-table',
      'laboratory-diffuse',
    );
    expectWithin(matched.densityRange.value, 1.1, 1e-12, 'range');
    expect(matched.paperGrade.band).toBe(2);
  });

  it('multiplies by the Callier factor', async () => {
    const matched = await match('--range', '0.80', '--callier', '1.25');
    expectWithin(matched.printingRange.value, 1, 1e-12, 'printing range');
    expect(matched.paperGrade.band).toBe(2);
  });

  it('counts the error of a measured factor in range, grade and verdict', async () => {
    const given = ['--range', '0.90', '--callier', '1.25', '--callier-error', '0.04'];
    const matched = await match(...given);
    // [derived] 0.90 × 0.04; the range itself is exact.
    expectWithin(matched.printingRange.standardError!, 0.036, 1e-12, 'error');
    expectWithin(matched.isoRange.standardError!, 3.6, 1e-9, 'error of R');
    // 1.125 ± 1.96 × 0.036 reaches over the limit 1.15 of grades 1 and 2 [ANSI1966].
    expect(matched.gradesWithin!.map(({ band }) => band)).toEqual([1, 2]);
    const unknown = await match('--range', '0.90', '--callier', '1.25');
    expect(unknown.printingRange.standardError).toBeNull();
    expect(unknown.gradesWithin).toBeNull();
    const { stdout } = await ran(['match', ...given]);
    expect(stdout).toMatch(/Callier factor 1\.25 ± 0\.04/);
    expect(stdout).toMatch(/grades within the error of the range \(95 %\)/);
  });

  it('says which other verdict on a paper the error of the factor leaves possible', async () => {
    const given = ['--range', '0.90', '--callier', '1.25', '--paper', 'p.csv'];
    const sure = (await match(...given)).papers[0]!;
    expect(sure).toMatchObject({ verdict: 'overshoots', verdictsWithin: ['overshoots'] });
    const words = [...given, '--callier-error', '0.04'];
    expect((await match(...words)).papers[0]!.verdictsWithin).toEqual(['fits', 'overshoots']);
    const { stdout } = await ran(['match', ...words], FILES);
    expect(stdout).toMatch(/within its error \(95 %\) it may also fit/);
  });

  it('marks a built-in condenser factor as what it is', async () => {
    const matched = await match('--range', '0.80', '--light', 'condenser');
    expect(matched.printingRange.value).toBeGreaterThan(0.8);
    expect(matched.warnings.map(({ code }) => code)).toContain('value-unverified');
  });

  it('notices a highlight thinner than the shadow', async () => {
    const matched = await match('--shadow', '1.2', '--highlight', '0.4');
    expectWithin(matched.densityRange.value, 0.8, 1e-12, 'range');
    expect(matched.warnings.map(({ code }) => code)).toContain('highlight-thinner-than-shadow');
  });

  it('says where the two tables disagree: at 1.15', async () => {
    const matched = await match('--range', '1.15');
    expect(matched.paperGrade.band).toBe(2);
    expect(matched.warnings.map(({ code }) => code)).toContain('grade-tables-disagree');
  });

  it('says that a range lies outside the grades', async () => {
    const matched = await match('--range', '2.2');
    expect(matched.paperGrade).toMatchObject({ band: null, continuous: null });
    expect(matched.warnings.map(({ code }) => code)).toContain('range-outside-grades');
  });

  it.each([
    [0.7, 'falls-short'],
    [1.05, 'fits'],
    [1.3, 'overshoots'],
  ])('compares a range of %f with a paper of R 105: %s', async (range, verdict) => {
    const matched = await match('--range', String(range), '--paper', 'p.csv');
    expect(matched.papers).toMatchObject([{ strip: 'P', verdict }]);
  });

  it('reads as a table', async () => {
    const { exitCode, stdout } = await ran(['match', '--range', '0.74', '--paper', 'p.csv'], FILES);
    expect(exitCode).toBe(0);
    expect(stdout).toMatch(/paper grade +4 \(3\.90 on a continuous scale\)/);
    expect(stdout).toMatch(/falls short of this paper: prints flat/);
    expect(stdout).not.toMatch(/NaN|undefined|null/);
  });
});
