/** The FILE of a verb. */
import { USAGE } from '../text.ts';
import { UsageError } from '../usage-error.ts';
import type { Arguments } from './arguments.ts';

/** @throws {UsageError} unless exactly one is given */
export function onlyFile({ positionals }: Arguments): string {
  const [file] = positionals;
  if (file === undefined || positionals.length > 1) throw new UsageError(USAGE.oneFile);
  return file;
}

/** @throws {UsageError} where more than one is given */
export function fileAtMost({ positionals }: Arguments): string | undefined {
  if (positionals.length > 1) throw new UsageError(USAGE.oneFileAtMost);
  return positionals[0];
}
