/**
 * `npm test`: types, lint, format, unused code, unit tests, published checks, command and browser
 * tests. Everything runs even where something failed, and the last line counts all of it.
 */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { ensureChromium } from './chromium.mjs';
import { ensureLcms2 } from './lcms2.mjs';

const ROOT = path.resolve(import.meta.dirname, '..');
const bin = (name) => path.join(ROOT, 'node_modules', '.bin', name);
const run = (command, args, env = {}) => {
  console.log(`\n> ${path.basename(command)} ${args.join(' ')}`);
  const { status } = spawnSync(command, args, {
    cwd: ROOT,
    stdio: 'inherit',
    env: { ...process.env, ...env },
  });
  return status === 0;
};

/** Runs a command beside the others; what it said is shown once it has ended. */
const beside = async (command, args) => {
  let said = `\n> ${path.basename(command)} ${args.join(' ')}\n`;
  const keep = (text) => {
    said += text;
  };
  const child = spawn(command, args, { cwd: ROOT, stdio: ['ignore', 'pipe', 'pipe'] });
  child.stdout.setEncoding('utf8').on('data', keep);
  child.stderr.setEncoding('utf8').on('data', keep);
  const ok = await new Promise((resolve) => {
    child.on('error', ({ message }) => {
      keep(message);
      resolve(false);
    });
    child.on('close', (status) => {
      resolve(status === 0);
    });
  });
  console.log(said);
  return ok;
};

let passed = 0;
let failed = 0;
const count = (ok) => {
  if (ok) passed += 1;
  else failed += 1;
};

count(run(bin('tsc'), ['-b']));
// These three need nothing of what follows, and what follows needs nothing of them.
const style = [
  beside(bin('eslint'), ['.', '--max-warnings', '0']),
  beside(bin('prettier'), ['--check', '--log-level', 'warn', '.']),
  // Files, exports and dependencies that nothing uses.
  beside(bin('knip'), []),
];
// The command and browser tests drive what a user gets: the built command, the built app.
const built =
  run(process.execPath, [
    bin('vite'),
    'build',
    'packages/cli',
    '--config',
    'packages/cli/vite.config.ts',
    '--logLevel',
    'warn',
  ]) &&
  run(process.execPath, [
    bin('vite'),
    'build',
    'apps/web',
    '--config',
    'apps/web/vite.config.ts',
    '--logLevel',
    'warn',
  ]);
count(built);

let chromium;
try {
  chromium = ensureChromium();
} catch (error) {
  console.error(error.message);
  count(false);
}

try {
  ensureLcms2();
} catch (error) {
  // The check itself fails with the same reason.
  console.error(error.message);
}

for (const ok of await Promise.all(style)) count(ok);

const scratch = mkdtempSync(path.join(tmpdir(), 'wedgebook-test-'));
const report = path.join(scratch, 'report.json');
const projects = ['unit', 'published', 'command', ...(chromium === undefined ? [] : ['browser'])];
const ok = run(
  bin('vitest'),
  [
    'run',
    ...projects.flatMap((name) => ['--project', name]),
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
  ],
  {
    ...(chromium === undefined ? {} : { WEDGEBOOK_CHROMIUM: chromium }),
    ...(built ? { WEDGEBOOK_APP_IS_BUILT: '1' } : {}),
  },
);
if (existsSync(report)) {
  const { numPassedTests, numFailedTests, numPendingTests } = JSON.parse(
    readFileSync(report, 'utf8'),
  );
  passed += numPassedTests;
  // A skipped test is a check that did not run.
  failed += numFailedTests + numPendingTests;
  if (!ok && numFailedTests === 0) failed += 1;
} else {
  failed += 1;
}
rmSync(scratch, { recursive: true, force: true });

console.log(`\n${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
