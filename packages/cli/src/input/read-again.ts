/**
 * Standard input that can be read a second time, as a file can: what has come of it is kept, on disk
 * where it is long. Strips can then be measured while they come, and a file whose strips lie
 * scattered is still read as a whole.
 */
import type { CommandIo } from '../io.ts';

export interface ReadAgain {
  /** As the one given, but for `-`, which can be read twice. */
  readonly io: CommandIo;
  /** Forgets what was kept: standard input will not be read again. */
  readonly forget: () => void;
}

export function readAgain(io: CommandIo): ReadAgain {
  const kept = io.spool();
  let source: AsyncIterator<string> | null = null;

  async function* standardInput(): AsyncGenerator<string> {
    const first = source === null;
    source ??= io.readText('-')[Symbol.asyncIterator]();
    if (!first) yield* kept.pieces();
    // Not `for await`: whoever stops early would close standard input for the second reading.
    for (let step = await source.next(); step.done !== true; step = await source.next()) {
      if (first) kept.add(step.value);
      yield step.value;
    }
  }
  return {
    io: { ...io, readText: (file) => (file === '-' ? standardInput() : io.readText(file)) },
    forget: kept.drop,
  };
}
