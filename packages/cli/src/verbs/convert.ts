/** `convert`: readings between CSV, CGATS.17 and the notebook. */
import type { Warning } from '@wedgebook/core';
import {
  curveReadingsOf,
  documentFromStrips,
  notebookToText,
  stripsFromDocument,
  writeCgats,
  writeReadings,
  type ReadingsStrip,
} from '@wedgebook/notebook';
import type { Arguments } from '../input/arguments.ts';
import { onlyFile } from '../input/only-file.ts';
import { fileName, readSource, type Source } from '../input/read-file.ts';
import { EXPOSURE_OPTIONS, requireSource, stripOptions } from '../input/strip-options.ts';
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
    if (output !== '-' && output === file) throw new UsageError(USAGE.notThisFile);
    const delimiter =
      DELIMITERS[given.choice('separator', ['comma', 'semicolon', 'tab']) ?? 'comma'];
    const decimalComma = given.flag('decimal-comma');
    if (decimalComma && delimiter === ',') throw new UsageError(USAGE.decimalCommas);

    const options = stripOptions(given, file);
    const source = await readSource(file, io, options);
    if (source.kind === 'readings') requireSource(source.readings, options);
    const converted =
      to === 'json'
        ? notebookText(source, given, file)
        : stripsText(source, (strips) =>
            to === 'csv'
              ? writeReadings(strips, { delimiter, decimalComma })
              : writeCgats(strips, { created: io.today() }),
          );
    const warnings = shownWarnings(converted.warnings);
    if (output === '-') {
      // The converted file is the output; what there is to say of it goes beside.
      return {
        json: { text: converted.text, warnings },
        text: () => converted.text,
        notes: warningLines(warnings, ''),
      };
    }
    await io.writeText(output, converted.text);
    return {
      json: { output, warnings },
      text: () => `${CONVERT_WORDS.written(output)}\n${warningLines(warnings, '')}`,
    };
  },
};

interface Converted {
  readonly text: string;
  readonly warnings: readonly Warning[];
}

function stripsText(
  source: Source,
  write: (strips: readonly ReadingsStrip[]) => string,
): Converted {
  if (source.kind === 'readings') {
    const { strips, warnings } = source.readings;
    return {
      text: write(strips),
      warnings: [...warnings, ...strips.flatMap((strip) => strip.warnings)],
    };
  }
  const { strips, warnings } = stripsFromDocument(source.document);
  return { text: write(strips), warnings: [...source.warnings, ...warnings] };
}

function notebookText(source: Source, given: Arguments, file: string): Converted {
  if (source.kind === 'notebook') {
    return { text: notebookToText(source.document), warnings: source.warnings };
  }
  const { strips, warnings } = source.readings;
  const options = stripOptions(given, file);
  const { logExposure, sourceLogExposure } = options.exposure;
  const counts = { strip: 0, tablet: 0 };
  // Exposures are resolved once, so that a step outside its tablet is told before it is stored.
  const exposed = strips.map((strip) => curveReadingsOf(strip, options.exposure, 0));
  const tabletId = given.text('tablet');
  const made = documentFromStrips(strips, {
    title: given.text('title') ?? CONVERT_WORDS.title(fileName(file)),
    makeId: (kind) => `${kind}-${(counts[kind] += 1)}`,
    ...(logExposure !== undefined && { logExposure }),
    ...(sourceLogExposure !== undefined && { sourceLogExposure }),
    ...(tabletId !== undefined && { tabletId: tabletId.toLowerCase() }),
  });
  return {
    text: notebookToText(made.document),
    warnings: [
      ...warnings,
      ...strips.flatMap((strip) => strip.warnings),
      ...exposed.flatMap((one) => one.warnings),
      ...made.warnings,
    ],
  };
}
