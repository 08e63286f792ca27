/**
 * What the fitting room adds to the app: `npm run bench -- fitting-size`.
 *
 * The app is bundled as it is shipped, then again with each part of the room emptied: every function
 * of the part becomes a name without a body, so that all else stays as it is. The difference of the
 * gzip sizes of the first load is what the part adds. Parts share words, which gzip stores once, so
 * that they add up to less than the whole. Last stands what the app loads after its first paint.
 */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { gzipSync } from 'node:zlib';
import { build, type Rolldown } from 'vite';

const APP = path.resolve('apps/web');
const ROOM = path.resolve('packages/core/src/fitting');

const PARTS: readonly (readonly [string, (file: string) => boolean])[] = [
  ['the whole room', () => true],
  [
    'least squares with covariance',
    (file) =>
      /^(least-squares|linearisation|trust-region|accelerated|pivoted|fit-from|search|covariance-from|check-problem)/.test(
        file,
      ),
  ],
  ['fit of a model', (file) => file === 'fit-model.ts'],
  ['families with their starts', (file) => file.startsWith('models/')],
  ['monotone smooth curve', (file) => /^(monotone|cholesky)/.test(file)],
  ['curve as drawn', (file) => file.startsWith('as-drawn')],
  [
    'tests of lack of fit, distributions',
    (file) => /^(lack|serial|tangent|incomplete|student|f-dist)/.test(file),
  ],
];

/** The room's modules, by path within it; the entry passes names on and holds nothing itself. */
function modulesOfRoom(): string[] {
  return readdirSync(ROOM, { recursive: true, encoding: 'utf8' }).filter(
    (file) => file.endsWith('.ts') && file !== 'index.ts' && !/\.(test|d)\.ts$/.test(file),
  );
}

/** The names that a module exports as values, each standing for nothing. */
function emptied(source: string): string {
  const declared = source.matchAll(/^export (?:async )?(?:function\*?|const|let|class) (\w+)/gm);
  const listed = source.matchAll(/^export \{([^}]*)\}/gm);
  const names = new Set([
    ...Array.from(declared, ([, name = '']) => name),
    ...Array.from(listed, ([, list = '']) => list.split(','))
      .flat()
      .map((entry) => entry.trim())
      .filter((entry) => entry !== '' && !entry.startsWith('type '))
      .map((entry) => entry.split(/ as /).at(-1) ?? entry),
  ]);
  return [...names]
    .map((name) => `export const ${name} = /*#__PURE__*/ globalThis.absent();`)
    .join('\n');
}

interface Sizes {
  /** Before the first paint, in bytes gzip. */
  readonly first: number;
  /** Chunks loaded later that hold modules of the room. */
  readonly later: readonly (readonly [string, number])[];
}

async function sizes(absent: ReadonlySet<string>): Promise<Sizes> {
  const result = await build({
    root: APP,
    configFile: path.join(APP, 'vite.config.ts'),
    logLevel: 'error',
    build: { write: false, sourcemap: false, reportCompressedSize: false },
    plugins: [
      {
        name: 'without-part',
        enforce: 'pre',
        load(id) {
          return absent.has(id) ? emptied(readFileSync(id, 'utf8')) : null;
        },
      },
    ],
  });
  const [{ output }] = [result].flat() as [Rolldown.RolldownOutput];
  const chunks = output.filter((one) => one.type === 'chunk');
  const byName = new Map(chunks.map((chunk) => [chunk.fileName, chunk]));
  const first = new Set<string>();
  const take = (name: string): void => {
    if (first.has(name)) return;
    first.add(name);
    for (const imported of byName.get(name)?.imports ?? []) take(imported);
  };
  for (const chunk of chunks) if (chunk.isEntry) take(chunk.fileName);
  const sizeOf = (name: string): number => gzipSync(byName.get(name)?.code ?? '').length;
  return {
    first: [...first].reduce((sum, name) => sum + sizeOf(name), 0),
    later: chunks
      .filter(({ fileName, moduleIds }) => {
        return !first.has(fileName) && moduleIds.some((id) => id.startsWith(ROOM));
      })
      .map(({ fileName, name }) => [name, sizeOf(fileName)] as const),
  };
}

/** Prints the table. */
export async function main(): Promise<void> {
  // Under the bench's own server the build would take the development files of libraries.
  process.env['NODE_ENV'] = 'production';
  const files = modulesOfRoom();
  const whole = await sizes(new Set());
  const kB = (bytes: number): string => (bytes / 1000).toFixed(1);
  console.log(`First load of the app: ${kB(whole.first)} kB gzip\n`);
  console.log('| part of the fitting room | kB gzip |\n|---|---|');
  for (const [title, isPart] of PARTS) {
    const absent = new Set(files.filter(isPart).map((file) => path.join(ROOM, file)));
    console.log(`| ${title} | ${kB(whole.first - (await sizes(absent)).first)} |`);
  }
  for (const [name, size] of whole.later) console.log(`| later: ${name} | ${kB(size)} |`);
}
