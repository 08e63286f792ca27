/**
 * `npm run bench`: lists the benchmarks of test/bench; `npm run bench -- NAME …` runs one through
 * Vite's module loader, so that TypeScript and the sources of the packages need no build.
 */
import { readdirSync } from 'node:fs';
import path from 'node:path';
import { createServer } from 'vite';

const ROOT = path.resolve(import.meta.dirname, '..');
const FOLDER = path.join(ROOT, 'test', 'bench');
const names = readdirSync(FOLDER)
  .filter((file) => file.endsWith('.bench.ts'))
  .map((file) => file.slice(0, -'.bench.ts'.length));

const [name] = process.argv.slice(2);
if (name === undefined) {
  console.log(`Benchmarks, run with \`npm run bench -- NAME\`:\n  ${names.join('\n  ')}`);
} else if (!names.includes(name)) {
  console.error(`No benchmark named ${name}; there are: ${names.join(', ')}`);
  process.exitCode = 2;
} else {
  const server = await createServer({
    root: ROOT,
    configFile: false,
    logLevel: 'error',
    appType: 'custom',
    server: { middlewareMode: true, hmr: false, ws: false },
    optimizeDeps: { noDiscovery: true },
    ssr: {
      resolve: { conditions: ['wedgebook-source', 'node', 'import', 'default'] },
      noExternal: [/^@wedgebook\//],
    },
  });
  try {
    const { main } = await server.ssrLoadModule(path.join(FOLDER, `${name}.bench.ts`));
    await main(process.argv.slice(3));
  } finally {
    await server.close();
  }
}
