/** The command's files and streams on Node. */
import { createReadStream } from 'node:fs';
import { once } from 'node:events';
import { open, readdir, stat, type FileHandle } from 'node:fs/promises';
import path from 'node:path';
import { InputError, inputFault } from '@wedgebook/notebook';
import type { CommandIo } from './io.ts';
import { spool } from './spool.ts';

/** Larger files are refused before they are read. */
const MOST_BYTES = 2_000_000_000;
/** What a directory of readings is searched for. */
const SUFFIXES = ['.csv', '.tsv', '.txt', '.cgats', '.json'];

export function nodeIo(): CommandIo {
  return {
    stdout: (text) => process.stdout.write(text),
    stderr: (text) => process.stderr.write(text),
    write: async (text) => {
      if (process.stdout.destroyed || process.stdout.write(text)) return;
      await once(process.stdout, 'drain').catch(() => undefined);
    },
    spool,
    readText,
    writeText,
    filesIn,
    isSameFile,
    today: () => new Date().toISOString().slice(0, 10),
  };
}

async function* readText(file: string): AsyncGenerator<string> {
  const place = { file: file === '-' ? 'standard input' : file };
  let source: AsyncIterable<Uint8Array>;
  if (file === '-') {
    source = process.stdin;
  } else {
    const { size } = await stated(file);
    if (size > MOST_BYTES) throw inputFault.tooLarge(place, `${MOST_BYTES / 1e6} MB`);
    source = createReadStream(file, { highWaterMark: 1 << 18 });
  }
  const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
  let begun = false;
  for await (const bytes of source) {
    if (!begun && isUtf16(bytes)) throw inputFault.encoding(place);
    if (bytes.includes(0)) throw inputFault.binary(place);
    begun = true;
    yield decoded(() => decoder.decode(bytes, { stream: true }), place);
  }
  yield decoded(() => decoder.decode(), place);
}

function decoded(decode: () => string, place: { file: string }): string {
  try {
    return decode();
  } catch {
    throw inputFault.encoding(place);
  }
}

const isUtf16 = (bytes: Uint8Array): boolean =>
  (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);

async function filesIn(file: string): Promise<readonly string[] | null> {
  if (file === '-' || !(await isDirectory(file))) return null;
  try {
    const entries = await readdir(file, { withFileTypes: true });
    return entries
      .filter(
        (entry) => entry.isFile() && SUFFIXES.includes(path.extname(entry.name).toLowerCase()),
      )
      .map(({ name }) => path.join(file, name))
      .toSorted();
  } catch (error) {
    throw inputFault.unreadable({ file }, reasonOf(error));
  }
}

/** By the file itself, since `./a.csv`, a link and `a.csv` can be one. */
async function isSameFile(one: string, other: string): Promise<boolean> {
  if (one === '-' || other === '-') return false;
  if (path.resolve(one) === path.resolve(other)) return true;
  try {
    const [a, b] = await Promise.all([stat(one), stat(other)]);
    return a.dev === b.dev && a.ino === b.ino;
  } catch {
    // What is not there is no other file's double.
    return false;
  }
}

/** Whatever else is wrong with a file is told when it is read. */
async function isDirectory(file: string): Promise<boolean> {
  try {
    return (await stat(file)).isDirectory();
  } catch {
    return false;
  }
}

async function stated(file: string): Promise<{ size: number }> {
  try {
    const found = await stat(file);
    if (found.isDirectory()) throw inputFault.directory({ file });
    // Opened once for the permissions: a stream would report them too late.
    await (await open(file)).close();
    return found;
  } catch (error) {
    if (error instanceof InputError) throw error;
    throw inputFault.unreadable({ file }, reasonOf(error));
  }
}

async function writeText(file: string, text: string | AsyncIterable<string>): Promise<void> {
  const pieces = typeof text === 'string' ? [text] : text;
  if (file === '-') {
    for await (const piece of pieces) process.stdout.write(piece);
    return;
  }
  let into: FileHandle | undefined;
  try {
    for await (const piece of pieces) {
      if (into === undefined) {
        await requireSameKind(file, piece);
        into = await open(file, 'w');
      }
      await into.writeFile(piece);
    }
  } catch (error) {
    if (error instanceof InputError) throw error;
    const { code } = error as NodeJS.ErrnoException;
    const reason = code === 'ENOENT' ? 'there is no such directory' : reasonOf(error);
    throw inputFault.unwritable({ file }, reason);
  } finally {
    await into?.close();
  }
}

async function requireSameKind(file: string, text: string): Promise<void> {
  let there: FileHandle;
  try {
    there = await open(file);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return;
    throw error;
  }
  try {
    const { buffer, bytesRead } = await there.read(Buffer.alloc(LOOKED_AT), 0, LOOKED_AT, 0);
    const begins = buffer.toString('utf8', 0, bytesRead);
    if (begins.trim() !== '' && firstCharacters(begins) !== firstCharacters(text)) {
      throw inputFault.wouldReplace({ file });
    }
  } finally {
    await there.close();
  }
}

/** Bytes of a file that tell its kind. */
const LOOKED_AT = 1000;

/** Enough to tell a chart from a file of readings. */
const firstCharacters = (text: string): string => text.trimStart().slice(0, 4);

function reasonOf(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  const known: Readonly<Record<string, string>> = {
    ENOENT: 'there is no such file',
    EACCES: 'permission is denied',
    EPERM: 'permission is denied',
    EISDIR: 'this is a directory',
    ENOTDIR: 'a part of the path is no directory',
    ENOSPC: 'the disk is full',
  };
  return known[code] ?? `the system says ${code === '' ? String(error) : code}`;
}
