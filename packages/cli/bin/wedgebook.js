#!/usr/bin/env node
// Committed so that npm can link the command at install time; the program itself is built.
import { existsSync } from 'node:fs';

const program = new URL('../dist/wedgebook.js', import.meta.url);
if (existsSync(program)) {
  await import(program.href);
} else {
  console.error(
    'wedgebook: the command is not built yet; run `npm run build` in the project root.',
  );
  process.exitCode = 2;
}
