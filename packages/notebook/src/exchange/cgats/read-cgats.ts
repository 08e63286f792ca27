/**
 * Strips from a CGATS.17 (ISO 28178) text file, read leniently: any header, any order of columns,
 * one table or several, one density column or several (each a strip of its own channel).
 *
 * Sources: [CGATS17]. Deviations: a decimal comma is read; a wrong NUMBER_OF_SETS is a warning.
 */
import { warning, type Warning } from '@wedgebook/core';
import type { Place } from '../../notebook-error.ts';
import { inputFault } from '../../wording/input-fault.ts';
import { lineReader } from '../line-reader.ts';
import type { ReadingsFile, ReadingsStrip } from '../readings-strip.ts';
import { cgatsTokens, type CgatsToken } from './cgats-tokens.ts';
import { tableDraft, type TableDraft } from './table-draft.ts';

/** Whether a text is of this format: its data sections say so. */
export function isCgats(text: string): boolean {
  return /^\s*BEGIN_DATA_FORMAT\b/im.test(text);
}

/**
 * A reader that is fed with pieces of text and holds only the numbers of the table that it reads.
 *
 * @param file - names it in messages
 * @param onStrip - called once for each strip, as soon as its table has ended; `end` then returns none
 * @throws {InputError} from `push` or `end`, where a section is missing, a row is short, or a value
 *   is no number
 */
export function cgatsReader(
  file?: string,
  onStrip?: (strip: ReadingsStrip) => void,
): { readonly push: (text: string) => void; readonly end: () => ReadingsFile } {
  const place: Place = file === undefined ? {} : { file };
  const warnings: Warning[] = [];
  const strips: ReadingsStrip[] = [];
  const allColumns = new Set<string>();
  let tables = 0;
  let header = new Map<string, string>();
  let columns: string[] = [];
  /** The section that is open, and the line on which it began. */
  let open: { readonly name: 'DATA' | 'DATA_FORMAT'; readonly line: number } | null = null;
  let draft: TableDraft | null = null;

  const begin = (name: 'DATA' | 'DATA_FORMAT', line: number): void => {
    open = { name, line };
    if (name === 'DATA_FORMAT') {
      columns = [];
      return;
    }
    if (columns.length === 0) {
      throw inputFault.cgatsIncomplete({ ...place, row: line }, 'DATA_FORMAT');
    }
    for (const column of columns) allColumns.add(column);
    draft = tableDraft(header, columns, String((tables += 1)), line, place);
  };

  const endTable = (): void => {
    const ended = draft?.end();
    if (ended === undefined) return;
    const declared = Number(header.get('NUMBER_OF_SETS') ?? NaN);
    if (Number.isFinite(declared) && declared !== ended.rows) {
      warnings.push(warning('rows-miscounted', { declared, found: ended.rows }));
    }
    if (onStrip === undefined) strips.push(...ended.strips);
    else ended.strips.forEach(onStrip);
    draft = null;
    header = new Map();
    columns = [];
  };

  /** @returns whether the word opens or ends a section or stands inside one */
  const inSection = (token: CgatsToken): boolean => {
    const key = token.quoted ? '' : token.text.toUpperCase();
    if (open === null) {
      if (key !== 'BEGIN_DATA' && key !== 'BEGIN_DATA_FORMAT') return false;
      begin(key === 'BEGIN_DATA' ? 'DATA' : 'DATA_FORMAT', token.line);
    } else if (key === `END_${open.name}`) {
      if (open.name === 'DATA') endTable();
      open = null;
    } else if (open.name === 'DATA') draft?.take(token);
    else columns.push(token.text.toUpperCase());
    return true;
  };

  const lines = lineReader((text, number) => {
    const tokens = cgatsTokens(text, number);
    for (const [index, token] of tokens.entries()) {
      if (inSection(token)) continue;
      // KEY value, the value on the same line; a word alone is the type of the file.
      const key = token.text.toUpperCase();
      const value = tokens[index + 1];
      if (value !== undefined && key !== 'KEYWORD' && key !== 'DATA_FORMAT_IDENTIFIER') {
        header.set(key, value.text);
      }
      break;
    }
  }, place);

  return {
    push: lines.push,
    end: () => {
      lines.end();
      if (open !== null) {
        throw inputFault.cgatsIncomplete({ ...place, row: open.line }, open.name);
      }
      if (tables === 0) throw inputFault.cgatsIncomplete(place, 'DATA');
      return { strips, columns: [...allColumns], warnings };
    },
  };
}

/**
 * Reads a whole text at once.
 *
 * @param file - names it in messages
 * @throws {InputError} as `cgatsReader`
 */
export function readCgats(text: string, file?: string): ReadingsFile {
  const reader = cgatsReader(file);
  reader.push(text);
  return reader.end();
}
