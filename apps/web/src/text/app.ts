/** Words of the page around the stations. */
import { localDay } from '../state/local-day.ts';
import { plural } from './phrases.ts';

export const app = {
  name: 'Wedgebook',
  title: 'Title of the notebook',
  undo: 'Undo',
  redo: 'Redo',
  theme: 'Theme',
  themes: { system: 'as the system', light: 'light', dim: 'dim', darkroom: 'red on black' },
  export: 'Export',
  import: 'Open file',
  columnsRemembered:
    'The columns were taken as you said before for a table with these names of columns.',
  askColumns: 'The columns are something else …',
  understood: 'Understood',
  dropOne: 'One file at a time: nothing was opened. Drop them one after another.',
  fileTooLarge: (file: string, megabytes: number) =>
    `${file} has ${megabytes} MB, more than this page can hold. Split it, or use the command.`,
  correctFigures: 'Put the usual ones in their place',
  figuresCorrected: 'The usual figures are in their place. Undo brings the others back.',
  tabletAssumed:
    'The file gives steps alone; they were taken as those of a tablet of 21 steps of 0.15. Choose the tablet of each strip if it was another.',
  readingsAdded: (strips: number, file: string) =>
    `${plural(strips, 'strip')} added from ${file}. Undo takes them out again.`,
  namesake: {
    alike: (name: string) =>
      `The notebook had a strip “${name}” with the same readings; it stands there twice now. Remove one of the two, or take the file back with Undo.`,
    other: (name: string) =>
      `The notebook had a strip “${name}” with other readings or steps; both are kept. Give one of them another name.`,
  },
  empty: 'Start an empty notebook',
  demo: 'Open the demonstration notebook',
  print: 'Print',
  tools: 'Notebook',
  stations: 'Stations',
  skip: 'Skip to the readings',
  stationComes: 'This part is being fetched.',
  stationFailed:
    'This part could not be fetched. The notebook is safe; check the connection and try again.',
  again: 'Try again',
  invented:
    'This is a demonstration: every reading in it is invented. Look round, change anything, or begin your own.',
  inventedTag: 'invented data',
  saved: (at: Date | null) => (at === null ? 'Not changed yet' : `Saved ${time(at)}`),
  exported: (at: Date | null) => (at === null ? 'never exported' : `exported ${DAY.format(at)}`),
  exportedNow: (file: string) => `Notebook exported as ${file}.`,
  emptied: 'An empty notebook. The one before comes back with Undo.',
  undone: 'Undone.',
  redone: 'Redone.',
  nothingToUndo: 'There is nothing to undo.',
  nothingToRedo: 'There is nothing to redo.',
  offline: {
    ready: 'This browser has kept the app: it opens without a network.',
    'not-here':
      'This browser keeps no copy of the app: it opens only while its address can be reached.',
  },
  newer: 'A newer version of Wedgebook is here. The notebook stays as it is.',
  useNewer: 'Use the newer version',
  safelight:
    'Red on black is no safelight. Film needs total darkness; before you use any screen near paper, leave a pre-exposed piece beside it and look for fog.',
  footer:
    'Everything stays in this browser. Export now and then: browsers may clear what they keep.',
  importFailed: (why: string) => `The file was not opened; nothing was changed. ${why}`,
  fileName: (title: string, date: Date) =>
    `${
      title
        .trim()
        .toLowerCase()
        .replace(/[^\p{L}\p{N}]+/gu, '-')
        .replace(/^-|-$/g, '') || 'notebook'
    }-${localDay(date)}.json`,
};

/** Made once: the time of saving is written again at every keystroke. */
const CLOCK = new Intl.DateTimeFormat([], { hour: '2-digit', minute: '2-digit' });
const DAY = new Intl.DateTimeFormat([], { year: 'numeric', month: 'short', day: 'numeric' });

function time(date: Date): string {
  const sameDay = date.toDateString() === new Date().toDateString();
  const clock = CLOCK.format(date);
  return sameDay ? clock : `${DAY.format(date)}, ${clock}`;
}
