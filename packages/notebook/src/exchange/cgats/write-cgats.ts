/**
 * Strips as a CGATS.17 (ISO 28178) text file: tabs, quoted header strings, decimal points.
 *
 * Sources: [CGATS17]. Deviations: see `cgats-names.ts`; unread steps have no row, since the format
 * has no empty value.
 */
import type { ReadingsStrip, StepReading } from '../readings-strip.ts';
import {
  CGATS_TYPE,
  DENSITY_COLUMNS,
  LOG_EXPOSURE_COLUMN,
  MAJOR_FILTER_COLUMN,
  STEP_COLUMN,
  STRIP_KEYWORDS,
  TABLET_DENSITY_COLUMN,
  CONTROL_KEYWORD,
  UNEXPOSED_KEYWORD,
} from './cgats-names.ts';

export interface CgatsOptions {
  /** Date of the file, such as 2026-11-25: the standard asks for one. */
  readonly created: string;
  readonly originator?: string;
}

/**
 * A file written strip by strip: a table for each, or two where a strip gives some of its exposures
 * one way and some the other.
 *
 * @returns a function that gives the text of the next strip; lines end by CRLF
 */
export function cgatsWriter(options: CgatsOptions): (strip: ReadingsStrip) => string {
  let first = true;
  return (strip) =>
    alikeRows(strip)
      .map((rows, part) => {
        const own = part === 0 ? strip : { ...strip, unexposedDensities: [] };
        const lines = tableOf(own, rows, first, options);
        const between = first ? '' : '\r\n';
        first = false;
        return between + lines.map((line) => `${line}\r\n`).join('');
      })
      .join('');
}

/** @returns a file of all the strips */
export function writeCgats(strips: readonly ReadingsStrip[], options: CgatsOptions): string {
  return strips.map(cgatsWriter(options)).join('');
}

/** Rows that were read, by the exposures that they give: a table has no empty value. */
function alikeRows({ readings }: ReadingsStrip): StepReading[][] {
  const groups = new Map<string, StepReading[]>();
  for (const row of readings) {
    if (row.density === null) continue;
    const key = `${row.logExposure === null}${row.tabletDensity === null}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row]);
    else group.push(row);
  }
  return groups.size === 0 ? [[]] : [...groups.values()];
}

function tableOf(
  strip: ReadingsStrip,
  rows: readonly StepReading[],
  first: boolean,
  options: CgatsOptions,
): string[] {
  const { created, originator = 'Wedgebook' } = options;
  const has = (key: 'logExposure' | 'tabletDensity') => rows.some((row) => row[key] !== null);
  const exposures = [
    ...(has('logExposure') ? [LOG_EXPOSURE_COLUMN] : []),
    ...(has('tabletDensity') ? [TABLET_DENSITY_COLUMN] : []),
  ];
  const density = strip.channel === null ? MAJOR_FILTER_COLUMN : DENSITY_COLUMNS[strip.channel];
  const columns = [STEP_COLUMN, ...exposures, density];
  const privateColumns = [
    ...exposures,
    ...(density === DENSITY_COLUMNS.ultraviolet ? [density] : []),
  ];
  const data = rows.map((row, index) =>
    [
      row.step ?? index + 1,
      ...(row.logExposure === null ? [] : [row.logExposure]),
      ...(row.tabletDensity === null ? [] : [row.tabletDensity]),
      row.density,
    ].join('\t'),
  );
  return [
    ...(first ? [CGATS_TYPE, ''] : []),
    `ORIGINATOR\t${quoted(originator)}`,
    `FILE_DESCRIPTOR\t${quoted(`Step wedge readings, strip ${strip.name}`)}`,
    `CREATED\t${quoted(created)}`,
    ...privateHeader(strip),
    ...privateColumns.map((name) => `DATA_FORMAT_IDENTIFIER\t${quoted(name)}`),
    `NUMBER_OF_FIELDS\t${columns.length}`,
    'BEGIN_DATA_FORMAT',
    columns.join('\t'),
    'END_DATA_FORMAT',
    `NUMBER_OF_SETS\t${data.length}`,
    'BEGIN_DATA',
    ...data,
    'END_DATA',
  ];
}

/** Each private keyword is declared on the line before it is used. */
function privateHeader(strip: ReadingsStrip): string[] {
  const values: [string, string | number | null][] = Object.entries(STRIP_KEYWORDS).map(
    ([keyword, key]) => [keyword, strip[key] ?? null],
  );
  if (strip.control === true) values.push([CONTROL_KEYWORD, 'yes']);
  const unexposed = strip.unexposedDensities;
  if (unexposed.length > 0) values.push([UNEXPOSED_KEYWORD, unexposed.join(' ')]);
  return values.flatMap(([keyword, value]) =>
    value === null ? [] : [`KEYWORD\t${quoted(keyword)}`, `${keyword}\t${quoted(String(value))}`],
  );
}

/** The format has no escape: quotation marks and line ends inside a text become apostrophes, blanks. */
function quoted(text: string): string {
  return `"${text.replaceAll('"', "'").replaceAll(/\s+/g, ' ')}"`;
}
