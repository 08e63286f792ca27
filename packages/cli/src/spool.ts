/**
 * A long output that is shown only when all has gone well: in memory while it is short, else in a
 * temporary file that nobody else can read.
 */
import { closeSync, createReadStream, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Spool } from './io.ts';

/** Characters held before they are written. */
const HELD = 4_000_000;

export function spool(): Spool {
  let held: string[] = [];
  let length = 0;
  let file: { readonly folder: string; readonly name: string; readonly descriptor: number } | null =
    null;

  const write = (): void => {
    if (file === null) {
      const folder = mkdtempSync(path.join(tmpdir(), 'wedgebook-'));
      const name = path.join(folder, 'output');
      file = { folder, name, descriptor: openSync(name, 'wx', 0o600) };
      process.once('exit', drop);
    }
    const bytes = Buffer.from(held.join(''));
    for (let at = 0; at < bytes.length;) at += writeSync(file.descriptor, bytes, at);
    held = [];
    length = 0;
  };
  const drop = (): void => {
    held = [];
    if (file === null) return;
    const { folder, descriptor } = file;
    file = null;
    process.removeListener('exit', drop);
    closeSync(descriptor);
    rmSync(folder, { recursive: true, force: true });
  };
  return {
    add: (text) => {
      held.push(text);
      length += text.length;
      if (length > HELD) write();
    },
    pieces: async function* () {
      if (file !== null) {
        write();
        for await (const piece of createReadStream(file.name, 'utf8')) yield piece as string;
      }
      yield held.join('');
      drop();
    },
    drop,
  };
}
