/**
 * `convert`: readings between CSV, CGATS.17 and the notebook. Between CSV and CGATS.17 strips pass
 * through one by one, so that memory does not grow with the file.
 */
import type { Warning } from '@wedgebook/core';
import {
  cgatsWriter,
  columnsFor,
  curveReadingsOf,
  documentFromStrips,
  InputError,
  notebookToText,
  readingsWriter,
  stripsFromDocument,
  type ReadingsStrip,
  type WriteOptions,
} from '@wedgebook/notebook';
import type { Arguments } from '../input/arguments.ts';
import { onlyFile } from '../input/only-file.ts';
import { fileName, readSource, streamStrips, type Source } from '../input/read-file.ts';
import {
  EXPOSURE_OPTIONS,
  requireSource,
  requireSourceOf,
  stripOptions,
  type StripOptions,
} from '../input/strip-options.ts';
import type { CommandIo, Spool } from '../io.ts';
import { shownWarnings, warningLines } from '../output/warnings.ts';
import { CONVERT_WORDS, USAGE } from '../text.ts';
import { UsageError } from '../usage-error.ts';
import type { Verb } from './verb.ts';

const FORMATS = ['csv', 'cgats', 'json'] as const;
const DELIMITERS = { comma: ',', semicolon: ';', tab: '\t' } as const;

export const convert: Verb = {
  options: {
    ...EXPOSURE_OPTIONS,
    to: { type: 'string' },
    output: { type: 'string', short: 'o' },
    separator: { type: 'string' },
    'decimal-comma': { type: 'boolean' },
    title: { type: 'string' },
  },
  run: async (given, io) => {
    const file = onlyFile(given);
    const to = given.choice('to', FORMATS);
    if (to === undefined) throw new UsageError(USAGE.needs('to', FORMATS.join(', ')));
    const output = given.text('output') ?? '-';
    if (await io.isSameFile(file, output)) throw new UsageError(USAGE.notThisFile);
    const delimiter =
      DELIMITERS[given.choice('separator', ['comma', 'semicolon', 'tab']) ?? 'comma'];
    const decimalComma = given.flag('decimal-comma');
    if (decimalComma && delimiter === ',') throw new UsageError(USAGE.decimalCommas);

    const options = stripOptions(given, file);
    const converted =
      to === 'json'
        ? notebookText(await readSource(file, io, options), options, given, file)
        : await readingsFile(file, options, io, () =>
            to === 'csv'
              ? csvSink(io.spool(), { delimiter, decimalComma })
              : cgatsSink(io.spool(), io.today()),
          );
    const warnings = shownWarnings(converted.warnings);
    if (output !== '-') {
      await io.writeText(output, converted.pieces);
      return {
        json: { output, warnings },
        text: () => `${CONVERT_WORDS.written(output)}\n${warningLines(warnings, '')}`,
      };
    }
    if (given.flag('json')) {
      const parts: string[] = [];
      for await (const piece of converted.pieces) parts.push(piece);
      return { json: { text: parts.join(''), warnings }, text: () => '' };
    }
    // The converted file is the output; what there is to say of it goes beside.
    io.stderr(warningLines(warnings, ''));
    return { pieces: converted.pieces };
  },
};

interface Converted {
  readonly pieces: AsyncIterable<string>;
  readonly warnings: readonly Warning[];
}

/** Takes strips one by one, and gives the file once all have come. */
interface StripSink {
  readonly add: (strip: ReadingsStrip) => void;
  readonly pieces: () => AsyncIterable<string>;
  readonly drop: () => void;
}

function cgatsSink(spool: Spool, created: string): StripSink {
  const table = cgatsWriter({ created });
  return {
    add: (strip) => {
      spool.add(table(strip));
    },
    pieces: spool.pieces,
    drop: spool.drop,
  };
}

