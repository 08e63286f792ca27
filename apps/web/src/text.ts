/**
 * Every word that the app shows, except the sentences of warnings, which the notebook package
 * words for the app and the command alike, and the labels inside drawings. The longer parts stand
 * in `text/`, one file a station.
 */
import { formatNumber } from '@wedgebook/charts';
import type { Known } from '@wedgebook/core';
import { app } from './text/app.ts';
import { bathLog, steps, timer } from './text/bath-log.ts';
import { compared } from './text/compared.ts';
import { families } from './text/families.ts';
import { keeping } from './text/keeping.ts';
import { measures } from './text/measures.ts';
import { bath, gradeDetail, gradesBetween, gradeLong, gradeShort } from './text/phrases.ts';
import { readings, sheet } from './text/readings.ts';
import { curve, match, sheetFigure } from './text/results.ts';
import { mixing, treatment } from './text/treatment.ts';
import { trials } from './text/trials.ts';
import { ways } from './text/ways.ts';

const KNOWN = {
  published: 'published',
  derived: 'derived',
  practice: 'common practice',
  memory: 'from memory',
} satisfies Record<Known, string>;

export const text = {
  none: '–',
  warnings: 'Warnings',
  standardError: 'standard error',
  /** Titles of the stations that are fetched when they are needed. */
  stations: { printing: 'Print', picture: 'Picture', development: 'Development' },
  families,
  gradeShort,
  gradeDetail,
  gradesBetween,
  gradeLong,
  bath,
  units: {
    density: 'density',
    transmittance: 'transmittance',
    stops: 'stops',
    'exposure-value': 'spot meter, EV',
    lux: 'lux meter, lx',
    seconds: 'matched times, s',
  },
  names: {
    film: 'film',
    developer: 'developer',
    strip: 'strip',
    tonedStrip: 'toned strip',
    paperStrip: 'paper strip',
    negative: 'negative',
    paper: 'paper',
    ownTablet: (steps: number, number: number) => `own tablet ${number}, ${steps} steps`,
  },
  source: {
    verified: 'verified',
    unverified: 'unverified',
    /** How it is known and where from; a source that says how itself says it once. */
    knownBy: (known: Known, source: string): string =>
      source.toLowerCase().startsWith(KNOWN[known])
        ? `${KNOWN[known]}${source.slice(KNOWN[known].length)}`
        : `${KNOWN[known]}: ${source}`,
  },
  field: {
    slider: (label: string) => `${label}, slider`,
    readAs: (typed: string, value: number, unit: string) =>
      `${typed} was read as ${value} ${unit}.`,
  },
  wrong: {
    empty: 'A number is needed here; the last good one is still in use.',
    notANumber: (typed: string) =>
      `“${typed}” is not a number. Type digits with a point or a comma, or leave the cell empty.`,
    transmittance: (typed: string) =>
      `“${typed}” is no transmittance: type a part above 0 such as 0.25, or per cent such as 25 %.`,
    density: (typed: string, limits: { lowest: number; highest: number }) =>
      `“${typed}” is outside ${formatNumber(limits.lowest, 1)} to ${limits.highest}, which no film gives. Check the decimal point and the unit.`,
    outside: (typed: string, min: number, max: number, unit: string) =>
      Number.isFinite(min) && Number.isFinite(max)
        ? `“${typed}” is not used: ${formatNumber(min, 2)} to ${formatNumber(max, 2)} ${unit} can be. The last good value is still in use.`
        : `“${typed}” cannot be used here. The last good value is still in use.`,
    meterBase: 'Give the meter’s reading of the open light first: beside the choice of the unit.',
    meterReading: (typed: string) =>
      `“${typed}” is no reading through a sample: a meter shows more than 0 there.`,
    tabletCell: (typed: string, number: number) =>
      `Entry ${number}, “${typed}”, is not a density. Separate the densities by spaces, line breaks or semicolons.`,
    tabletShort: 'A tablet has at least four steps: type their densities, clear end first.',
  },
  chart: { table: 'The same figures as a table' },
  keeping,
  sheet,
  readings,
  sheetFigure,
  curve,
  measures,
  match,
  treatment,
  mixing,
  trials,
  ways,
  compared,
  timer,
  steps,
  bathLog,
  app,
};
