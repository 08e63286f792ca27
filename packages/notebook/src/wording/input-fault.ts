/**
 * Every fault of a file of readings, in words: what is wrong, where, and what to do.
 */
import { InputError, type Place } from '../notebook-error.ts';
import { remedyForUnit, remedyForWords } from './number-remedies.ts';

const shown = (text: string): string => {
  const short = text.length > 30 ? `${text.slice(0, 30)}…` : text;
  return `"${short.replaceAll(/[\u0000-\u001f]/g, ' ')}"`;
};
const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
const many = (count: number, one: string, more: string) => `${count} ${count === 1 ? one : more}`;

/** Makers of `InputError`, by fault. */
export const inputFault = {
  empty: (place: Place) =>
    new InputError('file-empty', place, 'the file is empty', 'Give a header row and readings'),

  binary: (place: Place) =>
    new InputError(
      'file-binary',
      place,
      'the file holds binary data, not text',
      'Save the readings as CSV in UTF-8; a spreadsheet does this by "save as"',
    ),

  encoding: (place: Place) =>
    new InputError(
      'file-encoding',
      place,
      'the file is not UTF-8 text',
      'Save it again as CSV in UTF-8',
    ),

  unreadable: (place: Place, reason: string) =>
    new InputError(
      'file-unreadable',
      place,
      `the file cannot be read: ${reason}`,
      'Check the name and the permissions',
    ),

  directory: (place: Place) =>
    new InputError(
      'file-unreadable',
      place,
      'the file cannot be read: this is a directory',
      'Name a file in it; the verb film alone takes directories',
    ),

  emptyDirectory: (place: Place) =>
    new InputError(
      'directory-empty',
      place,
      'the directory holds no file of readings',
      'Give files that end in .csv, .tsv, .txt, .cgats or .json',
    ),

  unwritable: (place: Place, reason: string) =>
    new InputError(
      'file-unwritable',
      place,
      `the file cannot be written: ${reason}`,
      'Choose another name or place',
    ),

  wouldReplace: (place: Place) =>
    new InputError(
      'would-replace',
      place,
      'a file of another kind is there already and was left as it is',
      'Choose another name',
    ),

  tooLarge: (place: Place, most: string) =>
    new InputError(
      'file-too-large',
      place,
      `the file is larger than ${most}`,
      'Split it by strips and give the parts one by one; sorted by strip, the command reads it at any length',
    ),

  stripGoesOn: (place: Place, strip: string) =>
    new InputError(
      'strip-goes-on',
      place,
      `strip ${shown(strip)} goes on after many others, when its result was already given`,
      'Sort the file by strip, or leave out --jsonl and --csv',
    ),

  openQuote: (place: Place) =>
    new InputError(
      'quote-open',
      place,
      'a quotation mark is opened and never closed',
      'Close it, or double it where it is part of the text',
    ),

  rowTooLong: (place: Place, most: number) =>
    new InputError(
      'row-too-long',
      place,
      `the row does not end within ${most} characters`,
      'Check that the file has lines, and that no quotation mark is left open',
    ),

  noHeader: (place: Place, known: readonly string[]) =>
    new InputError(
      'no-header',
      place,
      'the first row has no column names',
      `Put a header row first, with names such as ${known.join(', ')}`,
    ),

  missingColumn: (
    place: Place,
    names: readonly string[],
    found: readonly string[] = [],
    remedy?: string,
  ) =>
    new InputError(
      'missing-column',
      place,
      `there is no column ${names.map((name) => `"${name}"`).join(' or ')}${
        found.length === 0 ? '' : `; the header has ${found.map((name) => `"${name}"`).join(', ')}`
      }`,
      remedy ?? 'Add it, or correct the name in the header',
    ),

  doubleColumn: (place: Place) =>
    new InputError(
      'double-column',
      place,
      'this column is there twice',
      'Remove one of the two, or give it another name',
    ),

  noRows: (place: Place) =>
    new InputError(
      'no-rows',
      place,
      'there are no readings below the header',
      'Add one row for each reading',
    ),

  extraFields: (place: Place, found: number, expected: number, commaForPoint: boolean) =>
    new InputError(
      commaForPoint ? 'comma-for-point' : 'extra-fields',
      place,
      `the row has ${many(found, 'field', 'fields')}, the header ${expected}`,
      commaForPoint
        ? 'A decimal comma was probably read as a separator: write decimal points, or separate the columns by semicolons'
        : 'Remove the extra fields, or quote text that holds the separator',
    ),

  commaForPoint: (place: Place, text: string) =>
    new InputError(
      'comma-for-point',
      place,
      `${shown(text)} has a decimal comma where columns are separated by commas`,
      'Write a decimal point, or separate the columns by semicolons',
    ),

  notANumber: (place: Place, text: string) =>
    new InputError(
      'not-a-number',
      place,
      `${shown(text)} is not a number`,
      `${sentence(remedyForWords(place.column ?? '', text) ?? 'write a number such as 0.45')}, or leave the cell empty where nothing was read`,
    ),

  outOfRange: (place: Place, value: number, lowest: number, highest: number) =>
    new InputError(
      'out-of-range',
      place,
      `${value} is outside ${lowest} to ${highest}`,
      sentence(
        remedyForUnit(place.column ?? '', value) ??
          'correct the number; a decimal point may be missing',
      ),
    ),

  notAName: (place: Place, text: string, names: readonly string[]) =>
    new InputError(
      'not-a-name',
      place,
      `${shown(text)} is not known here`,
      `Write one of ${names.join(', ')}`,
    ),

  dilution: (place: Place, text: string) =>
    new InputError(
      'dilution-ambiguous',
      place,
      `${shown(text)} can mean 1+n or one part in n`,
      'Write the parts of water alone, such as 9 for 1+9',
    ),

  noStripName: (place: Place) =>
    new InputError(
      'no-strip-name',
      place,
      'the row names no strip',
      'Write the name of the strip on every row',
    ),

  noExposure: (place: Place) =>
    new InputError(
      'no-exposure',
      place,
      'the row has neither a log exposure nor a tablet density',
      'Add a column "log_exposure" or "tablet_density", or name the tablet',
    ),

  stepOutsideTablet: (place: Place, step: number, steps: number) =>
    new InputError(
      'step-outside-tablet',
      place,
      `there is no step ${step} on this tablet, which has ${steps} steps`,
      'Choose the right tablet, or correct the step',
    ),

  mixedExposures: (place: Place, strip: string) =>
    new InputError(
      'mixed-exposures',
      place,
      `strip ${shown(strip)} has absolute log exposures on some rows and tablet densities on others`,
      'Give one kind for the whole strip, or the log exposure of the light source',
    ),

  tooFewPoints: (place: Place, strip: string, points: number, needed: number) =>
    new InputError(
      'too-few-points',
      place,
      `strip ${shown(strip)} has ${many(points, 'usable step', 'usable steps')}, ${many(needed, 'is', 'are')} needed`,
      'Read more steps, or remove the strip',
    ),

  cgatsIncomplete: (place: Place, section: string) =>
    new InputError(
      'cgats-incomplete',
      place,
      `the section ${section} is missing or does not end`,
      'Export the file again; an exchange file names its columns and then gives its data',
    ),

  cgatsRow: (place: Place, found: number, fields: number) =>
    new InputError(
      'cgats-row',
      place,
      `the last row has ${many(found, 'value', 'values')}, the format names ${fields}`,
      'Complete the row, or remove it',
    ),

  notADay: (place: Place, text: string) =>
    new InputError(
      'not-a-day',
      place,
      `${shown(text)} is not a day`,
      'Write year, month and day, such as 2026-05-31',
    ),

  noTimes: (place: Place, measure: string) =>
    new InputError(
      'no-times',
      place,
      `no strip gives both a development time and a ${measure}`,
      'Give the column "minutes", and strips that are exposed over a long enough range',
    ),

  nothingTreated: (place: Place) =>
    new InputError(
      'nothing-treated',
      place,
      'no strip is marked as treated',
      'Name the bath in the column "treatment" of its rows, and leave it empty for the untreated strip',
    ),

  nothingPaired: (place: Place) =>
    new InputError(
      'nothing-paired',
      place,
      'no treated strip has an untreated strip of the same exposure, so that there is no gain',
      'Add the strip as it was before the bath, with the same log exposures or tablet densities and an empty "treatment"',
    ),

  bathIncomplete: (place: Place) =>
    new InputError(
      'bath-incomplete',
      place,
      'the strip is marked as treated, but this part of its bath is not given',
      'Give parts of water and minutes for every treated strip',
    ),

  mixedProcesses: (place: Place, process: string) =>
    new InputError(
      'mixed-processes',
      place,
      `strips above were treated with ${shown(process)}, this one was not`,
      'Put each process in a file of its own',
    ),

  outOfReach: (place: Place, model: string) =>
    new InputError(
      'out-of-reach',
      place,
      `the numbers are too great or too small for ${model}: their squares leave what can be computed`,
      'Divide the column by a power of ten, or choose another model',
    ),

  outsideDomain: (place: Place, value: number, least: number, model: string) =>
    new InputError(
      'outside-domain',
      place,
      `${value} is below ${least}, where ${model} has no value`,
      'Give doses rather than their logarithms, remove the row, or choose another model',
    ),

  tooFewRows: (place: Place, different: number, parameters: number) =>
    new InputError(
      'too-few-rows',
      place,
      `there ${different === 1 ? 'is' : 'are'} ${many(different, 'different value', 'different values')}, the model has ${many(parameters, 'parameter', 'parameters')}`,
      'Add rows at other values, or choose a model with fewer parameters',
    ),

  weights: (place: Place) =>
    new InputError(
      'weights',
      place,
      'a weight is not above zero',
      'Remove the row, or give it a small positive weight',
    ),

  noStrips: (place: Place, material: 'film' | 'paper') => {
    const other = material === 'film' ? 'paper' : 'film';
    return new InputError(
      'no-strips',
      place,
      `there is no ${material} strip in the file; all its strips are ${other}`,
      `Measure them with the verb ${other}, or write "${material}" in the column "material" of their rows`,
    );
  },

  settingTwice: (place: Place, setting: string) =>
    new InputError(
      'setting-twice',
      place,
      `two strips have the setting ${shown(setting)}`,
      'Leave one of them in the file, or name their settings apart',
    ),

  settingsOutOfOrder: (place: Place, first: string, second: string) =>
    new InputError(
      'settings-out-of-order',
      place,
      `strip ${shown(first)} should be softer than ${shown(second)}, and is harder by more than the errors of both`,
      'Check that the two are not exchanged, or leave one of them out',
    ),

  paperNotFitted: (place: Place) =>
    new InputError(
      'paper-not-fitted',
      place,
      'the strips tell neither an exposure scale nor what soft and hard light do',
      'Give strips from paper white to full black, each with its setting, or with soft_seconds and hard_seconds',
    ),

  filmNotFitted: (place: Place, strip: string) =>
    new InputError(
      'film-not-fitted',
      place,
      `the readings of strip ${shown(strip)} hold no curve`,
      'Give a strip of more steps, from base + fog upwards, or name another with --film-strip',
    ),

  shadowOffCurve: (place: Place, density: number, [low, high]: readonly [number, number]) =>
    new InputError(
      'shadow-off-curve',
      place,
      `the film does not reach the density ${density.toFixed(2)} of the shadow`,
      `Its readings go from ${low.toFixed(2)} to ${high.toFixed(2)}: give --shadow as a density with base + fog, of this film`,
    ),

  tonesRefused: (
    place: Place,
    refusal:
      | { readonly reason: 'highlight-thinner-than-shadow' | 'highlight-darker-than-shadow' }
      | {
          readonly reason: 'highlight-outside-paper' | 'shadow-outside-paper';
          readonly nearest: readonly [number, number];
        },
  ) => {
    if ('nearest' in refusal && Array.isArray(refusal.nearest)) {
      const [low, high] = refusal.nearest as readonly [number, number];
      const which = refusal.reason === 'shadow-outside-paper' ? 'shadow' : 'highlight';
      return new InputError(
        refusal.reason,
        place,
        `the print density wanted for the ${which} lies outside this paper`,
        `It holds ${low.toFixed(2)} to ${high.toFixed(2)}: give --print-${which} between these`,
      );
    }
    return refusal.reason === 'highlight-thinner-than-shadow'
      ? new InputError(
          refusal.reason,
          place,
          'the highlight is thinner than the shadow; on a negative it is the denser spot',
          'Exchange --shadow and --highlight',
        )
      : new InputError(
          refusal.reason,
          place,
          'the highlight should print darker than the shadow',
          'Exchange --print-shadow and --print-highlight',
        );
  },

  settingNotReachable: (
    place: Place,
    reason: 'softer-than-softest' | 'harder-than-hardest',
    nearest: { readonly setting: string; readonly shadowPrintDensity: number },
  ) =>
    new InputError(
      'setting-not-reachable',
      place,
      reason === 'softer-than-softest'
        ? 'the negative asks for softer paper than any of these strips'
        : 'the negative asks for harder paper than any of these strips',
      `The nearest is setting ${nearest.setting}: with the highlight as wanted the shadow prints ${nearest.shadowPrintDensity.toFixed(2)}; give that as --print-shadow to go on`,
    ),

  splitNotReachable: (
    place: Place,
    reason: 'softer-than-soft' | 'harder-than-hard',
    shadowPrintDensity: number,
  ) =>
    new InputError(
      'split-not-reachable',
      place,
      reason === 'softer-than-soft'
        ? 'the negative asks for softer light than soft light alone'
        : 'the negative asks for harder light than hard light alone',
      `The nearest is ${reason === 'softer-than-soft' ? 'soft' : 'hard'} light alone: with the highlight as wanted the shadow prints ${shadowPrintDensity.toFixed(2)}; give that as --print-shadow to go on`,
    ),
} as const;
