/**
 * The measures of film strips as CSV: one row a strip, numbers in full, each measure with its
 * standard error in the next column.
 *
 * Sources: [RFC4180]. Deviations: none.
 */
import type { Estimate } from '@wedgebook/core';
import { csvFormatRow } from 'd3-dsv';
import type { MeasuredFilm } from './film-text.ts';
import { shownWarnings } from './warnings.ts';

type Cell = string | number | boolean | null | undefined;

/** Name of the column, and what stands in it. */
const COLUMNS: readonly (readonly [string, (one: MeasuredFilm) => Cell])[] = [
  ['strip', ({ fitted }) => fitted.strip.name],
  ['channel', ({ fitted }) => fitted.strip.channel],
  ['minutes', ({ fitted }) => fitted.strip.minutes],
  ['celsius', ({ fitted }) => fitted.strip.celsius],
  ['treatment', ({ fitted }) => fitted.strip.treatment],
  ['parts_water', ({ fitted }) => fitted.strip.partsWater],
  ['bath_minutes', ({ fitted }) => fitted.strip.bathMinutes],
  ['bath_celsius', ({ fitted }) => fitted.strip.bathCelsius],
  ['points', ({ fitted }) => fitted.points],
  ['exposure_kind', ({ fitted }) => fitted.exposureKind],
  ['model', ({ fitted }) => fitted.curve?.family],
  ...measured('base_fog', ({ measures }) => measures?.baseFog),
  ...measured('density_max', ({ measures }) => measures?.densityMax),
  ...measured('gamma', ({ measures }) => measures?.gamma),
  ...measured('contrast_index', ({ measures }) => measures?.contrastIndex),
  ...gradient('+1.30'),
  ...gradient('+1.50'),
  ...measured('speed_point_log_exposure', ({ measures }) => measures?.speedPoint?.logExposure),
  ...measured('inertia_log_exposure', ({ measures }) => measures?.inertia?.logExposure),
  ...measured('iso_density_rise', ({ measures }) => measures?.isoTriangle?.densityRise),
  ['iso_condition_met', ({ measures }) => measures?.isoTriangle?.met],
  ['speed_kind', ({ measures }) => measures?.speed?.kind],
  ['speed_arithmetic', ({ measures }) => measures?.speed?.arithmetic],
  ['speed_degrees', ({ measures }) => measures?.speed?.degrees],
  ...measured('speed_exact', ({ measures }) => measures?.speed?.exact),
  ['residual_standard_deviation', ({ fitted }) => fitted.curve?.residualStandardDeviation],
  ['degrees_of_freedom', ({ fitted }) => fitted.curve?.degreesOfFreedom],
  [
    'warnings',
    ({ fitted, measures }) =>
      [
        ...new Set(
          shownWarnings(fitted.warnings, measures?.warnings ?? []).map(({ code }) => code),
        ),
      ].join(' '),
  ],
];

/** The header row. */
export const filmCsvHeader = (): string => row(['file', ...COLUMNS.map(([name]) => name)]);

/** One strip. */
export const filmCsvRow = (file: string, one: MeasuredFilm): string =>
  row([file, ...COLUMNS.map(([, cell]) => cell(one))]);

const row = (cells: readonly Cell[]): string =>
  `${csvFormatRow(cells.map((cell) => String(cell ?? '')))}\r\n`;

function measured(
  name: string,
  of: (one: MeasuredFilm) => Estimate | null | undefined,
): [string, (one: MeasuredFilm) => Cell][] {
  return [
    [name, (one) => of(one)?.value],
    [`${name}_standard_error`, (one) => of(one)?.standardError],
  ];
}

/** From net 0.10 over so much log exposure. */
function gradient(to: string): [string, (one: MeasuredFilm) => Cell][] {
  return measured(
    `average_gradient_${to.replace('+', '').replace('.', '_')}`,
    ({ measures }) => measures?.averageGradients.find((each) => each.to === to)?.value,
  );
}
