/**
 * `film`: the measures of film strips, of one file or many. Strips are measured one by one and only
 * what is shown of them is kept, so that memory does not grow with the curves.
 */
import { compareFamilies, filmMeasures, warning, type Warning } from '@wedgebook/core';
import { InputError, inputFault, type ReadingsStrip } from '@wedgebook/notebook';
import type { Arguments } from '../input/arguments.ts';
import { manyFiles } from '../input/files.ts';
import { readAgain } from '../input/read-again.ts';
import { fileName, readReadingsFile, streamStrips } from '../input/read-file.ts';
import {
  requireSourceOf,
  STRIP_OPTIONS,
  stripOptions,
  type StripOptions,
} from '../input/strip-options.ts';
import type { CommandIo, Streamed } from '../io.ts';
import { filmCsvHeader, filmCsvRow } from '../output/film-csv.ts';
import { filmJson } from '../output/film-json.ts';
import { filmBlock, filmSummary, filmSummaryRow, type MeasuredFilm } from '../output/film-text.ts';
import { shownWarnings, warningLines } from '../output/warnings.ts';
import { eachAsRead } from '../strips/each-as-read.ts';
import { fittedStrip } from '../strips/fitted-strip.ts';
import { MESSAGES, USAGE } from '../text.ts';
import { UsageError } from '../usage-error.ts';
import type { Verb } from './verb.ts';

export const film: Verb = {
  options: {
    ...STRIP_OPTIONS,
    'iso-tolerance': { type: 'string' },
    compare: { type: 'boolean' },
    jsonl: { type: 'boolean' },
    csv: { type: 'boolean' },
    'keep-going': { type: 'boolean' },
  },
  run: async (given, io) => {
    const [output = 'text', ...others] = (['json', 'jsonl', 'csv'] as const).filter(given.flag);
    if (others.length > 0) throw new UsageError(USAGE.oneOutput);
    if (output === 'csv' && given.flag('compare')) throw new UsageError(USAGE.noComparison);
    const byStrip = output === 'jsonl' || output === 'csv';
    if (given.flag('keep-going') && !byStrip) throw new UsageError(USAGE.keepGoingAlone);
    const measure = measurer(given);
    const files = await manyFiles(given, io);
    if (byStrip) {
      return { pieces: streamed(files, output, given, io, measure) };
    }
    const whole = output === 'json' ? document : readable;
    return inPasses(io, (source, again) => whole(files, given, again, measure, source));
  },
};

type Measure = (strip: ReadingsStrip, options: StripOptions) => MeasuredFilm;

function measurer(given: Arguments): Measure {
  const isoTolerance = given.number('iso-tolerance', 0, 1) ?? 0.05;
  const compares = given.flag('compare');
  return (strip, { exposure, model }) => {
    const fitted = fittedStrip(strip, exposure, model);
    const { curve, exposureKind } = fitted;
    return {
      fitted,
      measures: curve && filmMeasures(curve, { exposureKind, isoTolerance }),
      compared: curve !== null && compares ? compareFamilies(fitted.readings, curve.family) : null,
    };
  };
}

/** One line or row a strip, shown as soon as the strip has been read. */
async function* streamed(
  files: readonly string[],
  output: 'jsonl' | 'csv',
  given: Arguments,
  io: CommandIo,
  measure: Measure,
): AsyncGenerator<string> {
  let head = output === 'csv' ? filmCsvHeader() : '';
  let failed: InputError | null = null;
  let inAll = 0;
  for (const file of files) {
    const options = stripOptions(given, file);
    const name = fileName(file);
    const warnings: Warning[] = [];
    let left = 0;
    let measured = 0;
    try {
      const strips = streamStrips(file, io, options, (told) => warnings.push(...told));
      yield* eachAsRead(strips, (strip) => {
        requireSourceOf(strip, options);
        if ((strip.material ?? 'film') !== 'film') {
          left += 1;
          return '';
        }
        measured += 1;
        const one = measure(strip, options);
        if (output === 'jsonl') return `${JSON.stringify({ file: name, ...filmJson(one) })}\n`;
        const rows = `${head}${filmCsvRow(name, one)}`;
        head = '';
        return rows;
      });
      inAll += measured;
    } catch (error) {
      if (!(error instanceof InputError && given.flag('keep-going'))) throw error;
      if (failed !== null) io.stderr(MESSAGES.input(failed.message));
      failed = error;
    }
    if (left > 0 && (measured > 0 || files.length > 1)) warnings.push(paperLeftOut(left));
    if (warnings.length > 0) io.stderr(warningLines(shownWarnings(warnings), `${name}: `));
  }
  // The last fault ends the command as any fault does.
  if (failed !== null) throw failed;
  requireFilm(inAll, files);
}

/** Paper among film takes no part, nor does a file of paper among others. */
const paperLeftOut = (count: number): Warning =>
  warning('strips-left-out', { count, material: 'paper' });

