/** Verbs of the contract that have no program behind them yet. */
import { USAGE } from '../text.ts';
import { UsageError } from '../usage-error.ts';
import type { Verb } from './verb.ts';

/** @returns a verb that says so, as wrong usage */
export function notBuilt(name: string): Verb {
  return {
    options: {},
    run: () => Promise.reject(new UsageError(USAGE.notBuilt(name))),
  };
}
