/**
 * Whether a file of trial pieces numbers its spots and gives no exposures at all: the header tells.
 */
import type { CommandIo } from '../io.ts';

export interface Peeked {
  /** Gives the file's text again, the beginning included. */
  readonly io: CommandIo;
  readonly stepsAlone: boolean;
}

/** Reads as far as the header; nothing of the text is lost. */
export async function peekedHeader(file: string, io: CommandIo): Promise<Peeked> {
  const pieces = io.readText(file)[Symbol.asyncIterator]();
  let begun = '';
  let ended = false;
  while (!ended && !/[^\s\uFEFF][^\n\r]*[\n\r]/.test(begun)) {
    const next = await pieces.next();
    if (next.done === true) ended = true;
    else begun += next.value;
  }
  const header =
    begun
      .trimStart()
      .split(/[\n\r]/)[0]
      ?.toLowerCase() ?? '';
  const names = header.split(/[,;\t]/).map((name) => name.trim().replaceAll(/["\uFEFF]/g, ''));
  async function* again(): AsyncGenerator<string> {
    if (begun !== '') yield begun;
    while (!ended) {
      const next = await pieces.next();
      if (next.done === true) ended = true;
      else yield next.value;
    }
  }
  return {
    io: { ...io, readText: (asked) => (asked === file ? again() : io.readText(asked)) },
    stepsAlone:
      names.includes('step') && !names.some((name) => /^(log_exposure|tablet_density)$/.test(name)),
  };
}
