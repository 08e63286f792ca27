/** Files and streams in memory, for tests of the command. */
import { inputFault } from '@wedgebook/notebook';
import { run } from './run.ts';

export interface Ran {
  readonly exitCode: number;
  readonly stdout: string;
  readonly stderr: string;
  /** What was written, by file. */
  readonly written: Readonly<Record<string, string>>;
}

/**
 * Runs the command in this process.
 *
 * @param words - as typed after the command's name
 * @param files - texts by name; `-` is standard input
 */
export async function ran(
  words: readonly string[],
  files: Readonly<Record<string, string>> = {},
): Promise<Ran> {
  let stdout = '';
  let stderr = '';
  const written: Record<string, string> = {};
  const exitCode = await run(words, {
    stdout: (text) => {
      stdout += text;
    },
    stderr: (text) => {
      stderr += text;
    },
    write: (text) => {
      stdout += text;
      return Promise.resolve();
    },
    spool: () => {
      const held: string[] = [];
      return {
        add: (text) => held.push(text),
        pieces: async function* () {
          await Promise.resolve();
          yield* held;
        },
        drop: () => held.splice(0),
      };
    },
    filesIn: (file) => {
      const inside = Object.keys(files).filter((name) => name.startsWith(`${file}/`));
      return Promise.resolve(inside.length === 0 ? null : inside);
    },
    isSameFile: (one, other) => Promise.resolve(one !== '-' && one === other),
    readText: (file) => piecesOf(file, files[file]),
    writeText: async (file, text) => {
      written[file] = '';
      for await (const piece of typeof text === 'string' ? [text] : text) written[file] += piece;
    },
    today: () => '2026-11-25',
  });
  return { exitCode, stdout, stderr, written };
}

async function* piecesOf(file: string, text: string | undefined): AsyncGenerator<string> {
  if (text === undefined) throw inputFault.unreadable({ file }, 'there is no such file');
  await Promise.resolve();
  for (let i = 0; i < text.length; i += 1000) yield text.slice(i, i + 1000);
}
