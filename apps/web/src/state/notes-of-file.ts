/** The sentences that stand beside what was read of a file. */
import { warningText, type Strip } from '@wedgebook/notebook';
import { trueMinus } from '../parts/notices.ts';
import { text } from '../text.ts';
import type { ReadFile } from './read-file.ts';

/**
 * What was noted about a file of readings, each sentence once.
 *
 * @param there - the strips that the notebook held before
 */
export function notesOf(
  { document, warnings, tabletAssumed, remembered }: Extract<ReadFile, { kind: 'readings' }>,
  there: readonly Strip[],
): readonly string[] {
  const sentences = [
    ...namesakes(document.strips, there),
    ...(remembered ? [text.app.columnsRemembered] : []),
    ...(tabletAssumed ? [text.app.tabletAssumed] : []),
    ...warnings.map((each) => trueMinus(warningText(each))),
  ];
  return [...new Set(sentences)];
}

/** Strips of names that the notebook has: all are kept, and the user is told. */
function namesakes(added: readonly Strip[], there: readonly Strip[]): readonly string[] {
  return added.flatMap((strip) => {
    const known = there.filter(({ name }) => name !== '' && name === strip.name);
    if (known.length === 0) return [];
    const isAlike = known.some(
      ({ rows, unexposedDensities }) =>
        JSON.stringify([rows, unexposedDensities]) ===
        JSON.stringify([strip.rows, strip.unexposedDensities]),
    );
    return [text.app.namesake[isAlike ? 'alike' : 'other'](strip.name)];
  });
}
