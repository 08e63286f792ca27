/**
 * A notebook of strips that come one by one. Which untreated strip a treated one belongs to, and
 * which tablets stand before them, is known only at the end: strips are kept till then.
 */
import { warning, type Warning } from '@wedgebook/core';
import {
  curveReadingsOf,
  documentDraft,
  MOST_NOTEBOOK_CHARACTERS,
  notebookAround,
  stripText,
  type DocumentFromStripsOptions,
  type ExposureOptions,
  type Strip,
} from '@wedgebook/notebook';
import type { Spool } from '../io.ts';
import { spooledLines } from './spooled-lines.ts';
import type { StripSink } from './strip-sink.ts';

/** @param most - characters of a notebook that is opened again; a longer one is told */
export function notebookSink(
  spool: Spool,
  exposure: ExposureOptions,
  options: DocumentFromStripsOptions,
  most = MOST_NOTEBOOK_CHARACTERS,
): StripSink {
  const draft = documentDraft(options);
  const warnings: Warning[] = [];
  let length = 0;
  return {
    add: (strip) => {
      // Exposures are resolved once, so that a step outside its tablet is told before it is stored.
      warnings.push(...curveReadingsOf(strip, exposure, 0).warnings);
      const made = draft.add(strip);
      length += stripText(made).length;
      spool.add(`${JSON.stringify(made)}\n`);
    },
    end: () => {
      const { document, paired, warnings: made } = draft.end();
      const { before, between, after } = notebookAround(document);
      async function* pieces(): AsyncGenerator<string> {
        yield before;
        let first = true;
        for await (const line of spooledLines(spool)) {
          const strip = stripText(paired(JSON.parse(line) as Strip));
          yield first ? strip : `${between}${strip}`;
          first = false;
        }
        yield after;
      }
      const tooLong = length > most ? [warning('notebook-too-long', { length, most })] : [];
      return { pieces: pieces(), warnings: [...warnings, ...made, ...tooLong] };
    },
    drop: spool.drop,
  };
}