/** Which columns a CSV has is known only when the last strip has come: strips are kept till then. */
function csvSink(spool: Spool, options: WriteOptions): StripSink {
  const found = columnsFor();
  return {
    add: (strip) => {
      found.add(strip);
      spool.add(`${JSON.stringify(strip)}\n`);
    },
    pieces: async function* () {
      const writer = readingsWriter(found.columns(), options);
      yield writer.header;
      let begun = '';
      for await (const piece of spool.pieces()) {
        const lines = (begun + piece).split('\n');
        begun = lines.pop() ?? '';
        for (const line of lines) yield writer.rows(JSON.parse(line) as ReadingsStrip);
      }
    },
    drop: spool.drop,
  };
}

/**
 * A file that lists a strip in several places, far apart, is read as a whole: its strips are known
 * only at its end.
 */
async function readingsFile(
  file: string,
  options: StripOptions,
  io: CommandIo,
  open: () => StripSink,
): Promise<Converted> {
  if (file === '-') return throughSink(wholeStrips, file, options, io, open());
  try {
    return await throughSink(streamedStrips, file, options, io, open());
  } catch (error) {
    if (!(error instanceof InputError && error.code === 'strip-goes-on')) throw error;
    return throughSink(wholeStrips, file, options, io, open());
  }
}

type Strips = (
  file: string,
  options: StripOptions,
  io: CommandIo,
  onWarnings: (warnings: readonly Warning[]) => void,
) => AsyncGenerator<ReadingsStrip>;

async function throughSink(
  strips: Strips,
  file: string,
  options: StripOptions,
  io: CommandIo,
  sink: StripSink,
): Promise<Converted> {
  const ofFile: Warning[] = [];
  const ofStrips: Warning[] = [];
  try {
    for await (const strip of strips(file, options, io, (told) => ofFile.push(...told))) {
      requireSourceOf(strip, options);
      ofStrips.push(...strip.warnings);
      sink.add(strip);
    }
  } catch (error) {
    sink.drop();
    throw error;
  }
  return { pieces: sink.pieces(), warnings: [...ofFile, ...ofStrips] };
}

const streamedStrips: Strips = (file, options, io, onWarnings) =>
  streamStrips(file, io, options, onWarnings, stripsOf);

async function* wholeStrips(
  file: string,
  options: StripOptions,
  io: CommandIo,
  onWarnings: (warnings: readonly Warning[]) => void,
): AsyncGenerator<ReadingsStrip> {
  const { strips, warnings } = stripsOf(await readSource(file, io, options));
  onWarnings(warnings);
  yield* strips;
}

/** All strips of a source, and what the other format cannot hold of it. */
function stripsOf(source: Source): {
  readonly strips: readonly ReadingsStrip[];
  readonly warnings: readonly Warning[];
} {
  if (source.kind === 'readings') return source.readings;
  const { strips, warnings } = stripsFromDocument(source.document);
  return { strips, warnings: [...source.warnings, ...warnings] };
}

function notebookText(
  source: Source,
  options: StripOptions,
  given: Arguments,
  file: string,
): Converted {
  if (source.kind === 'notebook') {
    return { pieces: onePiece(notebookToText(source.document)), warnings: source.warnings };
  }
  const { readings } = source;
  requireSource(readings, options);
  const { strips, warnings } = readings;
  const { logExposure, sourceLogExposure } = options.exposure;
  const counts = { strip: 0, tablet: 0, paper: 0 };
  // Exposures are resolved once, so that a step outside its tablet is told before it is stored.
  const exposed = strips.map((strip) => curveReadingsOf(strip, options.exposure, 0));
  const tabletId = given.text('tablet');
  const made = documentFromStrips(strips, {
    title: given.text('title') ?? CONVERT_WORDS.title(fileName(file)),
    paperName: fileName(file),
    makeId: (kind) => `${kind}-${(counts[kind] += 1)}`,
    ...(logExposure !== undefined && { logExposure }),
    ...(sourceLogExposure !== undefined && { sourceLogExposure }),
    ...(tabletId !== undefined && { tabletId: tabletId.toLowerCase() }),
  });
  return {
    pieces: onePiece(notebookToText(made.document)),
    warnings: [
      ...warnings,
      ...strips.flatMap((strip) => strip.warnings),
      ...exposed.flatMap((one) => one.warnings),
      ...made.warnings,
    ],
  };
}

async function* onePiece(text: string): AsyncGenerator<string> {
  await Promise.resolve();
  yield text;
}
