/** The command as a user gets it: the bundle behind `npx wedgebook`, in a process of its own. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const BUNDLE = fileURLToPath(new URL('../../packages/cli/dist/wedgebook.js', import.meta.url));
export const PROGRAM = fileURLToPath(
  new URL('../../packages/cli/bin/wedgebook.js', import.meta.url),
);

/** Builds the command where it is not built yet; `npm test` builds it afresh beforehand. */
export function ensureBuilt(): void {
  if (existsSync(BUNDLE)) return;
  const built = spawnSync('npm', ['run', 'build:cli'], { cwd: ROOT, encoding: 'utf8' });
  if (built.status !== 0) throw new Error(`the command cannot be built:\n${built.stderr}`);
}

export interface Result {
  readonly exitCode: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/**
 * @param words - what follows the command's name
 * @param options - standard input, and the folder to stand in (the project's root by default)
 */
export function wedgebook(
  words: readonly string[],
  options: { readonly input?: string | Uint8Array; readonly cwd?: string } = {},
): Result {
  const { input = '', cwd = ROOT } = options;
  const { status, stdout, stderr } = spawnSync(process.execPath, [PROGRAM, ...words], {
    cwd,
    input,
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  return { exitCode: status, stdout, stderr };
}
