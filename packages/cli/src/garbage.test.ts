/** Whatever the file holds, the command answers: a result, or one line that says what is wrong. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ran } from './memory-io.ts';

const VERBS: readonly (readonly string[])[] = [
  ['film', '-'],
  ['film', '-', '--model', 'monotone-smooth'],
  ['film', '-', '--model', 'as-drawn'],
  ['film', '-', '--model', 'logistic-5'],
  ['film', '-', '--model', 'hurter-driffield'],
  ['paper', '-'],
  ['treat', '-'],
  ['treat', '-', '--range', '0.8', '--to-grade', '3', '--dilution', '1+3'],
  ['times', '-'],
  ['plot', '-', '-o', '-'],
  ['convert', '-', '--to', 'json'],
  ['convert', '-', '--to', 'cgats'],
  ['fit', '-', '--model', 'exponential-rise', '--x', 'log_exposure', '--y', 'density'],
  ['fit', '-', '--model', 'log-logistic-4', '--x', 'step', '--y', 'density'],
];

async function answers(words: readonly string[], text: string): Promise<void> {
  for (const json of [[], ['--json']]) {
    const { exitCode, stdout, stderr } = await ran([...words, ...json], { '-': text });
    const what = `${words.join(' ')} on ${JSON.stringify(text)}: ${stderr}`;
    expect(stderr, what).not.toContain('should not have happened');
    expect([0, 1, 2], what).toContain(exitCode);
    if (exitCode !== 0) expect(stdout, what).toBe('');
    expect(stdout, what).not.toMatch(/\bNaN\b|Infinity|undefined/);
  }
}

const cell = fc.oneof(
  { weight: 12, arbitrary: fc.double({ min: -1, max: 4, noNaN: true }).map((x) => x.toFixed(2)) },
  fc.constantFrom('', 'x', '1,5', '7', '1e9', '"', 'nan', '-0', '0', '1+3', '1:3'),
);
const near = (low: number, high: number) =>
  fc.double({ min: low, max: high, noNaN: true }).map((x) => x.toFixed(2));

/** Mostly sound strips of any shape: flat, falling, noisy, short, with replicates and gaps. */
const strip = fc.record({
  name: fc.constantFrom('A', 'B', 'A toned', ''),
  material: fc.constantFrom('film', 'paper', ''),
  minutes: fc.constantFrom('', '4', '8', '0'),
  bath: fc.constantFrom('none,,', 'selenium,3,5', 'selenium,1,0', 'selenium,,', 'gold,3,5'),
  exposures: fc.array(near(-3, 1), { minLength: 0, maxLength: 14 }),
  level: fc.double({ min: -0.1, max: 2, noNaN: true }),
  slope: fc.double({ min: -1, max: 3, noNaN: true }),
  noise: fc.array(fc.double({ min: -0.3, max: 0.3, noNaN: true }), {
    minLength: 14,
    maxLength: 14,
  }),
  unexposed: fc.array(near(-0.1, 1), { maxLength: 2 }),
});
const plausible = fc.array(strip, { minLength: 1, maxLength: 4 }).map((strips) =>
  [
    'strip,material,minutes,treatment,parts_water,bath_minutes,step,log_exposure,density',
    ...strips.flatMap(({ name, material, minutes, bath, exposures, unexposed, ...shape }) => [
      ...exposures.map((x, i) => {
        const density = shape.level + shape.slope * (Number(x) / 4) + (shape.noise[i] ?? 0);
        return `${name},${material},${minutes},${bath},${i + 1},${x},${density.toFixed(2)}`;
      }),
      ...unexposed.map((density) => `${name},${material},${minutes},${bath},,,${density}`),
    ]),
  ].join('\n'),
);

describe('the command on any file', () => {
  it.each(VERBS.map((words) => [words.join(' '), words] as const))(
    '%s answers whatever the strips',
    async (_name, words) => {
      await fc.assert(
        fc.asyncProperty(plausible, (text) => answers(words, text)),
        { numRuns: 150 },
      );
    },
    60_000,
  );

  it('answers whatever the cells', async () => {
    const table = fc
      .array(fc.array(cell, { minLength: 1, maxLength: 6 }), { maxLength: 8 })
      .map((rows) => rows.map((row) => row.join(',')).join('\n'));
    const header = fc.subarray(
      ['strip', 'step', 'tablet_density', 'log_exposure', 'density', 'treatment', 'parts_water'],
      { minLength: 1 },
    );
    await fc.assert(
      fc.asyncProperty(header, table, fc.constantFrom(...VERBS), (columns, rows, words) =>
        answers(words, `${columns.join(',')}\n${rows}`),
      ),
      { numRuns: 600 },
    );
  }, 60_000);

  it('answers whatever the text', async () => {
    const text = fc.oneof(fc.string({ unit: 'binary', maxLength: 80 }), fc.json());
    await fc.assert(
      fc.asyncProperty(text, fc.constantFrom(...VERBS), (junk, words) => answers(words, junk)),
      { numRuns: 600 },
    );
  }, 60_000);
});
