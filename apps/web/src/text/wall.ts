/** Words of the table for the darkroom wall, the areas, the enlarger and the prints made. */
import { formatNumber, formatSigned } from '@wedgebook/charts';
import type { DarkroomStep, DryDown } from '@wedgebook/core';

export const wall = {
  title: 'At the enlarger',
  says: 'The exposures of the print in their order, with what the timer shows. Areas are counted in stops of the exposure that they belong to.',
  nothing:
    'Give the exposure that a test strip found right, or take a split, and the table for the darkroom wall stands here.',
  lights: { whole: 'one exposure', soft: 'soft light', hard: 'hard light' },
  areas: 'Burning in and dodging',
  addArea: '+ Area',
  area: 'area',
  newArea: (number: number) => `area ${number}`,
  density: 'negative there, density',
  light: 'light',
  stops: 'stops (− dodges)',
  becomes: 'untreated, prints as',
  from: (before: number, after: number) => `${formatNumber(before, 2)} → ${formatNumber(after, 2)}`,
  remove: 'Remove',
  removeArea: (name: string) => `Remove ${name}`,
  nameOf: 'Name of the area',
  densityOf: (name: string) => `Density of the negative in ${name}`,
  stopsOf: (name: string) => `Stops for ${name}`,
  lightOf: (name: string) => `Light for ${name}`,
  table: 'Table for the darkroom wall',
  step: 'step',
  timer: 'timer, s',
  exact: 'reckoned, s',
  total: 'from the start, s',
  doWhat: ({ kind, area, stops }: DarkroomStep): string => {
    switch (kind) {
      case 'whole':
        return 'whole sheet';
      case 'dodge':
        return `hold back ${area} (${formatSigned(stops ?? 0, 2)} stops), within this exposure`;
      case 'burn':
        return `burn in ${area} (${formatSigned(stops ?? 0, 2)} stops)`;
    }
  },
  size: 'Another size, another aperture',
  magnification: 'Magnification now',
  times: '×',
  newMagnification: 'wanted',
  aperture: 'Aperture now, f/',
  newAperture: 'wanted, f/',
  change: (factor: number, stops: number, seconds: number | null): string =>
    `All times × ${formatNumber(factor, 2)} (${formatSigned(stops, 2)} stops)${
      seconds === null
        ? ''
        : `: the base of ${formatNumber(seconds, 1)} s becomes ${formatNumber(seconds * factor, 1)} s`
    }. The law of the distance holds for a lens without much bellows; trust a test strip at great changes.`,
  dry: 'Dry-down and safelight',
  dryDown: 'Shorten exposures for drying by',
  percent: '%',
  dryDownHelp:
    'Prints dry darker. Common practice is about 10\u00a0%; make one print, dry it, and compare it with wet ones given less.',
  dried: ({ seconds, stops }: DryDown): string =>
    `The base becomes ${formatNumber(seconds, 1)} s (${formatSigned(stops, 2)} stops).`,
  noPaper: 'Choose a paper of your own under Match to keep these with it.',
  safelight: 'Safe under the safelight for',
  minutes: 'min',
  safelightSteps: [
    'In darkness give a sheet an exposure that prints a light grey, net 0.15 to 0.40.',
    'Lay coins on it at the place where you work and switch the safelight on. Move a card along every two minutes, up to twice the time you need.',
    'Develop. The longest time whose edge under the coins cannot be seen is safe; unexposed white proves nothing, since fog shows first on what has had light.',
  ],
  safelightTitle: 'How to test a safelight',
  prints: 'Prints made',
  note: 'Note this print',
  noted: (name: string) => `${name} noted.`,
  noneMade: 'None noted yet.',
  print: 'print',
  day: 'day',
  name: 'name',
  exposure: 'exposure',
  on: 'on',
  notes: 'note',
  removePrint: (name: string) => `Remove ${name}`,
  seconds: (one: number | null, soft: number | null, hard: number | null): string => {
    if (soft !== null && hard !== null) {
      return `soft ${formatNumber(soft, 1)} s + hard ${formatNumber(hard, 1)} s`;
    }
    return one === null ? '–' : `${formatNumber(one, 1)} s`;
  },
};
