/**
 * Older saved forms brought to the present one, a step at a time.
 */
import { toVersion3 } from './to-version-3.ts';

/** The version that this program writes. */
export const SCHEMA_VERSION = 3;

/** From version n to n + 1, by n. Pure; given plain data of version n. */
export const MIGRATIONS: Readonly<Record<number, (document: unknown) => unknown>> = {
  // Version 2 keeps a log of working baths.
  1: (document) => (isRecord(document) ? { ...document, baths: [] } : document),
  2: toVersion3,
};

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/**
 * @param from - the version that `document` was saved with, at most `SCHEMA_VERSION`
 * @returns the document in the form of `SCHEMA_VERSION`, not yet checked
 */
export function migrated(document: unknown, from: number): unknown {
  let current = document;
  for (let version = from; version < SCHEMA_VERSION; version += 1) {
    const migrate = MIGRATIONS[version];
    if (migrate !== undefined) current = migrate(current);
  }
  return current;
}
