/**
 * A file that the user chose: a saved notebook, or readings as CSV or CGATS. Loaded when first
 * needed, for most visits open no file.
 */
import { warning, type Warning } from '@wedgebook/core';
import {
  documentFromStrips,
  isCgats,
  notebookFromText,
  readCgats,
  readReadings,
  type NotebookDocument,
} from '@wedgebook/notebook';
import { text } from '../text.ts';
import { newId } from '../worksheet/new-entries.ts';

export type ReadFile =
  | { readonly kind: 'notebook'; readonly document: NotebookDocument; readonly mended: number }
  | {
      readonly kind: 'readings';
      /** Holds the strips and their tablets; to be added, not to replace. */
      readonly document: NotebookDocument;
      readonly warnings: readonly Warning[];
      /** True where steps alone were given, so that a tablet had to be assumed. */
      readonly tabletAssumed: boolean;
    };

/** Larger than any notebook or a lifetime's readings; a page cannot hold much more. */
const MOST_BYTES = 60_000_000;

/**
 * @throws {InputError} where the file cannot be read, with place and remedy
 * @throws {RangeError} where it is too large for a page
 */
export async function readChosenFile(file: File): Promise<ReadFile> {
  if (file.size > MOST_BYTES) {
    throw new RangeError(text.app.fileTooLarge(file.name, Math.round(file.size / 1e6)));
  }
  const content = await file.text();
  if (looksLikeJson(file.name, content)) {
    const { document, mended } = notebookFromText(content, { file: file.name });
    return { kind: 'notebook', document, mended: mended.length };
  }
  const read = isCgats(content)
    ? readCgats(content, file.name)
    : readReadings(content, { file: file.name, stepsSuffice: true });
  const made = documentFromStrips(read.strips, { makeId: newId, tabletId: 'nominal-21' });
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
  return { kind: 'readings', document: made.document, warnings, tabletAssumed };
}

function looksLikeJson(name: string, content: string): boolean {
  return /\.json$/i.test(name) || /^\uFEFF?\s*[{[]/.test(content.slice(0, 200));
}
