/** Runs every `@example` of core: each line is `expression; // => value`. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { runInNewContext } from 'node:vm';
import { describe, expect, it } from 'vitest';
import { ansiGradeTable } from '../../../test/selenium-bath.ts';
import { expectWithin } from '../../../test/within.ts';
import * as core from './index.ts';
import * as quantities from './quantities/index.ts';

const SOURCE = import.meta.dirname;
const scope: Record<string, unknown> = { ...core, ...quantities, table: ansiGradeTable };

interface Example {
  readonly place: string;
  readonly code: string;
  readonly value: string;
}

const examples = readdirSync(SOURCE, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.name.endsWith('.ts') && !entry.name.endsWith('.test.ts'))
  .flatMap((entry) => examplesOf(path.join(entry.parentPath, entry.name)));

describe('examples in the docstrings of core', () => {
  it('are there', () => {
    expect(examples.length).toBeGreaterThan(30);
  });

  it.each(examples)('$place: $code', ({ code, value }) => {
    const run = (text: string): unknown => runInNewContext(`(${text})`, { ...scope });
    expectSame(run(code), run(value));
  });
});

function examplesOf(file: string): Example[] {
  const place = path.relative(SOURCE, file);
  const found: Example[] = [];
  for (const [block] of readFileSync(file, 'utf8').matchAll(/\/\*\*[\s\S]*?\*\//g)) {
    const at = block.indexOf('@example');
    if (at < 0) continue;
    const text = block
      .slice(at + '@example'.length, block.length - 2)
      .split('\n')
      .map((line) => line.replace(/^\s*\*\s?/, ''))
      .join('\n')
      .split('\n@')[0];
    // A statement ends with its value in a comment, on the same or the next line.
    for (const [, code, value] of (text ?? '').matchAll(/([^;]+);\s*\/\/ => (.+)/g)) {
      if (code !== undefined && value !== undefined) {
        found.push({ place, code: code.trim(), value: value.trim() });
      }
    }
  }
  return found;
}

/** Equal in shape, numbers to eight figures: docstrings do not print the last bit of a double. */
function expectSame(actual: unknown, expected: unknown): void {
  const apart = (value: unknown): { shape: string; numbers: number[] } => {
    const numbers: number[] = [];
    const shape = JSON.stringify(value, (_, item: unknown) => {
      if (typeof item !== 'number') return item;
      numbers.push(item);
      return '#';
    });
    return { shape, numbers };
  };
  const found = apart(actual);
  const stated = apart(expected);
  expect(found.shape).toBe(stated.shape);
  stated.numbers.forEach((number, i) => {
    expectWithin(found.numbers[i] ?? NaN, number, 2e-8 * Math.max(1, Math.abs(number)));
  });
}
