/** Words of the readings and the typing sheet. */
import { formatMinutes, formatNumber } from '@wedgebook/charts';
import type { Strip } from '@wedgebook/notebook';
import type { PasteResult } from '../worksheet/block-commands.ts';
import type { BlockColumn, PastedBlock } from '../worksheet/parse-block.ts';
import { treated, plural } from './phrases.ts';

export const sheet = {
  caption: (name: string) => `Readings of ${name}`,
  step: 'step',
  exposure: 'log exposure',
  exposureUnit: { relative: 'log₁₀, relative', absolute: 'log₁₀ lx·s' },
  reading: (number: number) => `reading ${number}`,
  off: 'off curve',
  offLong: 'Mean reading less the fitted curve',
  baseFog: 'base + fog',
  unexposed: 'unexposed',
  stepNumber: (step: number) => `Step ${step}`,
  cell: (row: string, number: number) => `${row}, reading ${number}`,
  exposureCell: (row: string) => `${row}, own log exposure`,
  doubtful: (cell: string, sentence: string) => `${cell}: ${sentence}`,
  nothingPasted:
    'Nothing was pasted: the clipboard holds no text. Copy the cells of the table, and paste again.',
  askColumns: 'The pasted columns are something else …',
  pasted: ({ rows, readings, wrong, base, left }: PasteResult, block: PastedBlock): string => {
    const taken = describeColumns(block);
    const parts = [
      `Pasted ${plural(readings, 'reading')} in ${plural(rows, 'row')}${block.turned ? ', turned from across to down' : ''}${block.reversed ? ', the last step first' : ''}.`,
      `Columns taken as: ${taken}.`,
      ...(block.titles.length === 0
        ? []
        : [`Left out above the table: ${block.titles.map((title) => `“${title}”`).join(', ')}.`]),
    ];
    if (base > 0) parts.push(`Base + fog from ${plural(base, 'row')}.`);
    if (left.length > 0) {
      parts.push(
        `${plural(left.length, 'row')} left out, as ${left.length === 1 ? 'it names' : 'they name'} no step: ${left.map((name) => `“${name}”`).join(', ')}.`,
      );
    }
    if (wrong > 0) {
      parts.push(
        `${plural(wrong, 'cell')} cannot be read and ${wrong === 1 ? 'is' : 'are'} kept as pasted.`,
      );
    }
    return `${parts.join(' ')} Undo takes it back.`;
  },
};

