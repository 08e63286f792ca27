/** A verb of the command. */
import type { Arguments, OptionKinds } from '../input/arguments.ts';
import type { CommandIo, Outcome, Streamed } from '../io.ts';

export interface Verb {
  readonly options: OptionKinds;
  readonly run: (given: Arguments, io: CommandIo) => Promise<Outcome | Streamed>;
}
