/**
 * A file that the user chose: a saved notebook, or readings as CSV or CGATS. Loaded when first
 * needed, for most visits open no file.
 */
import { warning, type Warning } from '@wedgebook/core';
import {
  documentFromStrips,
  guessRoles,
  InputError,
  isCgats,
  notebookFromText,
  readCgats,
  readMatched,
  readReadings,
  type NotebookDocument,
  type ReadingsFile,
} from '@wedgebook/notebook';
import { text } from '../text.ts';
import { newId } from '../worksheet/new-entries.ts';
import { parseBlock } from '../worksheet/parse-block.ts';

export type ReadFile =
  | { readonly kind: 'notebook'; readonly document: NotebookDocument; readonly mended: number }
  | {
      readonly kind: 'readings';
      /** Holds the strips and their tablets; to be added, not to replace. */
      readonly document: NotebookDocument;
      readonly warnings: readonly Warning[];
      /** True where steps alone were given, so that a tablet had to be assumed. */
      readonly tabletAssumed: boolean;
      /** Whether it is a table, of which the user can say what its columns are. */
      readonly isTable: boolean;
      /** Whether its columns were taken as the user said before. */
      readonly remembered: boolean;
    }
  /** The user wants nothing of it. */
  | { readonly kind: 'nothing' };

/** Larger than any notebook or a lifetime's readings; a page cannot hold much more. */
const MOST_BYTES = 60_000_000;

/** Faults of a table that has the readings, perhaps, but not by the names that are known. */
const UNKNOWN_COLUMNS: ReadonlySet<string> = new Set([
  'no-header',
  'missing-column',
  'double-column',
]);

/**
 * @param ask - whether the user wants to say what the columns are, though they may be known
 * @throws {InputError} where the file cannot be read, with place and remedy
 * @throws {RangeError} where it is too large for a page
 */
export async function readChosenFile(file: File, ask = false): Promise<ReadFile> {
  if (file.size > MOST_BYTES) {
    throw new RangeError(text.app.fileTooLarge(file.name, Math.round(file.size / 1e6)));
  }
  const content = await file.text();
  if (looksLikeJson(file.name, content)) {
    const { document, mended } = notebookFromText(content, { file: file.name });
    return { kind: 'notebook', document, mended: mended.length };
  }
  const isTable = !isCgats(content);
  const read = isTable
    ? await readTable(content, file.name, ask)
    : { ...readCgats(content, file.name), remembered: false };
  if (read === null) return { kind: 'nothing' };
  const made = documentFromStrips(read.strips, {
    makeId: newId,
    tabletId: 'nominal-21',
    paperName: file.name.replace(/\.[^.]*$/, ''),
  });
  const exposureAssumed = read.strips.some(
    (strip) =>
      strip.exposureStated !== true &&
      strip.readings.some(({ logExposure }) => logExposure !== null),
  );
  const warnings = [
    ...(exposureAssumed ? [warning('exposure-assumed-absolute')] : []),
    ...read.warnings,
    ...read.strips.flatMap((strip) => strip.warnings),
    ...made.warnings,
  ];
  const tabletAssumed = read.strips.some((strip) =>
    strip.readings.every(
      ({ logExposure, tabletDensity }) => logExposure === null && tabletDensity === null,
    ),
  );
  const { remembered } = read;
  return {
    kind: 'readings',
    document: made.document,
    warnings,
    tabletAssumed,
    isTable,
    remembered,
  };
}

/** Reads a table by its columns' names, or by what the user says, now or before, that they are. */
async function readTable(
  content: string,
  file: string,
  ask: boolean,
): Promise<(ReadingsFile & { readonly remembered: boolean }) | null> {
  const table = parseBlock(content, null);
  if (!ask || table === null) {
    try {
      return { ...readReadings(content, { file, stepsSuffice: true }), remembered: false };
    } catch (error) {
      const unknown = error instanceof InputError && UNKNOWN_COLUMNS.has(error.code);
      if (!unknown || table === null) throw error;
    }
  }
  const { askTable, rememberedTable } = await import('../worksheet/ask-columns.ts');
  const kept = rememberedTable(table.heads);
  if (kept !== null && !ask) {
    try {
      return { ...readMatched(table, kept, { file }), remembered: true };
    } catch (error) {
      // What was right for another table of these names may be wrong for this one.
      if (!(error instanceof InputError)) throw error;
    }
  }
  const roles = await askTable(table, kept ?? guessRoles(table));
  return roles === null ? null : { ...readMatched(table, roles, { file }), remembered: false };
}

function looksLikeJson(name: string, content: string): boolean {
  return /\.json$/i.test(name) || /^\uFEFF?\s*[{[]/.test(content.slice(0, 200));
}