export const readings = {
  title: 'Readings',
  none: 'no strip yet',
  rack: 'Strips',
  controls: (count: number) => plural(count, 'control strip'),
  controlRack: 'Control strips',
  newStrip: '+ New strip',
  newTreated: '+ Its toned twin',
  newPaperStrip: '+ Paper strip',
  says: (read: number, steps: number, unexposed: number) =>
    `${read} of ${plural(steps, 'step')} read, ${unexposed === 0 ? 'base + fog not read' : `base + fog read ${unexposed === 1 ? 'once' : `${unexposed} times`}`}`,
  facts: ({ material, development, treatment }: Strip): string => {
    if (treatment !== null) {
      return treated(treatment);
    }
    if (material === 'paper') return 'paper';
    return development === null
      ? 'film'
      : `developed ${formatMinutes(development.minutes)}, ${formatNumber(development.celsius, 0)} °C`;
  },
  trials: (count: number) =>
    `${plural(count, 'trial piece')} ${count > 1 ? 'stand' : 'stands'} beside the bath, further down.`,
  unnamed: 'without a name',
  film: 'Film',
  noFilm: 'no film named',
  newFilm: 'a new film …',
  filmName: 'Name of the film',
  developer: 'Developer',
  noDeveloper: 'no developer named',
  newDeveloper: 'a new developer …',
  developerName: 'Name and dilution of the developer',
  process: 'Treatment',
  notModelled: (process: string) =>
    `Only “${process}” is modelled. The readings of any other treatment are kept and drawn; no gain is predicted from them.`,
  note: 'Note',
  name: 'Name',
  unit: 'Readings in',
  details: (strip: Strip, tablet: string) =>
    `${tablet}; ${strip.exposure.kind === 'absolute' ? 'calibrated light' : 'relative exposure'}${strip.treatment === null ? '' : `; ${treated(strip.treatment)}`}: change`,
  pasteHint:
    'Type a column and press Enter, or paste a block from a spreadsheet: rows or columns, with or without a header, decimal point or comma. Ctrl+Enter begins the next strip, Esc goes back to the list of strips.',
  scan: 'Read a strip from a scan or photograph',
  instrument: 'Take readings from an instrument',
  meter: {
    base: {
      'exposure-value': 'Open light, without the strip',
      lux: 'Open light, without the strip',
      seconds: 'Time without the strip',
    },
    unit: { 'exposure-value': 'EV', lux: 'lx', seconds: 's' },
    step: 'Least step of the meter',
    hint: {
      'exposure-value':
        'Read the light table bare, then each step filling the meter’s spot; mask the light beside it.',
      lux: 'Lay the meter on the light table, read it bare, then through each step, always at the same place; mask the light beside it.',
      seconds:
        'Match each step on the enlarger’s meter to the same signal, and type the seconds; a longer time is a denser step.',
    },
    error: (thin: string, dense: string, density: string) =>
      `Its step alone gives each density a standard error of ±${thin} when thin and ±${dense} at ${density}.`,
  },
  addStep: 'Add a step',
  addReplicate: 'Add a reading column',
  reverse: 'Turn the readings end for end',
  remove: 'Remove this strip',
  kept: (count: number) =>
    `${plural(count, 'entry', 'entries')} of this strip cannot be read. ${count === 1 ? 'It is' : 'They are'} kept as typed and ${count === 1 ? 'takes' : 'take'} no part until mended.`,
  tooFew: (steps: number) =>
    `${steps === 0 ? 'No step is' : `Only ${steps} ${steps === 1 ? 'step is' : 'steps are'}`} read with a known exposure; a curve needs four. Read more steps of this strip.`,
  withoutExposure: (steps: readonly number[]) =>
    steps.length === 1
      ? `Step ${steps.join()} has readings but no exposure: the tablet does not have it. Choose another tablet, or type its log exposure.`
      : `Steps ${steps.slice(0, 8).join(', ')}${steps.length > 8 ? ' …' : ''} have readings but no exposure: the tablet does not have them. Choose another tablet, or type their log exposures.`,
  tablet: 'Step tablet',
  noTablet: 'no tablet: own log exposures',
  exposure: 'Exposure',
  relative: 'relative (light not calibrated)',
  absolute: 'calibrated: log₁₀ lx·s known',
  source: 'Log exposure without the tablet',
  sourceUnit: 'log₁₀ lx·s',
  developed: 'Developed',
  developedAt: 'at',
  processedOn: 'Developed on',
  control: 'Control strip of the process',
  partner: 'Compared with',
  noPartner: 'no untreated strip',
  ownTablet: 'Enter the calibrated densities of your own tablet',
  ownTabletHint: 'Densities from the clear end, separated by spaces or lines',
  useTablet: 'Use this tablet',
  tabletAdded: (name: string) => `${name} added and used for this strip.`,
  added: (name: string) => `${name} added. Type its readings.`,
  removed: (name: string) => `${name} removed. Undo brings it back.`,
};

const COLUMN_WORDS: Readonly<Record<BlockColumn, string>> = {
  step: 'step',
  'tablet-density': 'tablet density',
  'log-exposure': 'log exposure',
  reading: 'reading',
  ignored: 'left out',
};

function describeColumns({ columns, heads }: PastedBlock): string {
  return columns
    .map((kind, index) => {
      const head = heads[index] ?? '';
      return head === '' ? COLUMN_WORDS[kind] : `“${head}” ${COLUMN_WORDS[kind]}`;
    })
    .join(', ');
}
