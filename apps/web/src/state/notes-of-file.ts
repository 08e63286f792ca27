/** The sentences that stand beside what was read of a file. */
import { warningText } from '@wedgebook/notebook';
import { trueMinus } from '../parts/notices.ts';
import { text } from '../text.ts';
import type { ReadFile } from './read-file.ts';

/** What was noted about a file of readings, each sentence once. */
export function notesOf({
  warnings,
  tabletAssumed,
  remembered,
}: Extract<ReadFile, { kind: 'readings' }>): readonly string[] {
  const sentences = [
    ...(remembered ? [text.app.columnsRemembered] : []),
    ...(tabletAssumed ? [text.app.tabletAssumed] : []),
    ...warnings.map((each) => trueMinus(warningText(each))),
  ];
  return [...new Set(sentences)];
}
