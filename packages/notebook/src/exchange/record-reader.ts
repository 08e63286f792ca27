/**
 * Records of a delimited text, fed in pieces: RFC 4180 with comma, semicolon or tab, any line
 * ending, a byte order mark, and `#` lines as comments. d3-dsv parses; this cuts the text at
 * record ends, so that only one piece is held at a time.
 *
 * Sources: [RFC4180]. Deviations: separators other than the comma; comments.
 */
import { dsvFormat } from 'd3-dsv';
import type { Place } from '../notebook-error.ts';
import { inputFault } from '../wording/input-fault.ts';
import { firstRecordEnd, lastRecordEnd } from './record-ends.ts';

export type Delimiter = ',' | ';' | '\t';
const DELIMITERS: readonly Delimiter[] = [',', ';', '\t'];

/** The most text that is read unless more is allowed: 200 million characters. */
const MOST_CHARACTERS = 200_000_000;
/** A row may have at most this many characters. */
const MOST_HELD_BACK = 1_000_000;

export interface RecordSink {
  /** How well a header suits, to choose the separator: the number of columns it recognises. */
  readonly score: (fields: readonly string[]) => number;
  /** Called once, before any record. Names are trimmed. */
  readonly header: (fields: readonly string[], row: number, delimiter: Delimiter) => void;
  /** Called for every record that is neither blank nor a comment. Fields are trimmed. */
  readonly record: (fields: readonly string[], row: number) => void;
}

export interface RecordReader {
  readonly push: (text: string) => void;
  readonly end: () => void;
}

/**
 * @param sink - receives the header and the records; rows count from 1
 * @param place - names the file in messages
 * @param mostCharacters - longer texts are refused
 * @returns a reader to feed with pieces of text, then to end
 * @throws {InputError} from `push` or `end`: empty, binary, too large, a quotation mark left open
 */
export function recordReader(
  sink: RecordSink,
  place: Place = {},
  mostCharacters = MOST_CHARACTERS,
): RecordReader {
  let pending = '';
  let row = 0;
  let characters = 0;
  let delimiter: Delimiter | null = null;

  const take = (text: string): void => {
    for (const fields of parse(text, delimiter ?? ',')) {
      row += 1;
      let filled = 0;
      for (let i = 0; i < fields.length; i += 1) {
        const field = (fields[i] ?? '').trim();
        fields[i] = field;
        if (field !== '') filled += 1;
      }
      const isComment = filled === 1 && fields[0]?.startsWith('#') === true;
      if (filled > 0 && !isComment) sink.record(fields, row);
    }
  };

  /** Consumes lines until the header is found; false where more text is needed. */
  const takeHeader = (final: boolean): boolean => {
    for (;;) {
      const cut = firstRecordEnd(pending, final);
      if (cut === 0) {
        if (final && pending !== '') throw inputFault.openQuote({ ...place, row: row + 1 });
        return false;
      }
      const line = pending.slice(0, cut);
      pending = pending.slice(cut);
      row += 1;
      if (line.trim() === '' || line.startsWith('#')) continue;
      const choices = DELIMITERS.map((candidate) => {
        const fields = (parse(line, candidate)[0] ?? []).map((field) => field.trim());
        return { candidate, fields, score: sink.score(fields) };
      });
      const best = choices.reduce((a, b) =>
        b.score > a.score || (b.score === a.score && b.fields.length > a.fields.length) ? b : a,
      );
      delimiter = best.candidate;
      sink.header(best.fields, row, best.candidate);
      return true;
    }
  };

  /** What is held back must not grow without end: neither memory nor time would bear it. */
  const requireShort = (): void => {
    if (pending.length > MOST_HELD_BACK) {
      throw inputFault.rowTooLong({ ...place, row: row + 1 }, MOST_HELD_BACK);
    }
  };

  const drain = (final: boolean): void => {
    if (delimiter === null && !takeHeader(final)) {
      requireShort();
      return;
    }
    const cut = lastRecordEnd(pending, delimiter ?? ',', final);
    if (cut > 0) {
      take(pending.slice(0, cut));
      pending = pending.slice(cut);
    }
    requireShort();
    if (final && pending !== '') throw inputFault.openQuote({ ...place, row: row + 1 });
  };

  return {
    push: (text) => {
      const clean = characters === 0 ? text.replace(/^\uFEFF/, '') : text;
      characters += text.length;
      if (characters > mostCharacters) {
        throw inputFault.tooLarge(place, `${mostCharacters / 1e6} million characters`);
      }
      if (BINARY.test(clean)) throw inputFault.binary(place);
      pending += clean;
      drain(false);
    },
    end: () => {
      drain(true);
      if (delimiter === null) throw inputFault.empty(place);
    },
  };
}

/** Control characters that no text file holds. */
const BINARY = /[\u0000-\u0008\u000e-\u001f]/;

const parse = (text: string, delimiter: Delimiter): string[][] =>
  dsvFormat(delimiter).parseRows(text);
