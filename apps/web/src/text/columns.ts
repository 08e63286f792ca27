/** Words of saying what the columns of a table are. */
import type { ColumnRole, RolesFault } from '@wedgebook/notebook';
import type { BlockColumn } from '../worksheet/parse-block.ts';

export const columns = {
  title: 'What are these columns?',
  intro: (rows: number, shown: number) =>
    `Say what each column holds. ${rows > shown ? `The first ${shown} of ${rows} rows are shown.` : ''}`,
  column: (number: number) => `Column ${number} is`,
  ordinal: (number: number) => `Column ${number}`,
  remembered: 'What you choose is kept in this browser for tables with the same names of columns.',
  take: 'Take them so',
  cancel: 'Take nothing',
  unnamed: 'no name',
  roles: {
    ignored: 'left out',
    step: 'step',
    tablet_density: 'tablet density',
    log_exposure: 'log exposure (log₁₀ lx·s)',
    density: 'density',
    strip_density: 'density, a strip of its own',
    strip: 'name of the strip',
    material: 'film or paper',
    channel: 'colour channel',
    minutes: 'development, minutes',
    celsius: 'development, °C',
    treatment: 'treatment',
    parts_water: 'bath, parts of water',
    bath_minutes: 'bath, minutes',
    bath_celsius: 'bath, °C',
    processed_on: 'day (year-month-day)',
    control: 'control strip, yes or no',
    setting: 'setting of the paper',
    soft_seconds: 'soft light, seconds',
    hard_seconds: 'hard light, seconds',
  } satisfies Record<ColumnRole, string>,
  block: {
    ignored: 'left out',
    step: 'step',
    'tablet-density': 'tablet density',
    'log-exposure': 'log exposure',
    reading: 'reading',
  } satisfies Record<BlockColumn, string>,
  faults: {
    'no-density': 'No column holds densities: choose one.',
    'no-exposure': 'No column tells the step, the tablet density or the log exposure: choose one.',
    'both-densities':
      'Columns of density are either readings of one strip or a strip each, not both.',
    twice: 'Two columns are said to be the same; only densities may come more than once.',
  } satisfies Record<RolesFault, string>,
  noReading: 'No column holds readings: choose one.',
  twiceBlock: 'Two columns are said to be the same; only readings may come more than once.',
};
