/** Warnings as the command shows them: the code for scripts, the sentence for people. */
import type { Warning } from '@wedgebook/core';
import { warningText } from '@wedgebook/notebook';
import { WORDS } from '../text.ts';

export interface ShownWarning {
  readonly code: string;
  readonly message: string;
}

/** Each warning once. */
export function shownWarnings(...lists: readonly (readonly Warning[])[]): ShownWarning[] {
  const byMessage = new Map<string, ShownWarning>();
  for (const item of lists.flat()) {
    const message = warningText(item);
    byMessage.set(message, { code: item.code, message });
  }
  return [...byMessage.values()];
}

/** One line for each warning; empty where there is none. */
export function warningLines(warnings: readonly ShownWarning[], indent = '  '): string {
  return warnings.map(({ message }) => `${indent}${WORDS.warning} ${message}\n`).join('');
}
