/**
 * A notebook as text for a file or a database, and back.
 *
 *   { "format": "wedgebook-notebook", "schemaVersion": 3, "document": { ... } }
 */
import type { NotebookDocument, Strip } from '../document/document.ts';
import { InputError, type Place } from '../notebook-error.ts';
import { guardedJson } from './guard-json.ts';
import { firstDoubleId, mendReferences, type Mended } from './mend-references.ts';
import { migrated, SCHEMA_VERSION } from './migrations.ts';
import { firstFault } from './schema.ts';

export const NOTEBOOK_FORMAT = 'wedgebook-notebook';

/** What stands around a saved document. */
export interface SavedNotebook {
  readonly format: typeof NOTEBOOK_FORMAT;
  readonly schemaVersion: number;
  readonly document: NotebookDocument;
}

/** A notebook that was read, and the references that had to be emptied. */
export interface OpenedNotebook {
  readonly document: NotebookDocument;
  readonly mended: readonly Mended[];
}

/** @returns the envelope around `document`, plain data fit for a structured clone */
export function savedNotebook(document: NotebookDocument): SavedNotebook {
  return { format: NOTEBOOK_FORMAT, schemaVersion: SCHEMA_VERSION, document };
}

/** @returns the notebook as indented JSON text, ending in a line feed */
export function notebookToText(document: NotebookDocument): string {
  return `${JSON.stringify(savedNotebook(document), null, 2)}\n`;
}

/**
 * The text of a notebook whose strips are too many to hold: what stands before them, between two of
 * them and after them. Each stands there as `stripText` has it.
 *
 * @param document - its own strips are left out
 */
export function notebookAround(document: NotebookDocument): {
  readonly before: string;
  readonly between: string;
  readonly after: string;
} {
  // No other line begins so: text in a notebook has its line feeds escaped, and lists further in
  // stand further in.
  const empty = '\n    "strips": []';
  const [before = '', after = ''] = notebookToText({ ...document, strips: [] }).split(empty);
  return { before: `${before}${empty.slice(0, -1)}`, between: ',', after: `\n    ]${after}` };
}

/** @returns a strip as it stands in the text of a notebook */
export function stripText(strip: Strip): string {
  const indent = '\n      ';
  return `${indent}${JSON.stringify(strip, null, 2).replaceAll('\n', indent)}`;
}

/**
 * Reads a saved notebook from text of unknown origin.
 *
 * @param text - UTF-8 text, with or without a byte order mark
 * @param place - names the file in messages
 * @returns a sound document; unknown fields are kept
 * @throws {InputError} if the text is no notebook, is of a newer version, or a field is wrong
 */
export function notebookFromText(text: string, place: Place = {}): OpenedNotebook {
  return openNotebook(guardedJson(text, place), place);
}

/**
 * Checks an envelope that is already plain data, as a database returns it.
 *
 * @throws {InputError} as `notebookFromText`
 */
export function openNotebook(saved: unknown, place: Place = {}): OpenedNotebook {
  if (!isRecord(saved) || saved['format'] !== NOTEBOOK_FORMAT) {
    throw new InputError(
      'notebook-format',
      place,
      `this is not a saved notebook: "format" is not "${NOTEBOOK_FORMAT}"`,
      'Choose a file that was saved as a notebook',
    );
  }
  const version = saved['schemaVersion'];
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) {
    throw new InputError(
      'notebook-version',
      place,
      '"schemaVersion" is not a whole number from 1',
      'Choose an undamaged copy of the notebook',
    );
  }
  if (version > SCHEMA_VERSION) {
    throw new InputError(
      'notebook-newer',
      place,
      `the notebook was saved by a newer version (schema ${version}, this one reads up to ${SCHEMA_VERSION})`,
      'Open it with the newer version; nothing was changed',
    );
  }
  const document = migrated(saved['document'], version);
  const fault = firstFault(document);
  if (fault !== null) {
    throw new InputError(
      'notebook-field',
      { ...place, column: fault.path },
      fault.fault,
      'Mend this field in the file, or choose an undamaged copy',
    );
  }
  const sound = document as NotebookDocument;
  const double = firstDoubleId(sound);
  if (double !== null) {
    throw new InputError(
      'notebook-double-id',
      { ...place, column: double },
      'this id is there twice in its list',
      'Give one of the two entries another id in the file',
    );
  }
  return mendReferences(sound);
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
