/**
 * `convert`: readings between CSV, CGATS.17 and the notebook. Strips pass through one by one, so that
 * memory does not grow with the file.
 */
import type { Warning } from '@wedgebook/core';
import {
  InputError,
  notebookToText,
  stripsFromDocument,
  type DocumentFromStripsOptions,
  type NotebookDocument,
  type ReadingsFile,
  type ReadingsStrip,
} from '@wedgebook/notebook';
import { notebookSink } from '../converting/notebook-sink.ts';
import { cgatsSink, csvSink, type Converted, type StripSink } from '../converting/strip-sink.ts';
import type { Arguments } from '../input/arguments.ts';
import { onlyFile } from '../input/only-file.ts';
import { readAgain } from '../input/read-again.ts';
import { fileName, readSource, streamStrips, type Source } from '../input/read-file.ts';
import {
  EXPOSURE_OPTIONS,
  requireSourceOf,
  stripOptions,
  type StripOptions,
} from '../input/strip-options.ts';
import type { CommandIo } from '../io.ts';
import { shownWarnings, warningLines } from '../output/warnings.ts';
import { CONVERT_WORDS, USAGE } from '../text.ts';
import { UNUSED } from '../unused-text.ts';
import { unusedOptions } from '../input/unused-options.ts';
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
    const sink = (): StripSink => {
      const spool = io.spool();
      if (to === 'csv') return csvSink(spool, { delimiter, decimalComma });
      if (to === 'cgats') return cgatsSink(spool, io.today());
      return notebookSink(spool, options.exposure, notebookOptions(options, given, file));
    };
    const ofNotebook = to === 'json' ? 'whole' : 'strips';
    const converted = await readingsFile(file, options, io, sink, ofNotebook);
    const warnings = [
      ...shownWarnings(converted.warnings),
      ...unusedOptions(given, [
        {
          names: ['separator', 'decimal-comma'],
          used: to === 'csv',
          remedy: UNUSED.csv,
        },
        { names: ['title'], used: to === 'json', remedy: UNUSED.notebook },
      ]),
    ];
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

/**
 * A file that lists a strip in several places, far apart, is read as a whole: its strips are known
 * only at its end.
 */
async function readingsFile(
  file: string,
  options: StripOptions,
  io: CommandIo,
  open: () => StripSink,
  ofNotebook: OfNotebook,
): Promise<Converted> {
  const again = readAgain(io);
  try {
    return await throughSink(streamedStrips, file, options, again.io, open(), ofNotebook);
  } catch (error) {
    if (!(error instanceof InputError && error.code === 'strip-goes-on')) throw error;
    return await throughSink(wholeStrips, file, options, again.io, open(), ofNotebook);
  } finally {
    again.forget();
  }
}

type Notebook = Extract<Source, { kind: 'notebook' }>;
/** What becomes of a notebook: its strips, or all of it at once. */
type OfNotebook = 'strips' | 'whole';

type Strips = (
  file: string,
  options: StripOptions,
  io: CommandIo,
  onWarnings: (warnings: readonly Warning[]) => void,
  onNotebook: (notebook: Notebook) => Pick<ReadingsFile, 'strips' | 'warnings'>,
) => AsyncGenerator<ReadingsStrip>;

async function throughSink(
  strips: Strips,
  file: string,
  options: StripOptions,
  io: CommandIo,
  sink: StripSink,
  ofNotebook: OfNotebook,
): Promise<Converted> {
  const ofFile: Warning[] = [];
  const ofStrips: Warning[] = [];
  const whole: string[] = [];
  const tell = (told: readonly Warning[]) => ofFile.push(...told);
  const onNotebook = ({ document, warnings }: Notebook) => {
    if (ofNotebook === 'strips') return stripsOf(document, warnings);
    whole.push(notebookToText(document));
    return { strips: [], warnings };
  };
  try {
    for await (const strip of strips(file, options, io, tell, onNotebook)) {
      requireSourceOf(strip, options);
      ofStrips.push(...strip.warnings);
      sink.add(strip);
    }
  } catch (error) {
    sink.drop();
    throw error;
  }
  const [text] = whole;
  if (text !== undefined) {
    sink.drop();
    return { pieces: onePiece(text), warnings: ofFile };
  }
  const { pieces, warnings } = sink.end();
  return { pieces, warnings: [...ofFile, ...ofStrips, ...warnings] };
}

const streamedStrips: Strips = (file, options, io, onWarnings, onNotebook) =>
  streamStrips(file, io, options, onWarnings, (source) =>
    source.kind === 'notebook' ? onNotebook(source) : source.readings,
  );

async function* wholeStrips(
  ...[file, options, io, onWarnings, onNotebook]: Parameters<Strips>
): AsyncGenerator<ReadingsStrip> {
  const source = await readSource(file, io, options);
  const { strips, warnings } = source.kind === 'notebook' ? onNotebook(source) : source.readings;
  onWarnings(warnings);
  yield* strips;
}

/** All strips of a notebook, and what the other format cannot hold of it. */
function stripsOf(
  document: NotebookDocument,
  told: readonly Warning[],
): Pick<ReadingsFile, 'strips' | 'warnings'> {
  const { strips, warnings } = stripsFromDocument(document);
  return { strips, warnings: [...told, ...warnings] };
}

/** How the notebook of a file of readings is made. */
function notebookOptions(
  { exposure: { logExposure, sourceLogExposure } }: StripOptions,
  given: Arguments,
  file: string,
): DocumentFromStripsOptions {
  const counts = { strip: 0, tablet: 0, paper: 0 };
  const tabletId = given.text('tablet');
  return {
    title: given.text('title') ?? CONVERT_WORDS.title(fileName(file)),
    paperName: fileName(file),
    makeId: (kind) => `${kind}-${(counts[kind] += 1)}`,
    ...(logExposure !== undefined && { logExposure }),
    ...(sourceLogExposure !== undefined && { sourceLogExposure }),
    ...(tabletId !== undefined && { tabletId: tabletId.toLowerCase() }),
  };
}

async function* onePiece(text: string): AsyncGenerator<string> {
  await Promise.resolve();
  yield text;
}
