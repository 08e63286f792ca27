/** What is told of a snapshot before it is opened; of one that cannot be opened, as much as it has. */
import type { SnapshotFacts, SnapshotReason } from './thinned.ts';

export function factsOf(
  notebook: unknown,
  reason: SnapshotReason,
  at: string,
): Omit<SnapshotFacts, 'number'> {
  const document = fieldOf(notebook, 'document');
  const title = fieldOf(document, 'title');
  const count = (key: string) => {
    const list = fieldOf(document, key);
    return Array.isArray(list) ? list.length : 0;
  };
  return {
    at,
    reason,
    title: typeof title === 'string' ? title : '',
    strips: count('strips'),
    negatives: count('negatives'),
    papers: count('papers'),
    prints: count('prints'),
    characters: (JSON.stringify(notebook) as string | undefined)?.length ?? 0,
  };
}

function fieldOf(value: unknown, key: string): unknown {
  return typeof value === 'object' && value !== null
    ? (value as Readonly<Record<string, unknown>>)[key]
    : undefined;
}
