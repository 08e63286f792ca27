/** Options that nothing was made of: what was asked for holds without them, and they are named. */
import type { ShownWarning } from '../output/warnings.ts';
import { unusedText } from '../unused-text.ts';
import type { Arguments } from './arguments.ts';

/** Options that serve one purpose. */
export interface OptionGroup {
  readonly names: readonly string[];
  /** Whether this call serves the purpose. */
  readonly used: boolean;
  /** Why not, or what to give too, as a sentence. */
  readonly remedy: string;
}

/**
 * @param given - the options of the call
 * @param groups - of options with a purpose that a call may not serve
 * @returns a warning for each such group of which options were given
 */
export function unusedOptions(
  given: Arguments,
  groups: readonly OptionGroup[],
): readonly ShownWarning[] {
  return groups.flatMap(({ names, used, remedy }) => {
    const idle = used ? [] : names.filter((name) => given.has(name));
    return idle.length === 0 ? [] : [{ code: 'option-unused', message: unusedText(idle, remedy) }];
  });
}