/** @throws {InputError} where none of the files holds a strip of film */
function requireFilm(measured: number, files: readonly string[]): void {
  if (measured > 0) return;
  throw inputFault.noStrips({ file: files.map(fileName).join(', ') }, 'film');
}

/** One JSON document; that of one file is the contract, of many each strip names its file. */
async function document(
  files: readonly string[],
  given: Arguments,
  io: CommandIo,
  measure: Measure,
  source: Source,
): Promise<Streamed> {
  const spool = io.spool();
  const warnings: object[] = [];
  const fileKey = (file: string) => (files.length === 1 ? {} : { file: fileName(file) });
  try {
    let between = '{\n  "strips": [\n    ';
    await eachStrip(files, given, io, source, {
      strip: (strip, options, file) => {
        const one = { ...fileKey(file), ...filmJson(measure(strip, options)) };
        spool.add(between + indented(one, 2));
        between = ',\n    ';
      },
      warnings: (told, file) => {
        warnings.push(...shownWarnings(told).map((one) => ({ ...fileKey(file), ...one })));
      },
    });
    spool.add(`\n  ],\n  "warnings": ${indented(warnings, 1)}\n}\n`);
  } catch (error) {
    spool.drop();
    throw error;
  }
  return { pieces: spool.pieces() };
}

/** A summary of all strips, then each in full. */
async function readable(
  files: readonly string[],
  given: Arguments,
  io: CommandIo,
  measure: Measure,
  source: Source,
): Promise<Streamed> {
  const spool = io.spool();
  const rows: (readonly string[])[] = [];
  let head = '';
  let lastFile: string | null = null;
  try {
    await eachStrip(files, given, io, source, {
      strip: (strip, options, file) => {
        const one = measure(strip, options);
        rows.push(filmSummaryRow(one));
        const newFile = files.length > 1 && file !== lastFile ? `${fileName(file)}\n\n` : '';
        lastFile = file;
        spool.add(`\n${newFile}${filmBlock(one)}`);
      },
      warnings: (told, file) => {
        head += warningLines(shownWarnings(told), files.length === 1 ? '' : `${fileName(file)}: `);
      },
    });
  } catch (error) {
    spool.drop();
    throw error;
  }
  const parts = [head, rows.length > 1 ? filmSummary(rows) : ''].filter((part) => part !== '');
  return { pieces: withHead(parts.join('\n'), spool.pieces()) };
}

/** Blocks stand apart by a blank line, which the first of an output without a head does not need. */
async function* withHead(head: string, blocks: AsyncIterable<string>): AsyncGenerator<string> {
  let begun = head !== '';
  if (begun) yield head;
  for await (const text of blocks) {
    yield begun ? text : text.slice(1);
    begun ||= text !== '';
  }
}

/** Strip by strip while a file is read, or from a file that was read as a whole. */
type Source = 'streamed' | 'whole';

/**
 * Measures strips while their file is read, so that a few are held at a time. Where a strip goes on
 * after many others the files are read again, each as a whole.
 */
async function inPasses(
  io: CommandIo,
  pass: (source: Source, io: CommandIo) => Promise<Streamed>,
): Promise<Streamed> {
  const again = readAgain(io);
  try {
    return await pass('streamed', again.io);
  } catch (error) {
    if (!(error instanceof InputError && error.code === 'strip-goes-on')) throw error;
    return await pass('whole', again.io);
  } finally {
    again.forget();
  }
}

/** The film strips of the files, and what concerns each file. */
async function eachStrip(
  files: readonly string[],
  given: Arguments,
  io: CommandIo,
  source: Source,
  to: {
    readonly strip: (strip: ReadingsStrip, options: StripOptions, file: string) => void;
    readonly warnings: (warnings: readonly Warning[], file: string) => void;
  },
): Promise<void> {
  let inAll = 0;
  for (const file of files) {
    const options = stripOptions(given, file);
    const warnings: Warning[] = [];
    let left = 0;
    const whole = source === 'whole' ? await readReadingsFile(file, io, options) : null;
    const strips =
      whole?.strips ?? streamStrips(file, io, options, (told) => warnings.push(...told));
    warnings.push(...(whole?.warnings ?? []));
    const done = eachAsRead(strips, (strip) => {
      requireSourceOf(strip, options);
      const isFilm = (strip.material ?? 'film') === 'film';
      if (isFilm) to.strip(strip, options, file);
      return isFilm;
    });
    for await (const isFilm of done) {
      if (isFilm) inAll += 1;
      else left += 1;
    }
    if (left > 0) warnings.push(paperLeftOut(left));
    to.warnings(warnings, file);
  }
  requireFilm(inAll, files);
}

/** JSON as it stands so deep in a document. */
function indented(value: unknown, depth: 1 | 2): string {
  // Written inside lists, whose marks are then cut off: faster than moving each line in.
  const [begin, end] = depth === 1 ? ['[\n  ', '\n]'] : ['[\n  [\n    ', '\n  ]\n]'];
  const text = JSON.stringify(depth === 1 ? [value] : [[value]], null, 2);
  return text.slice(begin.length, -end.length);
}
