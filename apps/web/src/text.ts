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
    /** What may be typed besides a plain number, told where an entry cannot be read. */
    hints: {
      celsius: 'Type degrees Celsius, or a temperature with its unit such as 68 °F.',
      minutes: 'Type minutes, or a time such as 6:30, 8 min 30 s or 90 s.',
      seconds: 'Type seconds, or a time such as 1:30 or 2 min.',
      millilitres: 'Type millilitres, or a volume with its unit such as 1 l.',
      dilution:
        'Type the parts of water, or the dilution as 1+3. “1:3” may mean 1+3 or one part in 3: say which.',
      stops: 'Type stops, such as 0.5, 1/3 or −2/3.',
    },
    slider: (label: string) => `${label}, slider`,
    readAs: (typed: string, figure: string) => `${typed.trim()} was read as ${figure.trim()}.`,
    /** Said until what reads units has been fetched. */
    waits: (typed: string) => `“${typed.trim()}” waits: what reads units is being fetched.`,
    unread: (typed: string) =>
      `“${typed.trim()}” has not been read yet: press Enter here to read it.`,
    readerMissing: (typed: string) =>
      `“${typed.trim()}” could not be read: what reads units did not arrive. Type a plain number, or press Enter here once there is a network.`,
  },
  wrong: {
    empty: 'A number is needed here.',
    entry: (typed: string, hint = 'Type digits with a point or a comma.') =>
      `“${typed.trim()}” cannot be read here. ${hint}`,
    /** What holds while an entry cannot be used. */
    inForce: (figure: string) => `${figure} is still in use.`,
    notANumber: (typed: string) =>
      `“${typed}” is not a number. Type digits with a point or a comma, or leave the cell empty.`,
    transmittance: (typed: string) =>
      `“${typed}” is no transmittance: type a part above 0 such as 0.25, or per cent such as 25 %.`,
    density: (typed: string, limits: { lowest: number; highest: number }) =>
      `“${typed}” is outside ${formatNumber(limits.lowest, 1)} to ${limits.highest}, which no film gives. Check the decimal point and the unit.`,
    outside: (typed: string, least: string | null, most: string | null, unit: string) => {
      const limits =
        least !== null && most !== null
          ? `from ${least} to ${most}`
          : least !== null
            ? `at least ${least}`
            : `at most ${most ?? ''}`;
      return `“${typed.trim()}” cannot be used here: it must be ${limits}${unit === '' ? '' : ` ${unit}`}.`;
    },
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
