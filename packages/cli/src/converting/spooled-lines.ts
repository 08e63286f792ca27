import type { Spool } from '../io.ts';

/** What was spooled, line by line; every line ends in a line feed. */
export async function* spooledLines(spool: Spool): AsyncGenerator<string> {
  let begun = '';
  for await (const piece of spool.pieces()) {
    const lines = (begun + piece).split('\n');
    begun = lines.pop() ?? '';
    yield* lines;
  }
}
