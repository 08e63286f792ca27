/**
 * The published schema: current, and read alike by a validator that is not ours.
 *
 * After a change of schema.ts or document.ts: `npx vitest run packages/notebook/src/saving/json-schema.test.ts -u`.
 */
import { readFileSync } from 'node:fs';
import Ajv from 'ajv/dist/2020.js';
import { demoNotebook } from '@wedgebook/data';
import fc from 'fast-check';
import { format } from 'prettier';
import { describe, expect, it } from 'vitest';
import { notebookJsonSchema } from '../../../../test/notebook-json-schema.ts';
import { emptyDocument } from '../document/empty-document.ts';
import { SAMPLE } from '../document/sample-document.ts';
import { migrated, SCHEMA_VERSION } from './migrations.ts';
import { savedNotebook } from './save-notebook.ts';
import { firstFault } from './schema.ts';

const FILE = '../../schema/notebook.schema.json';
const published = JSON.parse(readFileSync(new URL(FILE, import.meta.url), 'utf8')) as Record<
  string,
  unknown
>;
const accepts = new Ajv.default({ strict: true, strictTypes: false }).compile(published);
const fixture = (version: number) =>
  JSON.parse(
    readFileSync(new URL(`./fixtures/notebook-${version}.json`, import.meta.url), 'utf8'),
  ) as { document: unknown };

describe('the published schema', () => {
  it('is what the program checks by', async () => {
    const text = await format(JSON.stringify(notebookJsonSchema()), {
      parser: 'json',
      printWidth: 100,
    });
    await expect(text).toMatchFileSnapshot(FILE);
  });

  it('is a schema of 2020-12 in which every part of the notebook says what it is', () => {
    expect(published['$schema']).toBe('https://json-schema.org/draft/2020-12/schema');
    const definitions = published['$defs'] as Record<string, { description: string }>;
    for (const [name, { description }] of Object.entries(definitions)) {
      expect(description.length, name).toBeGreaterThan(10);
    }
  });

  it.each([
    ['the demonstration notebook', demoNotebook],
    ['an empty notebook', savedNotebook(emptyDocument())],
    ['the sample', savedNotebook(SAMPLE)],
    ['the fixture of the present version', fixture(SCHEMA_VERSION)],
    ...Array.from({ length: SCHEMA_VERSION - 1 }, (_, index): [string, unknown] => [
      `the fixture of version ${index + 1}, migrated`,
      savedNotebook(migrated(fixture(index + 1).document, index + 1) as never),
    ]),
  ])('accepts %s', (_what, notebook) => {
    accepts(notebook);
    expect(accepts.errors ?? []).toEqual([]);
  });

  it('refuses an older form that was not migrated', () => {
    expect(accepts(fixture(2))).toBe(false);
  });

  it('refuses what the program refuses, and accepts what it accepts', () => {
    const paths = pathsOf(SAMPLE);
    const value = fc.oneof(
      fc.constant(undefined),
      fc.jsonValue({ maxDepth: 1 }),
      fc.constantFrom('', 'x', 'selenium', 'strip', 'gamma', 1, -1, 0.5, null, true),
    );
    let refused = 0;
    fc.assert(
      fc.property(fc.constantFrom(...paths), value, (path, other) => {
        const broken = withValue(SAMPLE, path, other);
        const sound = firstFault(broken) === null;
        if (!sound) refused += 1;
        const said = { ...savedNotebook(SAMPLE), document: broken };
        expect(accepts(said), `${path.join('.')} = ${JSON.stringify(other)}`).toBe(sound);
      }),
      { numRuns: 2000 },
    );
    expect(refused).toBeGreaterThan(500);
  });
});

type Path = readonly string[];

function pathsOf(value: unknown, at: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [at];
  const inside = Object.entries(value).flatMap(([key, each]) => pathsOf(each, [...at, key]));
  return at.length === 0 ? inside : [at, ...inside];
}

/** A copy with another value at the path; undefined removes the field. */
function withValue(root: unknown, path: Path, value: unknown): unknown {
  const copy = JSON.parse(JSON.stringify(root)) as Record<string, unknown>;
  let holder = copy;
  for (const key of path.slice(0, -1)) holder = holder[key] as Record<string, unknown>;
  const last = path.at(-1) ?? '';
  if (value !== undefined) holder[last] = value;
  else if (Array.isArray(holder)) holder.splice(Number(last), 1);
  else Reflect.deleteProperty(holder, last);
  return copy;
}
