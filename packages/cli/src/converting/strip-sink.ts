/** Where converted strips go, one by one, until the file is known to be good. */
import type { Warning } from '@wedgebook/core';
import {
  cgatsWriter,
  columnsFor,
  readingsWriter,
  type ReadingsStrip,
  type WriteOptions,
} from '@wedgebook/notebook';
import type { Spool } from '../io.ts';
import { spooledLines } from './spooled-lines.ts';

export interface Converted {
  readonly pieces: AsyncIterable<string>;
  readonly warnings: readonly Warning[];
}

/** Takes strips one by one, and gives the file once all have come. */
export interface StripSink {
  readonly add: (strip: ReadingsStrip) => void;
  readonly end: () => Converted;
  readonly drop: () => void;
}

/** @param created - day of the file, YYYY-MM-DD */
export function cgatsSink(spool: Spool, created: string): StripSink {
  const table = cgatsWriter({ created });
  return {
    add: (strip) => {
      spool.add(table(strip));
    },
    end: () => ({ pieces: spool.pieces(), warnings: [] }),
    drop: spool.drop,
  };
}

/** Which columns a CSV has is known only when the last strip has come: strips are kept till then. */
export function csvSink(spool: Spool, options: WriteOptions): StripSink {
  const found = columnsFor();
  async function* pieces(): AsyncGenerator<string> {
    const writer = readingsWriter(found.columns(), options);
    yield writer.header;
    for await (const line of spooledLines(spool)) {
      yield writer.rows(JSON.parse(line) as ReadingsStrip);
    }
  }
  return {
    add: (strip) => {
      found.add(strip);
      spool.add(`${JSON.stringify(strip)}\n`);
    },
    end: () => ({ pieces: pieces(), warnings: [] }),
    drop: spool.drop,
  };
}
