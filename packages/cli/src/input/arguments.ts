/**
 * The words after a verb, parsed and checked. Everything wrong here is wrong usage.
 */
import { parseArgs, type ParseArgsConfig } from 'node:util';
import { USAGE } from '../text.ts';
import { nearestName } from './nearest-name.ts';
import { UsageError } from '../usage-error.ts';

export type OptionKinds = NonNullable<ParseArgsConfig['options']>;

export interface Arguments {
  readonly positionals: readonly string[];
  readonly flag: (name: string) => boolean;
  readonly has: (name: string) => boolean;
  readonly text: (name: string) => string | undefined;
  /** A number within limits, which are included. */
  readonly number: (name: string, lowest: number, highest: number) => number | undefined;
  /** Numbers separated by commas. */
  readonly numbers: (name: string) => readonly number[] | undefined;
  readonly choice: <T extends string>(name: string, choices: readonly T[]) => T | undefined;
}

/**
 * @param words - what follows the verb
 * @param options - the verb's own options; `json` and `help` are added
 * @throws {UsageError} for unknown options, missing values and options given twice
 */
export function parsedArguments(words: readonly string[], options: OptionKinds): Arguments {
  let parsed;
  try {
    parsed = parseArgs({
      args: withNegativeNumbers(words, options),
      options: {
        ...options,
        json: { type: 'boolean' },
        help: { type: 'boolean', short: 'h' },
      },
      allowPositionals: true,
      strict: true,
      tokens: true,
    });
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    const [, unknown] = /^Unknown option '(--?[^']+)'/.exec(message) ?? [];
    if (unknown === undefined) throw new UsageError(USAGE.parse(message));
    const names = [...Object.keys(options), 'json', 'help'];
    throw new UsageError(USAGE.unknownOption(unknown, nearestName(unknown.slice(2), names)));
  }
  if (parsed.positionals.includes('')) throw new UsageError(USAGE.emptyName);
  requireValues(parsed.tokens.flatMap((token) => (token.kind === 'option' ? [token] : [])));
  const values = parsed.values as Readonly<Record<string, string | boolean | undefined>>;
  const text = (name: string): string | undefined => {
    const value = values[name];
    return typeof value === 'string' ? value : undefined;
  };
  return {
    positionals: parsed.positionals,
    flag: (name) => values[name] === true,
    has: (name) => values[name] !== undefined,
    text,
    number: (name, lowest, highest) => {
      const written = text(name);
      if (written === undefined) return undefined;
      const value = numberFrom(name, written);
      if (!(value >= lowest && value <= highest)) {
        throw new UsageError(USAGE.outside(name, written, lowest, highest));
      }
      return value;
    },
    numbers: (name) =>
      text(name)
        ?.split(',')
        .map((part) => numberFrom(name, part.trim())),
    choice: (name, choices) => {
      const written = text(name);
      if (written === undefined) return undefined;
      const found = choices.find((choice) => choice === written.toLowerCase());
      if (found === undefined) throw new UsageError(USAGE.notAChoice(name, written, choices));
      return found;
    },
  };
}

/** Of an option given twice one value would be dropped in silence; an empty one says nothing. */
function requireValues(
  given: readonly { readonly name: string; readonly rawName: string; readonly value?: unknown }[],
): void {
  const names = new Set<string>();
  for (const { name, rawName, value } of given) {
    if (value === '' && name !== 'title') throw new UsageError(USAGE.needsValue(rawName));
    if (value !== undefined && names.has(name)) throw new UsageError(USAGE.givenTwice(rawName));
    names.add(name);
  }
}

/** `--stain -0.1` as people write it: the parser wants `--stain=-0.1`. */
function withNegativeNumbers(words: readonly string[], options: OptionKinds): string[] {
  const joined: string[] = [];
  for (const word of words) {
    const before = joined.at(-1);
    const takesValue =
      before?.startsWith('--') === true && options[before.slice(2)]?.type === 'string';
    if (takesValue && /^-[\d.]/.test(word)) joined.splice(-1, 1, `${before}=${word}`);
    else joined.push(word);
  }
  return joined;
}

/** A number, or a fraction such as 1/3 of a stop. */
function numberFrom(name: string, written: string): number {
  const [, sign = '', above, below] = /^([+-]?)(\d+)\/([1-9]\d*)$/.exec(written) ?? [];
  if (above !== undefined && below !== undefined) {
    return (sign === '-' ? -1 : 1) * (Number(above) / Number(below));
  }
  if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(written)) {
    throw new UsageError(USAGE.notANumber(name, written));
  }
  return Number(written);
}
