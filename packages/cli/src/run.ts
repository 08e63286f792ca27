/**
 * The command: from words to an exit code. Nothing goes to standard output unless all went well.
 */
import { WedgebookError } from '@wedgebook/core';
import { InputError } from '@wedgebook/notebook';
import { parsedArguments } from './input/arguments.ts';
import type { CommandIo } from './io.ts';
import { GENERAL_HELP, HELP } from './help-text.ts';
import { MESSAGES, USAGE, VERSION_LINE } from './text.ts';
import { UsageError } from './usage-error.ts';
import { convert } from './verbs/convert.ts';
import { film } from './verbs/film.ts';
import { fit } from './verbs/fit.ts';
import { match } from './verbs/match.ts';
import { paper } from './verbs/paper.ts';
import { plot } from './verbs/plot.ts';
import { print } from './verbs/print.ts';
import { times } from './verbs/times.ts';
import { treat } from './verbs/treat.ts';
import type { Verb } from './verbs/verb.ts';

/** Every verb of the command. */
export const VERBS = {
  film,
  paper,
  match,
  treat,
  fit,
  plot,
  times,
  print,
  convert,
} as const satisfies Readonly<Record<string, Verb>>;

export type VerbName = keyof typeof VERBS;

/** Exit codes of the contract. */
const SUCCESS = 0;
const BAD_INPUT = 1;
const WRONG_USAGE = 2;

const isVerb = (name: string): name is VerbName => Object.hasOwn(VERBS, name);

/**
 * Runs the command.
 *
 * @param words - what was typed after the command's name
 * @param io - files and streams
 * @returns the exit code: 0 success, 1 bad input, 2 wrong usage
 */
export async function run(words: readonly string[], io: CommandIo): Promise<number> {
  const [name, ...rest] = words;
  if (name === '--version' || name === '-V') {
    io.stdout(VERSION_LINE);
    return SUCCESS;
  }
  if (name === '--help' || name === '-h' || name === 'help') {
    const [about] = rest;
    if (about !== undefined && !isVerb(about)) return noSuchVerb(about, io);
    io.stdout(about === undefined ? GENERAL_HELP : HELP[about]);
    return SUCCESS;
  }
  if (name === undefined || !isVerb(name)) return noSuchVerb(name, io);
  return runVerb(name, rest, io);
}

function noSuchVerb(name: string | undefined, io: CommandIo): number {
  const fault =
    name === undefined
      ? USAGE.noVerb
      : name.startsWith('-')
        ? USAGE.verbFirst(name)
        : USAGE.unknownVerb(name, Object.keys(VERBS));
  io.stderr(MESSAGES.usage(fault, null));
  return WRONG_USAGE;
}

async function runVerb(name: VerbName, words: readonly string[], io: CommandIo): Promise<number> {
  const verb: Verb = VERBS[name];
  try {
    if (words.includes('--help') || words.includes('-h')) {
      io.stdout(HELP[name]);
      return SUCCESS;
    }
    const given = parsedArguments(words, verb.options);
    const outcome = await verb.run(given, io);
    if ('pieces' in outcome) {
      for await (const piece of outcome.pieces) await io.write(piece);
      return SUCCESS;
    }
    io.stdout(given.flag('json') ? `${JSON.stringify(outcome.json, null, 2)}\n` : outcome.text());
    return SUCCESS;
  } catch (error) {
    if (error instanceof UsageError) {
      io.stderr(MESSAGES.usage(error.message, name));
      return WRONG_USAGE;
    }
    if (error instanceof InputError) {
      io.stderr(MESSAGES.input(error.message));
      return BAD_INPUT;
    }
    const what = error instanceof WedgebookError ? error.message : String(error);
    io.stderr(MESSAGES.unexpected(what));
    return BAD_INPUT;
  }
}
