/**
 * Whatever stands in a table, `fit` gives finite parameters, or one line that says what is wrong.
 * WILD_TABLES=5000 makes a long run of it.
 */
import { MODELS } from '@wedgebook/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ran } from '../memory-io.ts';

const numRuns = Number(process.env['WILD_TABLES'] ?? 60);

/** Numbers as a table may hold them: usual ones, and those that overflow when squared or divided. */
const usual = fc.double({ min: -5, max: 50, noNaN: true }).map((x) => x.toFixed(2));
const hostile = fc.constantFrom(
  ...['0', '-0', '1e-300', '1e-12', '1e12', '1e150', '-1e150', '1e308', '-1e308', '5e-324'],
  ...['', 'nan', 'Infinity', '1e999', 'x', '1,5'],
);
const cell = fc.oneof({ weight: 30, arbitrary: usual }, hostile);

/** Rows of x, y and weight: free, all on one x, all of one y, on a line, or a smooth rise. */
const table = fc
  .record({
    shape: fc.constantFrom('free', 'one x', 'one y', 'line', 'rise', 'huge', 'tiny'),
    rows: fc.array(fc.tuple(cell, cell, usual), { maxLength: 14 }),
    spoilt: fc.array(fc.tuple(fc.nat(), hostile), { maxLength: 1 }),
  })
  .map(({ shape, rows, spoilt }) => {
    const scale = shape === 'huge' ? 1e200 : shape === 'tiny' ? 1e-200 : 1;
    const lines = rows.map(([x, y, w], i): [string, string, string] => {
      const weight = String(Math.abs(Number(w)) || 1);
      if (shape === 'free') return [x, y, weight];
      if (shape === 'one x') return ['1', y, weight];
      if (shape === 'one y') return [String(i), '1', weight];
      const height = shape === 'line' ? 2 - 0.3 * i : 0.1 + 2 / (1 + Math.exp(3 - 0.6 * i));
      return [String(i), String(scale * height), weight];
    });
    for (const [at, value] of spoilt) {
      const line = lines[at % Math.max(1, lines.length)];
      if (line) line[at % 2] = value;
    }
    return ['x,y,w', ...lines.map((line) => line.join(','))].join('\n');
  });

/** Every number of the answer, by its path; JSON has no other word for what is not finite than null. */
function nulls(value: unknown, path: string): string[] {
  if (value === null) return [path];
  if (typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, inner]) => nulls(inner, `${path}.${key}`));
}

/** What may be unknown: errors, and what follows from them. */
const MAY_BE_NULL = /\.(standardError|residualStandardDeviation|covariance|interval)$/;

describe.each(MODELS.map(({ name }) => name))('fit of %s to wild tables', (model) => {
  const words = ['fit', '-', '--model', model, '--x', 'x', '--y', 'y'];
  it.each([[[]], [['--robust']], [['--weights', 'w', '--covariance']], [['--predict', '3']]])(
    'answers with %j',
    async (more) => {
      await fc.assert(
        fc.asyncProperty(table, async (text) => {
          const { exitCode, stdout, stderr } = await ran([...words, ...more, '--json'], {
            '-': text,
          });
          expect(stderr, stderr).not.toContain('should not have happened');
          if (exitCode !== 0) {
            expect([1, 2]).toContain(exitCode);
            expect(stdout).toBe('');
            if (exitCode === 1) expect(stderr.trimEnd().split('\n')).toHaveLength(1);
            return;
          }
          const answer: unknown = JSON.parse(stdout);
          expect(nulls(answer, '').filter((path) => !MAY_BE_NULL.test(path))).toEqual([]);
          const readable = await ran([...words, ...more], { '-': text });
          expect(readable.stdout).not.toMatch(/\bNaN\b|Infinity|undefined/);
        }),
        { numRuns, seed: 1890 },
      );
    },
  );
});
