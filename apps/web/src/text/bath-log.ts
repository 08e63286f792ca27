/** Words of the timer, the steps and the bath log. */
import { formatMinutes, formatNumber } from '@wedgebook/charts';
import type { BathCapacity } from '@wedgebook/core';
import type { WorkingBath } from '@wedgebook/notebook';
import { plural, trimmed } from './phrases.ts';

export const timer = {
  title: 'Timer',
  left: 'Time left',
  progress: 'Part of the bath that is done',
  start: (minutes: number) => `Start ${formatMinutes(minutes)}`,
  goOn: 'Go on',
  pause: 'Pause',
  reset: 'Reset',
  trySound: 'Try the sound',
  agitation: 'Remind me to agitate every',
  agitationUnit: 's, 0 for never',
  signals: {
    agitate: 'Agitate now.',
    soon: 'A quarter of a minute left: be ready to drain.',
    end: 'Done: out of the bath and into the rinse.',
  },
  pageTitle: (left: string, title: string) => `${left} · ${title}`,
  noSound: 'This browser gives no sound: watch the figures.',
  hint: 'The signals sound in a tab in the background too. Try the sound before the lights go out; a screen is no safelight.',
};

export const steps = {
  title: 'Step by step',
  when: { before: 'Before the bath', during: 'In the bath', after: 'After the bath' },
  washing: (fromOne: number, fromTen: number, limit: number) =>
    `Washing: running water halves the thiosulfate in about a minute. From 1 g/m² to the limit for keeping, ${formatNumber(limit, 3)} g/m², that is ${formatMinutes(fromOne)}, from 10 g/m² ${formatMinutes(fromTen)}; a test of the washed film settles it.`,
  washingSource:
    'Navy training text (halving) and ANSI/NAPM IT9.1-1996 (limit); the start depends on fixer and film.',
};

export const bathLog = {
  title: 'Bath log',
  says: 'A working bath is used again until it is spent. Write down what goes through it.',
  name: 'bath',
  add: '+ Bath, mixed today',
  bathName: 'Name',
  mixedOn: 'Mixed on',
  volume: 'Working solution',
  dilution: 'Dilution',
  concentrate: 'Selenium in the concentrate',
  concentrateUnit: 'g/l, by its safety data sheet',
  films: 'Films in this bath',
  filmName: 'film',
  day: 'day',
  area: 'area, cm²',
  density: 'mean net density',
  remove: (name: string) => `Remove ${name}`,
  addFilm: 'Add to this bath',
  format: 'What goes in',
  formats: [
    ['36 frames of 24 × 36 mm', 311],
    ['12 frames of 56 × 56 mm', 376],
    ['sheet 4 × 5 in', 129],
    ['sheet 5 × 7 in', 226],
    ['sheet 8 × 10 in', 516],
  ] as readonly (readonly [string, number])[],
  summary: ({ name, mixedOn, volumeMillilitres, partsWater, films }: WorkingBath) =>
    `${name}: ${trimmed(volumeMillilitres)} ml at 1+${trimmed(partsWater)}${mixedOn === null ? '' : `, mixed ${mixedOn}`}, ${films.length === 0 ? 'no film yet' : plural(films.length, 'entry', 'entries')}`,
  capacity: ({ used, left, mixedGrams, slower }: BathCapacity, films: number): string => {
    if (films === 0) {
      return mixedGrams === null
        ? 'Nothing has been toned in this bath yet. What a film leaves in it cannot be told without the selenium in the concentrate.'
        : `Nothing has been toned in this bath yet: all of its ${formatNumber(mixedGrams, 1)} g of selenium is there.`;
    }
    const [low, usual, high] = used.seleniumGrams;
    const taken = `The films have bound about ${formatNumber(usual, 3)} g of selenium (${formatNumber(low, 3)} to ${formatNumber(high, 3)} g)`;
    if (left === null || mixedGrams === null || slower === null) {
      return `${taken}. How much is left cannot be told without the selenium in the concentrate.`;
    }
    const percent = (part: number) => formatNumber(100 * part, 1);
    const rate = Number.isFinite(slower[1])
      ? `the same dose takes ×${formatNumber(slower[1], 2)} the minutes`
      : 'nothing works any more';
    return `${taken} of ${formatNumber(mixedGrams, 1)} g: ${percent(left[1])} % is left (${percent(left[2])} to ${percent(left[0])} %), ${rate}.`;
  },
  assumptions:
    'Reckoned from area × mean net density × 1.3 g of silver per m² at density 1 (1 to 3 published), all of it turned into silver selenide. Carry-over by wet film, air, and the toner’s other parts are not reckoned, so the bath is spent sooner. Signs of a spent bath (common practice, unverified): a trial piece that gains less in the same time, a deposit in the bottle, no smell of ammonia where there was one. Tone a trial piece before a negative that matters.',
};
